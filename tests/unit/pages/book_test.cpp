#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>

#include "../../pages/sample_scene.h"
#include "pages/dump.h"
#include "pages/floor_paper.h"
#include "pages/flow.h"
#include "pages/labels.h"
#include "pages/lay_out.h"
#include "pages/overhead.h"
#include "pages/thumbnail.h"
#include "pages/words.h"

using namespace lensward;

namespace {

struct Found {
  std::vector<Text> texts;
  std::vector<const Group*> groups;
};

void collect(const std::vector<Item>& items, Found& found) {
  for (const Item& item : items) {
    if (const auto* text = std::get_if<Text>(&item.body)) found.texts.push_back(*text);
    const auto* group = std::get_if<Group>(&item.body);
    if (group == nullptr) continue;
    found.groups.push_back(group);
    collect(group->items, found);
  }
}

Found found_in(const std::vector<Item>& items) {
  Found found;
  collect(items, found);
  return found;
}

std::string all_words(const Book& book) {
  std::string words;
  for (const Sheet& sheet : book.sheets)
    for (const Text& text : found_in(sheet.items).texts) words += text.words + "\n";
  return words;
}

bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// From the top of the capitals to the baseline.
LabelArea ink_of(const Text& text) {
  const double width = width_of(text.words, text.face, text.size);
  const double left = text.anchor == Text::Anchor::left     ? text.at.x
                      : text.anchor == Text::Anchor::middle ? text.at.x - width / 2
                                                            : text.at.x - width;
  return {{left, text.at.y - text.size * 0.65}, {left + width, text.at.y}};
}

void check_overhead(const sample::Scene& scene, int beat, Moment moment) {
  const Vec2 at{10, 10}, most{112, 120};
  const Overhead drawing = draw_overhead(scene.results(), beat, moment, at, most);
  CHECK(drawing.size.x <= most.x + 1e-6);
  CHECK(drawing.size.y <= most.y + 1e-6);
  const Found found = found_in(drawing.group.items);
  for (std::size_t i = 0; i < found.texts.size(); ++i) {
    const LabelArea area = ink_of(found.texts[i]);
    INFO(found.texts[i].words);
    CHECK(LabelArea{at, at + drawing.size}.grown(0.5).holds(area));
    for (std::size_t k = 0; k < i; ++k) {
      INFO(found.texts[k].words);
      CHECK_FALSE(area.overlaps(ink_of(found.texts[k])));
    }
  }
}

}  // namespace

TEST_CASE("a book has a cover, a page for each beat, the chart and the lists") {
  const sample::Scene scene = sample::kitchen();
  const Book book = lay_out_book(scene.results());
  std::vector<std::string> titles;
  for (const Sheet& sheet : book.sheets) titles.push_back(sheet.title);
  CHECK(titles == std::vector<std::string>{"Last night of the season", "Papers", "Stranger", "Who has the eye",
                                           "Chosen for you"});
  CHECK(book.title == "Monday: Last night of the season");
}

TEST_CASE("the book says what was asked, found, said, assumed and waived") {
  const sample::Scene scene = sample::kitchen();
  const std::string words = all_words(lay_out_book(scene.results()));
  for (const char* part : {"favour Oda", "favour Pell, on [Room]", "Pell is asked for", "let Pell enter before",
                           "Leave the pan.", "Tobias to Oda", "Yard Door", "masked", "1:75", "north", "page 5 of 5",
                           "Frame and floor at", "Depth from the lens: ", "Lamps: "})
    CHECK(contains(words, part));
}

TEST_CASE("the foot of every page bears the scene's title and the page's number of all") {
  const sample::Scene scene = sample::kitchen();
  const Book book = lay_out_book(scene.results());
  for (std::size_t page = 0; page < book.sheets.size(); ++page) {
    const auto texts = found_in(book.sheets[page].items).texts;
    const auto has = [&](const std::string& words) {
      return std::ranges::any_of(texts, [&](const Text& text) { return text.words == words && text.at.y > 270; });
    };
    CHECK(has("Monday: Last night of the season"));
    CHECK(has("page " + std::to_string(page + 1) + " of " + std::to_string(book.sheets.size())));
  }
}

