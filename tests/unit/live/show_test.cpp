#include "live/show.h"

#include <catch2/catch.hpp>

#include "../../pages/sample_scene.h"
#include "base/angle.h"
#include "export/palette.h"
#include "live/floor_drawing.h"
#include "live/page.h"
#include "live/page_files.h"
#include "live/pictures.h"
#include "live/show_json.h"
#include "pages/overhead_parts.h"

using namespace lensward;

namespace {

struct Drawn {
  Vec2 floor;
  double facing, head;
  bool present;
};

// What a script that goes evenly from row to row shows.
Drawn drawn_at(const std::vector<ShownPlace>& track, Moment moment) {
  std::size_t at = 0;
  while (at + 1 < track.size() && track[at + 1].at <= moment) ++at;
  const ShownPlace& from = track[at];
  if (at + 1 == track.size() || !track[at + 1].present)
    return {from.floor, from.facing.value, from.head.value, from.present};
  const ShownPlace& to = track[at + 1];
  const double part = static_cast<double>((moment - from.at).count) / static_cast<double>((to.at - from.at).count);
  return {mix(from.floor, to.floor, part), mix(from.facing.value, to.facing.value, part),
          mix(from.head.value, to.head.value, part), from.present};
}

double off(double a, Degrees b) { return std::fabs(wrapped(Degrees{a} - b).value); }

bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

std::size_t count_of(const std::string& text, const std::string& part) {
  std::size_t count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
  return count;
}

}  // namespace

TEST_CASE("between two places of a track people are where the plan has them") {
  const sample::Scene scene = sample::kitchen();
  const std::vector<ShownPerson> people = shown_people(scene.results());
  REQUIRE(people.size() == 5);
  for (std::size_t i = 0; i < people.size(); ++i)
    for (std::int64_t ms = 3; ms < 12600; ms += 61) {
      const PersonState state = person_at(scene.plan, PersonId{static_cast<int>(i)}, {ms});
      const Drawn drawn = drawn_at(people[i].track, {ms});
      INFO("person " << i << " at " << ms);
      REQUIRE(drawn.present == state.present);
      if (!state.present) continue;
      CHECK(length(drawn.floor - state.at) < 0.01);
      CHECK(off(drawn.facing, state.facing) < 1.5);
      CHECK(off(drawn.head, head_bearing(state)) < 1.5);
    }
}

TEST_CASE("who stands still takes two places of a track, who comes in is away before") {
  const std::vector<ShownPerson> people = shown_people(sample::kitchen().results());
  CHECK(people[2].track.size() <= 4);
  CHECK_FALSE(people[4].track.front().present);
  CHECK(people[4].track.back().present);
}

TEST_CASE("a bearing never jumps by a turn") {
  sample::Scene scene = sample::kitchen();
  scene.plan.people[2].body = {
      {Moment{}, Moment{}, {}, Facing{Degrees{170}, {}}, Origin::said, {}},
      {Moment{1000}, Moment{2000}, Facing{Degrees{170}, {}}, Facing{Degrees{-170}, {}}, Origin::said, {}}};
  const auto track = shown_people(scene.results())[2].track;
  for (std::size_t i = 1; i < track.size(); ++i) CHECK(std::fabs((track[i].facing - track[i - 1].facing).value) < 30);
  CHECK(std::fabs(track.back().facing.value - 190) < 0.6);
}

TEST_CASE("the page's words have the signs of the line, at the times of the plan") {
  sample::Scene scene = sample::kitchen();
  Speech& speech = scene.plan.speeches[0];
  speech.words = "\"Leave it,\" he said: now!";
  speech.timed = {{"Leave", {400}, {700}, {}},
                  {"it", {700}, {900}, {}},
                  {"he", {900}, {1000}, {}},
                  {"said", {1000}, {1400}, {}},
                  {"now", {1400}, {1900}, {}}};
  const Show show = show_of(scene.results());
  std::string line;
  for (const Word& word : show.speeches[0].words) line += word.text;
  CHECK(line == speech.words);
  CHECK(show.speeches[0].words[3].text == "said: ");
  CHECK(show.speeches[0].words[3].begin == Moment{1000});
  CHECK(show.speeches[1].words.size() == 1);
}

TEST_CASE("the eye is kept where it changes, in whole percent") {
  const sample::Scene scene = sample::kitchen();
  const Show show = show_of(scene.results());
  REQUIRE(show.seen.size() >= 5);
  CHECK(show.seen[0].name == "Oda");
  CHECK(show.eye.front().asked == std::vector<int>{0});
  for (const Sample& sample : scene.attention.samples) {
    const auto later = std::ranges::upper_bound(show.eye, sample.moment, {}, &ShownEye::at);
    REQUIRE(later != show.eye.begin());
    const ShownEye& eye = *(later - 1);
    for (const Standing& standing : sample.standings)
      if (standing.target.kind == Target::Kind::person)
        CHECK(std::fabs(100 * standing.share.value - eye.shares[static_cast<std::size_t>(standing.target.index)]) <=
              0.501);
  }
}

TEST_CASE("lines tell whose they are; findings come numbered first") {
  const Show show = show_of(sample::kitchen().results());
  REQUIRE(show.beats.size() == 2);
  CHECK(show.beats[1].lines[0].concern == std::vector<PersonId>{PersonId{1}});
  REQUIRE(show.findings.size() == 3);
  CHECK(show.findings[0].number == 1);
  CHECK(show.findings[0].severity == Severity::error);
  CHECK(show.findings[0].beat == 1);
  CHECK(show.findings[2].number == 0);
}

