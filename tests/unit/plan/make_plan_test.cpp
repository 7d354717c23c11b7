// From text to plan: who is there, what each deed does, and what the beat asks of the eye. Lengths are those of the
// language's reference, section 3; paths are worked by hand.
#include "plan/make_plan.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <string>

#include "base/angle.h"
#include "plan/dump.h"
#include "syntax/parse.h"

using namespace lensward;

namespace {

struct Made {
  Plan plan;
  Findings findings;

  int count(const std::string& rule) const {
    return static_cast<int>(std::count_if(findings.all().begin(), findings.all().end(),
                                          [&](const Finding& finding) { return finding.rule == rule; }));
  }
  PersonId person(const std::string& name) const {
    for (std::size_t i = 0; i < plan.stage.people.size(); ++i) {
      if (plan.stage.people[i].name == name) return PersonId{static_cast<int>(i)};
    }
    return {};
  }
  PersonState at(const std::string& name, Moment moment) const { return person_at(plan, person(name), moment); }
  Target target(const std::string& name) const { return {Target::Kind::person, person(name).index, {}}; }
};

Made made_whole(const std::string& text) {
  SourceSet sources;
  const std::int32_t file = sources.add(SourceFile("test.staging", text));
  Made all;
  const Tree tree = parse(sources, file, all.findings);
  const Script script = read_script(sources, tree, all.findings);
  all.plan = make_plan(sources, script, all.findings);
  return all;
}

Made made(const std::string& beats, const std::string& more = "") {
  return made_whole(
      "staging 1.0 scene\nscene Test\npeople Ann, Ben, Cat\nroom 8 m by 6 m\nfurniture Stool, at (6, 2) m\nfurniture "
      "Table, at (4, 4.5) m\nprop Cup, on the Table\nlight Lamp, practical, at (4, 3) m, height 2 m, gives 400 lux at "
      "1 "
      "m\ndoor Gate, in the east wall, 3 m along, width 0.9 m, inward\ncamera A, at (4, -2) m, height 1.5 m, aims at "
      "(4, 3) m, lens 35 mm, stop T2.8\ncamera B, at (0.5, 0.5) m, height 1.5 m, aims at (4, 3) m, lens 50 mm, stop "
      "T2.8\n" +
      more +
      "opening\nAnn is at (2, 2) m, facing north\nBen is at (3, 2) m, facing south\nCat is at (6, 4) m, facing west\n" +
      beats);
}

bool near(Vec2 a, Vec2 b) { return length(a - b) < 0.002; }

}  // namespace

TEST_CASE("a script without a scene gives an empty plan") {
  const Made all = made_whole("staging 1.0 scene\npeople Ann\n");
  CHECK(all.plan.beats.empty());
  CHECK(all.plan.people.empty());
}

TEST_CASE("walking takes its path at 1.2 m/s, turns the body along, and leaves a mark") {
  const Made all = made("beat One\nAnn walks to (2, 4.4) m\n");
  CHECK(all.plan.duration() == 2000_ms);
  CHECK(near(all.at("Ann", 1000_ms).at, {2, 3.2}));
  CHECK(near(all.at("Ann", 2000_ms).at, {2, 4.4}));
  CHECK(std::abs(wrapped(all.at("Ann", 1000_ms).facing).value) < 0.01);
  const auto mark = std::find_if(all.plan.marks.begin(), all.plan.marks.end(),
                                 [](const Mark& one) { return one.reached == 2000_ms; });
  REQUIRE(mark != all.plan.marks.end());
  CHECK(mark->name == "A2");
}

TEST_CASE("paces: told length, slowly, hurrying") {
  CHECK(made("beat One\nAnn walks to (2, 4.4) m, over 3 s\n").plan.duration() == 3000_ms);
  CHECK(made("beat One\nAnn walks to (2, 4.4) m, slowly\n").plan.duration() == 3200_ms);
  CHECK(made("beat One\nAnn walks to (2, 4.4) m, hurrying\n").plan.duration() == 1091_ms);
  CHECK(made("beat One\nAnn strolls to (2, 4.4) m\n").plan.duration() == 3000_ms);
}

TEST_CASE("steps and backs leave the body as it was") {
  const Made all = made("beat One\nAnn backs to (2, 1.3) m\n");
  CHECK(all.plan.duration() == 1000_ms);
  CHECK(std::abs(all.at("Ann", 500_ms).facing.value) < 0.01);
}