TEST_CASE("what a camera stands on is printed on the cover, under the frame and on the floor, when it was told") {
  sample::Scene scene = sample::kitchen();
  CHECK_FALSE(contains(all_words(lay_out_book(scene.results())), "on dolly"));
  scene.plan.stage.cameras[0].support = {Rig::dolly, Origin::said, {}};
  const Book book = lay_out_book(scene.results());
  const auto words_on = [&](std::size_t page) {
    std::string words;
    for (const Text& text : found_in(book.sheets[page].items).texts) words += text.words + "\n";
    return words;
  };
  CHECK(contains(words_on(0), "on dolly, 27 mm at T2.8, lens"));
  CHECK(contains(words_on(1), "Camera A: 27 mm T2.8, 1.5 m up, on"));
  CHECK(contains(words_on(1), "\non dolly\n"));
  CHECK(contains(frame_caption(scene.plan, Moment{2000}, {}), ", on dolly"));
}

TEST_CASE("pictures asked for stand in their own beat, in the order of their moments, four to a page") {
  sample::Scene scene = sample::kitchen();
  const std::size_t before = lay_out_book(scene.results()).sheets.size();
  Plan& plan = scene.plan;
  const Beat& last = plan.beats.back();
  const Span below{last.heading.file, last.heading.begin + 1, last.heading.begin + 2};
  for (const int step : {4, 2, 3, 1, 0}) plan.pictures.push_back({step == 2, last.begin + Milliseconds{step}, below});
  const Book book = lay_out_book(scene.results());
  CHECK(book.sheets.size() == before + 2);
  std::vector<std::string> captions;
  for (const Sheet& sheet : book.sheets) {
    const Found found = found_in(sheet.items);
    if (std::ranges::none_of(found.texts, [](const Text& text) { return contains(text.words, "pictures asked for"); }))
      continue;
    for (const Text& text : found.texts) {
      if (text.words.starts_with("The frame at") || text.words.starts_with("The floor at"))
        captions.push_back(text.words);
    }
  }
  REQUIRE(captions.size() == 5);
  CHECK(captions[2].starts_with("The floor at"));
  CHECK(std::ranges::count_if(captions, [](const std::string& text) { return text.starts_with("The frame"); }) == 4);
}

TEST_CASE("no page claims that anything is safe, and the moving camera brings its caution") {
  sample::Scene scene = sample::kitchen();
  CHECK_FALSE(contains(all_words(lay_out_book(scene.results())), "moving camera"));
  scene.plan.cameras[0].place.push_back({Moment{6000}, Moment{9000}, {3.5, -1, 1.5}, {4.5, -1, 1.5}, Origin::said, {}});
  const std::string words = all_words(lay_out_book(scene.results()));
  CHECK(contains(words, "local codes"));
  CHECK_FALSE(contains(words, "safe"));
}

TEST_CASE("links lead to destinations that are there") {
  const sample::Scene scene = sample::kitchen();
  const Book book = lay_out_book(scene.results());
  std::set<std::string> anchors, wanted;
  for (const Sheet& sheet : book.sheets) {
    anchors.insert(sheet.anchor);
    for (const Group* group : found_in(sheet.items).groups)
      if (!group->link_to.empty()) wanted.insert(group->link_to);
  }
  CHECK(wanted == std::set<std::string>{"beat-papers", "beat-stranger"});
  CHECK(std::includes(anchors.begin(), anchors.end(), wanted.begin(), wanted.end()));
}

TEST_CASE("labels of an overhead cover neither each other nor the scale, in every crowd") {
  const sample::Scene kitchen = sample::kitchen();
  check_overhead(kitchen, 0, Moment{2000});
  check_overhead(kitchen, 1, Moment{9000});
  check_overhead(sample::crowd(64, 60, 9, 2), 0, Moment{500});
  check_overhead(sample::crowd(20, 12, 6, 2), 0, Moment{500});
  check_overhead(sample::crowd(12, 5, 60, 2), 0, Moment{500});
  check_overhead(sample::crowd(0, 5, 6, 0), 0, Moment{0});
}

TEST_CASE("names without room on the floor are in the key") {
  const sample::Scene scene = sample::crowd(64, 60, 9, 2);
  const Overhead drawing = draw_overhead(scene.results(), 0, Moment{500}, {0, 0}, {112, 120});
  const Found found = found_in(drawing.group.items);
  for (int i = 0; i < 64; ++i) {
    const std::string name = scene.plan.stage.people[static_cast<std::size_t>(i)].name;
    const std::string start = name.substr(0, name.find(' '));
    const bool on_floor = std::any_of(found.texts.begin(), found.texts.end(), [&](const Text& text) {
      return text.words == start || text.words.rfind(start + " ", 0) == 0;
    });
    const bool in_key = std::any_of(drawing.key.begin(), drawing.key.end(),
                                    [&](const std::string& entry) { return contains(entry, "  " + name); });
    CHECK((on_floor || in_key));
  }
}

