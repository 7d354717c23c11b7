#include <algorithm>
#include <catch2/catch.hpp>

#include "../../pages/sample_scene.h"
#include "../../pages/sheet_words.h"
#include "pages/book_parts.h"
#include "pages/words.h"

using namespace lensward;

namespace {

struct Told {
  Told() {
    scene.findings.all().clear();
    scene.plan.facts.heading = {0, 0, 5};
    scene.plan.assumptions = {{"no height told for `Oda`, so 1.7 m tall", "person Oda, height 1.7 m", {0, 6, 12}}};
    scene.plan.marks = {{"O1", PersonId{0}, {2, 1.9}, Moment{}, Origin::settled, {0, 20, 30}, {}}};
    Finding height;
    height.rule = "taken-for-granted";
    height.where = {0, 6, 12};
    height.message = scene.plan.assumptions[0].what;
    height.next_step = "to settle it, give `Oda` a line of its own with `height 1.7 m`";
    Finding settled;
    settled.rule = "place.settled";
    settled.where = {0, 20, 30};
    settled.message = "`Oda` settled at (2, 1.9) m from \"Range\"";
    settled.next_step = "to pin it, write under the line: `mark O1 at (2, 1.9) m`";
    settled.subject.beat = "Papers";
    for (Finding& finding : std::vector{height, settled}) {
      finding.severity = Severity::remark;
      scene.findings.add(finding);
    }
  }
  std::string book() const { return words_of(lay_out_book(scene.results()).sheets); }

  sample::Scene scene = sample::kitchen();
};

}  // namespace

TEST_CASE("a default and a settled mark are told once, with the step that settles them") {
  const std::string words = Told().book();
  CHECK(times(words, "no height told for Oda") == 1);
  CHECK(times(words, "give Oda a line of its own") == 1);
  CHECK(times(words, "Oda settled at (2, 1.9) m") == 1);
  CHECK(times(words, "mark O1 at (2, 1.9) m") == 1);
  CHECK(times(words, "comes to rest") == 0);
}

TEST_CASE("what nobody remarked on is told all the same") {
  Told told;
  told.scene.findings.all().clear();
  const std::string words = told.book();
  CHECK(times(words, "no height told for Oda") == 1);
  CHECK(times(words, "person Oda, height 1.7 m") == 1);
  CHECK(times(words, "Oda comes to rest at (2, 1.9) m") == 1);
}

TEST_CASE("what a line treats as a warning stands with the findings, not in the lists") {
  Told told;
  for (Finding& finding : told.scene.findings.all()) finding.severity = Severity::warning;
  const std::string lists = words_of(lay_out_lists(told.scene.results(), {}));
  CHECK(times(lists, "no height told") == 0);
  CHECK(times(lists, "settled at") == 0);
  CHECK(times(words_of(lay_out_cover(told.scene.results())), "no height told for Oda") >= 1);
}

TEST_CASE("furniture that was settled has its row, and a place that cannot be pinned no step") {
  Told told;
  Finding range = told.scene.findings.all().back();
  range.where = {0, 40, 50};
  range.message = "`Range` comes to (2.5, 4.7) m";
  range.next_step = "to pin it: `at (2.5, 4.7) m`";
  told.scene.findings.add(range);
  told.scene.findings.all()[1].next_step.clear();
  const std::string lists = words_of(lay_out_lists(told.scene.results(), {}));
  CHECK(times(lists, "Range comes to (2.5, 4.7) m") == 1);
  CHECK(times(lists, "at (2.5, 4.7) m ") == 1);
  CHECK(times(lists, "mark O1") == 0);
}

TEST_CASE("a remark without room in its beat stands at the end") {
  sample::Scene scene = sample::kitchen();
  for (int i = 0; i < 40; ++i)
    sample::add_finding(scene, "fine-mark", Severity::remark, "Papers", Moment{100 * i},
                        ("remark number " + std::to_string(i) + " of many that will not find room").c_str());
  const std::string words = words_of(lay_out_book(scene.results()).sheets);
  for (int i = 0; i < 40; ++i) CHECK(times(words, "remark number " + std::to_string(i) + " of") == 1);
  const BeatSheets beat = lay_out_beat(scene.results(), 0);
  REQUIRE_FALSE(beat.left_over.empty());
  CHECK(times(words_of(beat.sheets), counted(beat.left_over.size(), "remark", "remarks") + " at the end") == 1);
}