TEST_CASE("whoever walks to somebody goes to where they come to") {
  const Made all = made("beat One\nBen walks to (5, 2) m, named Away\nAnn walks to Ben, as Away\n");
  const double apart = length(all.at("Ann", all.plan.duration()).at - all.at("Ben", all.plan.duration()).at);
  CHECK(apart == Approx(0.9).margin(0.01));
  CHECK(all.count("place.moving-target") == 1);
}

TEST_CASE("a seat further than a step is walked to first, and it is said") {
  const Made all = made("beat One\nAnn sits on the Stool\n");
  CHECK(all.count("place.walked") == 1);
  CHECK(all.at("Ann", all.plan.duration()).posture == Posture::sitting);
  CHECK(near(all.at("Ann", all.plan.duration()).at, {6, 2}));
  CHECK(all.plan.duration().count >= 3333 + 1200);
}

TEST_CASE("rising takes 1.2 s, and comes before a walk") {
  const Made all = made("beat One\nCat walks to (6, 5.2) m\n", "");
  CHECK(all.plan.duration() == 1000_ms);
  const Made seated = made("beat One\nCat sits on the Stool\nbeat Two\nCat walks to (6, 3.2) m\n");
  CHECK(seated.plan.beats[1].end - seated.plan.beats[1].begin == 2200_ms);
}

TEST_CASE("turns take 120 degrees a second, 0.4 s at least") {
  CHECK(made("beat One\nAnn turns to Ben\n").plan.duration() == 750_ms);
  const Made little = made("beat One\nAnn cheats 10 deg toward Ben\n");
  CHECK(little.plan.duration() == 500_ms);
  CHECK(little.at("Ann", 500_ms).facing.value == Approx(10));
  CHECK(made("beat One\nAnn turns to Ben\n").at("Ann", 750_ms).facing.value == Approx(90));
}

TEST_CASE("faces follows, facing binds once") {
  const Made all = made("beat One\nAnn faces Ben\nBen walks to (2, 4) m\n");
  CHECK(std::abs(all.at("Ann", all.plan.duration()).facing.value) < 0.1);
  const Made once = made("beat One\nAnn turns to Ben\nBen walks to (2, 4) m\n");
  CHECK(once.at("Ann", once.plan.duration()).facing.value == Approx(90));
}

TEST_CASE("looks stay, glances come back, a speech turns the speaker's eyes") {
  const Made all =
      made("beat One\nAnn looks at Cat\nBen glances at Cat, from top\nAnn to Ben: \"one two three four\"\n");
  CHECK(all.at("Ann", 1500_ms).gaze == all.target("Cat"));
  CHECK(all.at("Ben", 450_ms).gaze == all.target("Cat"));
  CHECK(all.at("Ben", 1100_ms).gaze.kind == Target::Kind::nothing);
  const Made weak = made("beat One\nAnn to Ben: \"one two three four\"\n");
  CHECK(weak.at("Ann", 1000_ms).gaze == weak.target("Ben"));
  CHECK_FALSE(weak.at("Ann", 1000_ms).gaze_told);
}

TEST_CASE("props go from hand to hand") {
  const Made all =
      made("beat One\nCat takes the Cup\nthen Cat gives the Cup to Ann\nthen Ann puts the Cup on the Stool\n");
  // Ann is 4 m from Cat and from the stool, Cat 2 m from the middle of the table: each is told, and goes on.
  CHECK(all.count("out-of-reach") == 3);
  const Target cup{Target::Kind::prop, 0, {}};
  CHECK(all.at("Cat", 800_ms).holding == cup);
  CHECK(all.at("Cat", 1700_ms).holding.kind == Target::Kind::nothing);
  CHECK(all.at("Ann", 1700_ms).holding == cup);
  CHECK(all.at("Ann", 3300_ms).holding.kind == Target::Kind::nothing);
  const std::optional<Vec3> rests = point_of(all.plan, cup, all.plan.duration());
  REQUIRE(rests);
  // On the stool's top, 35 cm square and 45 cm high, a hand's breadth in on her side.
  CHECK(near(floor_of(*rests), {6 - 0.055, 2}));
  CHECK(rests->z == Approx(0.45));
  CHECK(all.at("Cat", 500_ms).hands_moving == Approx(0.7));
}