TEST_CASE("places on paper are true to the stated scale") {
  // By definition of a scale of 1:50, a metre is 20 mm; north is up.
  const FloorPaper paper(50, {0, 0}, {7, 5}, {10, 20});
  CHECK(paper.mm({0, 5}) == Vec2{10, 20});
  CHECK(paper.mm({1, 4}) == Vec2{30, 40});
  CHECK(paper.size() == Vec2{140, 100});
}

TEST_CASE("the largest stated scale that fits is taken") {
  // 7 by 5 m at 1:50 are 140 by 100 mm, and 6 mm all round.
  CHECK(fitted({{0, 0}, {7, 5}}, {0, 0}, {152, 112}).denominator() == 50);
  CHECK(fitted({{0, 0}, {7, 5}}, {0, 0}, {151.9, 112}).denominator() == 75);
  CHECK(fitted({{0, 0}, {2, 2}}, {0, 0}, {500, 500}).denominator() == 20);
  CHECK(fitted({{0, 0}, {1500, 60}}, {0, 0}, {112, 112}).denominator() == 15000);
}

TEST_CASE("a walk carries a tick for each whole second under way") {
  const sample::Scene scene = sample::kitchen();
  const Overhead drawing = draw_overhead(scene.results(), 1, Moment{9000}, {0, 0}, {112, 120});
  const Found found = found_in(drawing.group.items);
  const auto way = std::find_if(found.groups.begin(), found.groups.end(),
                                [](const Group* group) { return group->id == "floor-stranger/way-tobias-1"; });
  REQUIRE(way != found.groups.end());
  // The walk lasts 2.8 s: the line, two ticks and the head.
  CHECK((*way)->items.size() == 4);
}

TEST_CASE("the deciding moment is that of the gravest verdict, else the middle of the beat") {
  sample::Scene scene = sample::kitchen();
  Verdict good, bad;
  good.beat = bad.beat = 1;
  good.result = Verdict::Result::holds;
  good.decided = Moment{6000};
  bad.result = Verdict::Result::fails;
  bad.decided = Moment{8600};
  scene.verdicts = {good, bad};
  CHECK(deciding_moment(scene.results(), 1) == Moment{8600});
  CHECK(deciding_moment(scene.results(), 0) == Moment{2600});
  CHECK(deciding_moment(scene.results(), -1) == Moment{0});
}

TEST_CASE("outcomes in words") {
  const sample::Scene scene = sample::kitchen();
  Verdict verdict;
  verdict.intent = 0;
  verdict.result = Verdict::Result::holds;
  verdict.favoured = sample::person(0);
  verdict.rival = sample::person(1);
  verdict.favoured_points = Points{40};
  verdict.rival_points = Points{28.4};
  CHECK(outcome_words(scene.plan, verdict) == "by 12 points over Tobias");
  verdict.favoured_points = Points{27.5};
  CHECK(outcome_words(scene.plan, verdict) == "though Tobias is ahead by 1 point at 0:00.0");
  verdict.result = Verdict::Result::fails;
  CHECK(outcome_words(scene.plan, verdict) == "short of Tobias by 1 point");
  verdict.favoured_points = Points{28.3};
  CHECK(outcome_words(scene.plan, verdict) == "level with Tobias");
}

TEST_CASE("findings of a beat come errors first, and those waived are left out") {
  sample::Scene scene = sample::kitchen();
  sample::add_finding(scene, "bump", Severity::error, "Papers", Moment{4000}, "late error");
  sample::add_finding(scene, "bump", Severity::error, "Papers", Moment{1000}, "early error");
  sample::add_finding(scene, "bump", Severity::error, "Papers", Moment{500}, "excused");
  scene.findings.all().back().waived_because = "on purpose";
  std::vector<std::string> messages;
  for (const Finding* finding : findings_of(scene.results(), 0)) messages.push_back(finding->message.substr(0, 11));
  CHECK(messages == std::vector<std::string>{"early error", "late error", "`Jun` is 62", "`Oda` stand"});
}