TEST_CASE("pictures come closer together where more changes, and never more than asked") {
  const sample::Scene scene = sample::kitchen();
  const auto many = picture_moments(scene.results(), 60), few = picture_moments(scene.results(), 8);
  REQUIRE(few.size() <= 8);
  REQUIRE(few.size() >= 4);
  CHECK(few.size() < many.size());
  CHECK(many.front() == Moment{});
  CHECK(std::ranges::is_sorted(many));
  const auto in = [&](std::int64_t begin, std::int64_t end) {
    return std::ranges::count_if(many, [&](Moment at) { return begin <= at.count && at.count < end; });
  };
  // Tobias crosses before the lens, where nobody moved before.
  CHECK(in(5200, 8000) > 2 * in(800, 3300));
}

TEST_CASE("the floor's scale puts people where their tracks say") {
  const sample::Scene scene = sample::kitchen();
  const Show show = show_of(scene.results());
  const FloorDrawing floor = floor_drawing(scene.results(), show);
  CHECK(floor.scale > 5);
  for (const Vec2 corner : scene.plan.stage.room.outline) {
    const Vec2 mm{(corner.x - floor.low.x) * floor.scale, (floor.high.y - corner.y) * floor.scale};
    CHECK(mm.x > 0);
    CHECK(mm.x < floor.size.x);
    CHECK(mm.y > 0);
    CHECK(mm.y < floor.size.y);
  }
  CHECK(floor.ways.size() == 2);
  CHECK(floor.bodies.contains({0, Posture::standing}));
  CHECK(contains(floor.bodies.at({0, Posture::standing}).second, hex_of(Ink::accent)));
  CHECK_FALSE(contains(floor.bodies.at({0, Posture::standing}).first, hex_of(Ink::accent)));
}

TEST_CASE("a page is whole, and the same each time") {
  const sample::Scene scene = sample::kitchen();
  const std::string page = page_of(scene.results());
  CHECK(page == page_of(scene.results()));
  const std::string frame(page_html().bytes);
  REQUIRE(contains(frame, "[[title]]"));
  for (std::size_t at = frame.find("[["); at != std::string::npos; at = frame.find("[[", at + 1))
    CHECK_FALSE(contains(page, frame.substr(at, frame.find("]]", at) + 2 - at)));
  CHECK(count_of(page, "<section class=\"beat\"") == 2);
  CHECK(contains(page, "Twenty-two years I've cooked in this room."));
  CHECK(contains(page, page_style().digest));
  CHECK(page.ends_with("</html>\n"));
}

TEST_CASE("a page under preview is the page, and asks its server for pictures alone") {
  sample::Scene scene = sample::kitchen();
  scene.plan.stage.people[0].called = "</script><b>\"&'";
  const std::string page = preview_page_of(scene.results());
  const std::string frame(page_html().bytes);
  for (std::size_t at = frame.find("[["); at != std::string::npos; at = frame.find("[[", at + 1))
    CHECK_FALSE(contains(page, frame.substr(at, frame.find("]]", at) + 2 - at)));
  CHECK(count_of(page, "<section class=\"beat\"") == 2);
  CHECK(count_of(page, "<script") == 3);
  CHECK(count_of(page, "</script") == 3);
  CHECK_FALSE(contains(page, "href=\"data:image"));
  CHECK(contains(page, "connect-src 'self'"));
  CHECK(contains(page, preview_script().digest));
  CHECK(contains(page, "id=\"charts\""));
  CHECK(contains(page, "\"written\":"));
  CHECK_FALSE(contains(page_of(scene.results()), "connect-src"));
}

TEST_CASE("a page under preview needs no attention, no beats and no camera") {
  sample::Scene scene = sample::kitchen();
  scene.attention = {};
  scene.verdicts.clear();
  CHECK_FALSE(contains(preview_page_of(scene.results()), "id=\"charts\""));
  CHECK(contains(preview_page_of(scene.results()), "<section class=\"beat\""));
  scene.plan = {};
  CHECK(contains(preview_page_of(scene.results()), "id=\"news\""));
}

TEST_CASE("names cannot end the script or an element") {
  sample::Scene scene = sample::kitchen();
  scene.plan.stage.people[0].called = "</script><b>\"&'[[scene]]";
  scene.plan.beats[0].title = "</h3><script>";
  const std::string page = page_of(scene.results());
  CHECK(count_of(page, "<script") == 2);
  CHECK(count_of(page, "</script") == 2);
  CHECK(contains(page, "&lt;/script&gt;&lt;b&gt;&quot;&amp;'[[scene]]"));
}

TEST_CASE("a scene without a camera, or without beats, still gives a page") {
  sample::Scene scene = sample::kitchen();
  scene.plan.stage.cameras.clear();
  scene.plan.cameras.clear();
  scene.plan.cuts.clear();
  scene.reckon();
  CHECK(contains(page_of(scene.results()), "<section class=\"beat\""));
  scene.plan.beats.clear();
  scene.plan.speeches.clear();
  scene.plan.intents.clear();
  scene.reckon();
  CHECK_FALSE(contains(page_of(scene.results()), "<section class=\"beat\""));
}

TEST_CASE("digests are SHA-256 in base 64") {
  // 32 bytes are 43 digits and a sign.
  CHECK(page_style().digest.size() == 44);
  CHECK(page_style().digest.ends_with('='));
  CHECK(page_script().digest != page_style().digest);
}

TEST_CASE("the page's inks by day are the house inks") {
  const std::string style(page_style().bytes);
  for (const Ink ink : {Ink::paper, Ink::black, Ink::dark, Ink::mid, Ink::light, Ink::faint, Ink::accent}) {
    INFO(hex_of(ink));
    CHECK(contains(style, "[fill=\"" + hex_of(ink) + "\"]"));
    CHECK(contains(style, "[stroke=\"" + hex_of(ink) + "\"]"));
    CHECK(contains(style.substr(0, style.find('}')), ": " + hex_of(ink) + ";"));
  }
}