TEST_CASE("business goes on until the next deed of those hands, or the beat's end") {
  const Made all =
      made("beat One\nCat does \"scrubs\", busy\npause 2 s\nCat takes the Cup\npause 1 s\nbeat Two\npause 1 s\n");
  const std::vector<Business>& hands = all.plan.people[2].hands;
  REQUIRE(hands.size() == 2);
  CHECK(hands[0].end == 2000_ms);
  CHECK(hands[0].strength == Approx(0.6));
  const Made on = made("beat One\nCat does \"scrubs\", runs on\npause 2 s\nbeat Two\npause 1 s\n");
  CHECK(on.plan.people[2].hands[0].end == 3000_ms);
  const Made ends = made("beat One\nCat does \"scrubs\"\npause 2 s\nbeat Two\npause 1 s\n");
  CHECK(ends.plan.people[2].hands[0].end == 2000_ms);
}

TEST_CASE("whoever enters is away until then, and comes in by the door in 1.5 s and the path") {
  const Made all = made_whole(
      "staging 1.0 scene\nscene Test\npeople Ann, Ben\nroom 8 m by 6 m\ndoor Gate, in the east wall, 3 m along, width "
      "0.9 m, inward\nbeat One\nAnn is at (2, 2) m\npause 1 s\nbeat Two\nBen enters by the Gate, to (5, 3) m\n");
  CHECK_FALSE(all.at("Ben", 500_ms).present);
  CHECK(all.at("Ben", 1100_ms).present);
  CHECK(near(all.at("Ben", all.plan.duration()).at, {5, 3}));
  // From 0.6 m outside the wall at x = 8 to x = 5: 3.6 m, 3 s.
  CHECK(all.plan.duration() == 5500_ms);
  CHECK(all.count("missing-person") == 0);
}

TEST_CASE("entering frame right comes from beyond that edge") {
  const Made all = made_whole(
      "staging 1.0 scene\nscene Test\npeople Ann, Ben\nroom 12 m by 6 m\ncamera A, at (6, -2) m, height 1.5 m, aims at "
      "(6, "
      "3) m, lens 35 mm, stop T2.8\nbeat One\nAnn is at (6, 3) m\nAnn: \"one\"\nBen enters frame right\n");
  const CameraState camera = camera_at(all.plan, CameraId{0}, 0_ms);
  const auto across = [&](Moment moment) {
    return project(pinhole_of(camera), *point_of(all.plan, all.target("Ben"), moment))->at.u;
  };
  CHECK(across(400_ms) > 1);
  CHECK(across(all.plan.duration()) > 0.55);
  CHECK(across(all.plan.duration()) < 0.95);
}

TEST_CASE("whoever exits is gone at the end of the path") {
  const Made all = made("beat One\nCat exits by the Gate\npause 1 s\n");
  CHECK(all.at("Cat", 500_ms).present);
  CHECK_FALSE(all.at("Cat", all.plan.duration()).present);
}

TEST_CASE("who has no line in the first beat is away, and told") {
  const Made all = made_whole(
      "staging 1.0 scene\nscene Test\npeople Ann, Ben, Cat\nroom 8 m by 6 m\nbeat One\nAnn is at (2, 2) m\npause 1 "
      "s\nbeat "
      "Two\nBen: \"one\"\nCat is at (5, 5) m\n");
  CHECK(all.count("missing-person") == 1);
  CHECK_FALSE(all.at("Ben", 500_ms).present);
  CHECK(all.at("Ben", 1200_ms).present);
  // A first `is` is the opening, in whatever beat it stands.
  CHECK(all.at("Cat", 0_ms).present);
  CHECK(near(all.at("Cat", 0_ms).at, {5, 5}));
}

TEST_CASE("placed anew while seen is a jump, unless time passes") {
  CHECK(made("beat One\npause 1 s\nbeat Two\nBen is at (5, 5) m\n").count("time.jump") == 1);
  CHECK(made("beat One\npause 1 s\nbeat Two\nlater 5 min\nBen is at (5, 5) m\n").count("time.jump") == 0);
}

TEST_CASE("numbers stand beside words, and a mark outside its words is told") {
  const Made beside = made("beat One\nAnn walks to the Table, mark A7\nmark A7 at (4, 3.6) m\n");
  CHECK(beside.count("words-and-numbers") == 0);
  CHECK(near(beside.at("Ann", beside.plan.duration()).at, {4, 3.6}));
  const Made apart = made("beat One\nAnn walks to the Table\nmark A7 at (1, 1) m\n");
  CHECK(apart.count("words-and-numbers") == 1);
  CHECK(apart.plan.marks.back().name == "A7");
}