TEST_CASE("findings bear one number, the gravest first; those waived and remarks bear none") {
  sample::Scene scene = sample::kitchen();
  scene.findings.all().clear();
  sample::add_finding(scene, "bump", Severity::warning, "Papers", Moment{500}, "a warning");
  sample::add_finding(scene, "bump", Severity::remark, "Papers", Moment{600}, "a remark");
  sample::add_finding(scene, "bump", Severity::error, "Papers", Moment{4000}, "excused");
  scene.findings.all().back().waived_because = "on purpose";
  sample::add_finding(scene, "bump", Severity::error, "Papers", Moment{4000}, "an error");
  const Results results = scene.results();
  std::vector<int> numbers;
  for (const Finding& finding : results.findings.all()) numbers.push_back(number_of(results, finding));
  CHECK(numbers == std::vector<int>{2, 0, 0, 1});
  CHECK(where_words(results, results.findings.all().back()).starts_with("1 \u00b7 error \u00b7 0:04.0"));
}

TEST_CASE("a verdict is excused by the waiver of its own finding only") {
  sample::Scene scene = sample::kitchen();
  scene.findings.all().clear();
  sample::add_finding(scene, "stolen-eye", Severity::error, "Papers", Moment{500}, "excused");
  scene.findings.all().back().waived_because = "on purpose";
  Verdict verdict;
  verdict.beat = 0;
  verdict.complaint = "stolen-eye";
  verdict.decided = Moment{500};
  const std::string* waived = waived_because(scene.results(), verdict);
  REQUIRE(waived != nullptr);
  CHECK(*waived == "on purpose");
  verdict.decided = Moment{700};
  CHECK(waived_because(scene.results(), verdict) == nullptr);
  verdict.decided = Moment{500};
  verdict.complaint = "bump";
  CHECK(waived_because(scene.results(), verdict) == nullptr);
}

// Seven points as the least that is read on paper: common practice, no source.
TEST_CASE("no type in the book is smaller than seven points") {
  const sample::Scene scene = sample::kitchen();
  std::vector<double> sizes;
  for (const Sheet& sheet : lay_out_book(scene.results()).sheets)
    for (const Text& text : found_in(sheet.items).texts) sizes.push_back(text.size);
  REQUIRE(sizes.size() > 50);
  constexpr double points_an_inch = 72, mm_an_inch = 25.4;
  CHECK(*std::ranges::min_element(sizes) >= 7 * mm_an_inch / points_an_inch);
}

TEST_CASE("a sheet is printed with its schema and every item") {
  const sample::Scene scene = sample::kitchen();
  const auto json = dump_sheet(lay_out_floor(scene.results(), 1, Moment{9000}));
  CHECK(json["schema"] == "lensward/sheet/1");
  CHECK(json["items"].size() == 3);
  CHECK(json["items"][0]["text"] == "Stranger");
  CHECK(contains(json.dump(), "\"group\":\"floor-stranger/person-pell\""));
  CHECK(dump_sheet(lay_out_floor(scene.results(), 1, Moment{9000})) == json);
}

TEST_CASE("plans with nothing in them still give pages") {
  CHECK(lay_out_book(sample::Scene{}.results()).sheets.size() == 1);
  CHECK(lay_out_floor(sample::Scene{}.results(), -1, Moment{}).height > 0);
  CHECK(lay_out_frame(sample::Scene{}.results(), Moment{}).height > 0);
}

TEST_CASE("units of a column stay whole and lose nothing") {
  std::vector<Unit> units;
  for (int i = 0; i < 30; ++i)
    units.push_back([i](double width) {
      return paragraph("unit " + std::to_string(i) + " of some length that takes a few lines of the column it is in",
                       width, {Face::serif, 4, Ink::black, 1, 0});
    });
  UnitCursor cursor;
  std::string words;
  for (int column = 0; column < 30 && !cursor.done(units); ++column) {
    std::vector<Item> items;
    CHECK(pour_units(units, cursor, {{0, 0}, 60}, 50, true, items) <= 60);
    const auto texts = found_in(items).texts;
    REQUIRE_FALSE(texts.empty());
    CHECK(texts.front().words.rfind("unit ", 0) == 0);
    for (const Text& text : texts) words += text.words + "\n";
  }
  CHECK(cursor.done(units));
  for (int i = 0; i < 30; ++i) CHECK(contains(words, "unit " + std::to_string(i) + " of"));
}
