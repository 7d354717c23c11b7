// Verdicts that depend on a vague place, and on a small slip.
#include <catch2/catch.hpp>

#include "checked.h"

using namespace lensward;
using Messages = std::vector<std::string>;
using Result = Verdict::Result;

namespace {

// Two people; B stands in a place 1 m square, the lens looking north. A is favoured and leads.
Reel vague() {
  Reel reel(2);
  reel.points = [](int) { return std::vector<double>{50, 20}; };
  reel.asks(Intent::Kind::favour, {0}).words = "favour A";
  Camera camera;
  camera.name = "C";
  reel.plan.stage.cameras.push_back(camera);
  reel.plan.cameras.emplace_back();
  reel.plan.cuts.push_back({Moment{}, CameraId{0}, {}});
  Mark mark;
  mark.name = "B1";
  mark.person = PersonId{1};
  mark.at = {3, 2};
  mark.area = {{2.5, 1.5}, {3.5, 1.5}, {3.5, 2.5}, {2.5, 2.5}};
  reel.plan.marks.push_back(mark);
  return reel;
}

std::vector<Finding> findings_with(const Reel& reel, const PlacesTried& tried) {
  const Attention attention = reel.attention();
  Findings findings;
  check_rules(reel.plan, attention, judge(reel.plan, attention), findings, tried);
  std::vector<Finding> own;
  for (const Finding& finding : findings.all()) {
    if (finding.rule.find('.') == std::string::npos && finding.rule != "too-near-to-focus") own.push_back(finding);
  }
  return own;
}

PointTried tried_at(Vec2 at, Result result, double lead = 20) {
  return {at, result, Points{lead}, result == Result::fails ? "wandering-eye" : ""};
}

}  // namespace

TEST_CASE(
    "a verdict that turns within a vague place is a warning with the part that holds, and the line that pins it") {
  PlaceTried place{0, 0, {tried_at({3, 2}, Result::holds)}};
  for (const double x : {2.5, 2.7, 3.25, 3.5})
    place.points.push_back(tried_at({x, 2}, x < 3 ? Result::fails : Result::holds));
  const std::vector<Finding> findings = findings_with(vague(), {{place}, {}});
  REQUIRE(
      messages(findings, "wandering-eye") ==
      Messages{"`favour A` in beat `One` depends on the vague place of `B`: it holds in the frame right 65 cm of it"});
  CHECK(findings[0].severity == Severity::warning);
  CHECK(findings[0].next_step == "write under the line of the place: `mark B1 at (3, 2) m`");
}

TEST_CASE(
    "what fails at the mark but holds elsewhere in the place is no error, and is pinned where the lead is greatest") {
  Reel reel = vague();
  reel.points = [](int) { return std::vector<double>{20, 50}; };
  PlaceTried place{0, 0, {tried_at({3, 2}, Result::fails, -30)}};
  place.points.push_back(tried_at({3, 2.2}, Result::holds, 9));
  place.points.push_back(tried_at({3, 2.5}, Result::holds, 12));
  const std::vector<Finding> findings = findings_with(reel, {{place}, {}});
  REQUIRE(messages(findings, "wandering-eye").size() == 1);
  CHECK(findings[0].severity == Severity::warning);
  CHECK(findings[0].message.find("it holds in the deepest 40 cm of it") != std::string::npos);
  CHECK(findings[0].next_step == "write under the line of the place: `mark B1 at (3, 2.5) m`");
}

TEST_CASE("points that no strip holds together are told by one of them") {
  PlaceTried place{0, 0, {tried_at({3, 2}, Result::fails)}};
  for (const Vec2 corner : {Vec2{2.5, 1.5}, Vec2{3.5, 1.5}, Vec2{3.5, 2.5}, Vec2{2.5, 2.5}}) {
    place.points.push_back(tried_at(corner, Result::holds));
  }
  place.points.push_back(tried_at({2.5, 2}, Result::fails));
  place.points.push_back(tried_at({3.5, 2}, Result::fails));
  place.points.push_back(tried_at({3, 1.5}, Result::fails));
  place.points.push_back(tried_at({3, 2.5}, Result::fails));
  const std::vector<Finding> findings = findings_with(vague(), {{place}, {}});
  CHECK(messages(findings, "wandering-eye") ==
        Messages{"`favour A` in beat `One` depends on the vague place of `B`: it holds at "
                 "few points of it, such as (2.5, 1.5) m"});
}

TEST_CASE("loose-footing: a lead that differs by more than 10 points over a place and does not turn") {
  PlaceTried place{0, 0, {tried_at({3, 2}, Result::holds, 20), tried_at({3.5, 2}, Result::holds, 30)}};
  CHECK(messages(findings_with(vague(), {{place}, {}}), "loose-footing").empty());
  place.points[1].lead = Points{31};
  CHECK(
      messages(findings_with(vague(), {{place}, {}}), "loose-footing") ==
      Messages{"`favour A` in beat `One` rests on the vague place of `B`: the lead goes from 20 to 31 points, limit 10 "
               "apart"});
}

TEST_CASE("fine-mark: the slip that turns a verdict, and which way") {
  CHECK(messages(findings_with(vague(), {{}, {{0, PersonId{0}, Metres{-0.1}}}}), "fine-mark") ==
        Messages{"`favour A` in beat `One` fails when `A` is 0.1 m farther from the lens"});
}