TEST_CASE("cameras: push, pan, boom, zoom, focus, split, cut") {
  const Made all = made(
      "beat One\ncamera A pushes in 1 m, from top\ncamera A booms up 0.4 m, 3 s from top\ncamera A pans 15 deg toward "
      "frame "
      "right, from top\ncamera A zooms to 50 mm, from top\ncamera A focuses on Cat, from top\ncut to B, 6 s from "
      "top\npause 7 s\n");
  const CameraState end = camera_at(all.plan, CameraId{0}, 7000_ms);
  CHECK(near(floor_of(end.at), {4, -1}));
  CHECK(near(floor_of(camera_at(all.plan, CameraId{0}, 1000_ms).at), {4, -1.5}));
  CHECK(end.at.z == Approx(1.9));
  CHECK(end.pan.value == Approx(15));
  CHECK(end.focal.value == Approx(50));
  // Cat's eyes along an axis panned 15 degrees: 2·sin 15 + 5·cos 15 metres.
  CHECK(end.focus.value == Approx(2 * sine(15_deg) + 5 * cosine(15_deg)).epsilon(0.01));
  CHECK(on_air(all.plan, 5900_ms) == CameraId{0});
  CHECK(on_air(all.plan, 6000_ms) == CameraId{1});
  const Made split = made("beat One\ncamera A splits focus between Ann and Cat\npause 1 s\n");
  CHECK(camera_at(split.plan, CameraId{0}, 1000_ms).focus.value == Approx(2 * 4.0 * 6 / (4 + 6)).epsilon(0.01));
}

TEST_CASE(
    "a camera that moves via a place comes by it at one speed; one that tracks with somebody keeps off and height") {
  const Made via = made("beat One\ncamera A moves to (5, -2) m, via (4, -1) m, from top\npause 6 s\n");
  // Legs of 1 m and of the root of 2 m, both at 0.5 m/s.
  CHECK(near(floor_of(camera_at(via.plan, CameraId{0}, 2000_ms).at), {4, -1}));
  CHECK(near(floor_of(camera_at(via.plan, CameraId{0}, 2000_ms + to_milliseconds(Seconds{std::sqrt(0.5) / 0.5})).at),
             {4.5, -1.5}));
  CHECK(near(floor_of(camera_at(via.plan, CameraId{0}, 6000_ms).at), {5, -2}));
  const Made with =
      made("beat One\ncamera A tracks with Ann, from top\nAnn walks 1 m toward frame left, from top\npause 4 s\n");
  const CameraState before = camera_at(with.plan, CameraId{0}, 0_ms),
                    after = camera_at(with.plan, CameraId{0}, 4000_ms);
  CHECK(after.at.z == Approx(before.at.z));
  // From the eyes, which a turning head takes along a little.
  CHECK(length(floor_of(after.at - before.at)) == Approx(1).margin(0.25));
  CHECK(length(with.at("Ann", 4000_ms).at - with.at("Ann", 0_ms).at) == Approx(1).margin(0.01));
}

TEST_CASE("without a focus told, it is where the first speaker is, and told") {
  const Made all = made("beat One\nCat: \"one\"\n");
  CHECK(camera_at(all.plan, CameraId{0}, 0_ms).focus.value == Approx(6).epsilon(0.01));
  CHECK(std::any_of(all.plan.assumptions.begin(), all.plan.assumptions.end(),
                    [](const Assumption& assumption) { return assumption.pin == "camera A focuses on Cat"; }));
}

TEST_CASE("lamps: out, on, fades, dims by stops") {
  const Made all = made(
      "beat One\nlight Lamp goes out, 1 s from top\nlight Lamp comes on, 2 s from top\nlight Lamp fades to 40%, 3 s "
      "from "
      "top\nlight Lamp dims 1 stop, 6 s from top\npause 7 s\n");
  const auto level = [&](Moment moment) { return lamp_at(all.plan, LampId{0}, moment).level.value; };
  CHECK(level(500_ms) == 1);
  CHECK(level(1500_ms) == 0);
  CHECK(level(2500_ms) == 1);
  CHECK(level(4000_ms) == Approx(0.7));
  CHECK(level(5500_ms) == Approx(0.4));
  CHECK(level(6500_ms) == Approx(0.2));
}

TEST_CASE("intents: one replaces another, a hide is carried until its reveal") {
  const Made all = made(
      "beat One\nfavour Ann\nhide Cat\nAnn: \"one two three four\"\nfavour Ben, on \"three\"\nplay \"two three\" on "
      "Ben\n"
      "beat Two\nreveal Cat, 1 s from top\nsettle 0.7 s\npause 3 s\nbutton on Ben\n");
  const std::vector<Intent>& intents = all.plan.intents;
  REQUIRE(intents.size() == 7);
  CHECK(intents[0].words == "favour Ann");
  CHECK(intents[0].end == 800_ms);
  CHECK(intents[1].kind == Intent::Kind::hide);
  CHECK(intents[1].end == 2600_ms);
  CHECK(intents[2].begin == 800_ms);
  CHECK(intents[2].end == 1600_ms);
  CHECK(intents[2].cued);
  CHECK(intents[3].begin == 0_ms);
  CHECK(intents[3].end == 1600_ms);
  CHECK(intents[3].targets == std::vector<Target>{all.target("Ben")});
  CHECK(intents[5].rests == 700_ms);
  CHECK(intents[6].begin == 3600_ms);
}

TEST_CASE("a story's state is carried to its next") {
  const Made all =
      made("beat One\nstory Sale leads\npause 1 s\nbeat Two\npause 1 s\nbeat Three\nstory Sale closes\npause 1 s\n",
           "story Sale, of Ann and Ben\n");
  REQUIRE(all.plan.stories.size() == 2);
  CHECK(all.plan.stories[0].end == 2000_ms);
  CHECK(all.plan.stories[1].end == 3000_ms);
}

TEST_CASE("waivers last their beat, until a beat, or the scene") {
  const Made all = made(
      "beat One\nwaive masked for Ben, because \"a\"\nwaive turned-away for Ann, until Three, because \"b\"\npause 1 "
      "s\nbeat "
      "Two\npause 1 s\nbeat Three\npause 1 s\n",
      "waive bump, because \"c\"\n");
  REQUIRE(all.plan.waivers.size() == 3);
  CHECK(all.plan.waivers[0].end == 3000_ms);
  CHECK(all.plan.waivers[1].end == 1000_ms);
  CHECK(all.plan.waivers[1].people == std::vector<std::string>{"Ben"});
  CHECK(all.plan.waivers[2].end == 2000_ms);
}

TEST_CASE("an unknown verb is told with the nearest, and its beat is not judged") {
  const Made all = made("beat One\nAnn wlaks to the Table\nbeat Two\npause 1 s\n");
  REQUIRE(all.count("name.unknown-verb") == 1);
  CHECK_FALSE(all.plan.beats[0].judged);
  CHECK(all.plan.beats[1].judged);
}

TEST_CASE("a chosen way stands in for the beat's own lines") {
  const std::string beats =
      "beat One\nAnn: \"one two\"\nBen: \"three\"\nway B of One \"shorter\"\ninstead of Ann: Ann: \"one\"\nwithout "
      "Ben:\n";
  CHECK(made("beat One\nAnn: \"one two\"\nBen: \"three\"\n").plan.speeches.size() == 2);
  const Made as_written =
      made("beat One\nAnn: \"one two\"\nBen opens up\nway B of One \"shorter\"\nwithout Ben opens\n");
  CHECK(as_written.plan.duration() == 1300_ms);
  const Made other = made("beat One\nAnn: \"one two\"\nBen opens up\nway B of One \"shorter\"\nwithout Ben opens\n",
                          "choose way B of One\n");
  CHECK(other.plan.duration() == 800_ms);
}

TEST_CASE("every verb of the reference is accepted") {
  const char* const people[] = {
      "stands",
      "waits",
      "sits on the Stool",
      "lies on the Table",
      "perches on the Table",
      "leans",
      "kneels",
      "crouches",
      "rises",
      "walks to (2, 3) m",
      "crosses to (2, 3) m",
      "steps to (2, 3) m",
      "strolls to (2, 3) m",
      "hurries to (2, 3) m",
      "runs to (2, 3) m",
      "creeps to (2, 3) m",
      "crawls to (2, 3) m",
      "backs to (2, 1) m",
      "follows Ben",
      "keeps facing Ben",
      "enters by the Gate",
      "comes in by the Gate",
      "exits by the Gate",
      "leaves by the Gate",
      "turns to Ben",
      "turns away",
      "faces Ben",
      "cheats 10 deg toward Ben",
      "opens up",
      "looks at Ben",
      "glances at Ben",
      "watches Ben",
      "opens the Gate",
      "closes the Gate",
      "takes the Cup",
      "picks up the Cup",
      "puts the Cup on the Table",
      "puts down the Cup",
      "lifts the Cup",
      "drops the Cup",
      "touches the Cup",
      "pulls the Cup",
      "pushes the Cup",
      "pours the Cup",
      "gives the Cup to Ben",
      "hands the Cup to Ben",
      "carries the Cup",
      "wears the Cup",
      "holds the Cup",
      "points at Ben",
      "aims the Cup at Ben",
      "sweeps the Cup from Ben to Cat",
      "does \"hums\"",
      "stops",
      "falls",
  };
  for (const char* verb : people) {
    INFO(verb);
    CHECK(made("beat One\nAnn " + std::string(verb) + "\n").count("name.unknown-verb") == 0);
  }
  const char* const cameras[] = {
      "follows Ben",
      "follows focus on Ben",
      "looks at Ben",
      "holds",
      "aims at Ben",
      "sweeps from Ben to Cat",
      "stops",
      "frames Ben, medium shot",
      "keeps Ben at frame right third, by panning",
      "moves to (4, -1) m",
      "pushes in 0.5 m",
      "pushes in to medium shot on Ben",
      "pulls back 0.5 m",
      "tracks 0.5 m toward frame left",
      "arcs to (3, -1) m",
      "booms up 0.2 m",
      "booms down 0.2 m",
      "pans to Ben",
      "tilts up 5 deg",
      "tilts down 5 deg",
      "zooms to 50 mm",
      "zooms in",
      "zooms out",
      "focuses on Ben",
      "racks focus to Ben",
      "pulls focus to Ben",
      "splits focus between Ann and Ben",
  };
  for (const char* verb : cameras) {
    INFO(verb);
    CHECK(made("beat One\ncamera A " + std::string(verb) + "\n").count("name.unknown-verb") == 0);
  }
}

TEST_CASE("the dump names its schema and rounds what it prints") {
  const Made all = made("beat One\nAnn: \"one two\"\nAnn walks to the Table\n");
  const nlohmann::ordered_json dump = dump_plan(all.plan);
  CHECK(dump["schema"] == "lensward/plan/1");
  CHECK(dump["speeches"][0]["words"][1] == nlohmann::ordered_json::array({"two", 400, 800}));
  CHECK(dump.dump() == dump_plan(made("beat One\nAnn: \"one two\"\nAnn walks to the Table\n").plan).dump());
}

TEST_CASE("business of one hand goes on while the other does something else") {
  const Made all = made(
      "beat One\nCat does \"stirs\", with own left hand\npause 1 s\nCat takes the Cup, with own right hand\npause 2 "
      "s\n");
  REQUIRE(all.plan.people[2].hands.size() == 2);
  CHECK(all.plan.people[2].hands[0].end == all.plan.duration());
  const Made same = made(
      "beat One\nCat does \"stirs\", with own left hand\npause 1 s\nCat takes the Cup, with own left hand\npause 2 "
      "s\n");
  CHECK(same.plan.people[2].hands[0].end == 1000_ms);
}

TEST_CASE("defaults of the script replace the usual gaps and pace") {
  const Made all = made("beat One\nAnn: \"one\"\nBen: \"two\"\nBen: \"three\"\nAnn walks to (2, 4.4) m\n",
                        "default turn-gap 0.6 s\ndefault breath 1 s\ndefault walking-pace 0.6 m/s\n");
  CHECK(all.plan.speeches[1].begin == 1000_ms);
  CHECK(all.plan.speeches[2].begin == 2400_ms);
  CHECK(all.plan.duration() == 6800_ms);
}

TEST_CASE("a line is printed without the comments in it") {
  const Made all = made("beat One\nAnn:  -- softly, perhaps\n\"one -- two\"  -- yes\n\"three\"\n");
  CHECK(all.plan.beats[0].lines[0].text == "Ann: \"one -- two\" \"three\"");
}
