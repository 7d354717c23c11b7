// Findings as a director reads them, severities, defaults, waivers.
#include <catch2/catch.hpp>

#include "checked.h"

using namespace lensward;
using Kind = Intent::Kind;

namespace {

// Person 0 is asked for, person 1 has the points.
Reel lost_favour() {
  Reel reel(3);
  reel.plan.facts.name = "Monday";
  reel.plan.beats[0].name = "Stranger";
  reel.plan.stage.people[0].name = "Tobias";
  reel.plan.stage.people[1].name = "Pell";
  Intent& favour = reel.asks(Kind::favour, {0});
  favour.words = "favour Tobias";
  favour.said_at = {0, 100, 113};
  reel.points = [](int ms) { return std::vector<double>{33, ms >= 4000 ? 41.0 : 34.0, 10}; };
  return reel;
}

const Finding* found(const std::vector<Finding>& findings, const std::string& rule) {
  for (const Finding& finding : findings) {
    if (finding.rule == rule) return &finding;
  }
  return nullptr;
}

}  // namespace

TEST_CASE("wandering-eye says who has the eye, for how long, by how much, when, and what was asked") {
  const std::vector<Finding> findings = findings_of(lost_favour());
  REQUIRE(findings.size() == 1);
  const Finding& finding = findings[0];
  CHECK(finding.rule == "wandering-eye");
  CHECK(finding.severity == Severity::error);
  CHECK(finding.where == Span{0, 100, 113});
  CHECK(finding.message ==
        "the eye is on `Pell` for 100 % of beat `Stranger`, not on `Tobias`: `Tobias` trails `Pell` by 8 points at "
        "4 s; `favour` asks a lead of 8");
  CHECK(finding.subject.beat == "Stranger");
  CHECK(finding.subject.people == std::vector<std::string>{"Tobias", "Pell"});
  CHECK(finding.at == Moment{4000});
}

TEST_CASE("the reasons are what the favoured would gain by each single change, the greatest first") {
  Reel reel = lost_favour();
  reel.says(1, 3000, 9000).said_at = {0, 200, 220};
  const std::vector<Finding> findings = findings_of(reel, [](Attention& attention) {
    attention.weights[static_cast<std::size_t>(CueKind::voice)] = Points{18};
    attention.weights[static_cast<std::size_t>(CueKind::near_lens)] = Points{10};
    for (Sample& sample : attention.samples) {
      for (Standing& standing : sample.standings) standing.gate_visible = standing.gate_size = standing.gate_light = 1;
      sample.standings[0].gate_visible = 0.5;
      sample.standings[1].strength[static_cast<std::size_t>(CueKind::voice)] = 0.9;
      sample.standings[0].strength[static_cast<std::size_t>(CueKind::near_lens)] = 0.4;
      sample.standings[1].strength[static_cast<std::size_t>(CueKind::near_lens)] = 1;
    }
  });
  const Finding* finding = found(findings, "wandering-eye");
  REQUIRE(finding != nullptr);
  REQUIRE(finding->because.size() == 3);
  CHECK(finding->because[0].quantity == "`Pell` speaks");
  CHECK(finding->because[0].value == "8.1 points");
  CHECK(finding->because[1].quantity == "`Pell` is nearer the lens");
  CHECK(finding->because[1].value == "3 points");
  CHECK(finding->because[2].quantity == "`Tobias` is partly out of the picture");
  CHECK(finding->because[2].value == "2 points");
  REQUIRE(finding->labels.size() == 1);
  CHECK(finding->labels[0].where == Span{0, 200, 220});
  CHECK(finding->labels[0].words == "`Pell` speaks");
  CHECK_FALSE(finding->next_step.empty());
}

TEST_CASE("a favour lost only by the camera taken for want of one is a warning that names it") {
  Reel reel = lost_favour();
  Camera camera;
  camera.name = "A";
  camera.origin = Origin::assumed;
  reel.plan.stage.cameras.push_back(camera);
  reel.plan.cameras.emplace_back();
  reel.plan.assumptions.push_back({"no camera told, so A stands outside the south wall", "camera A, …", {}});
  const auto nearer = [](double strength) {
    return [strength](Attention& attention) {
      attention.weights[static_cast<std::size_t>(CueKind::near_lens)] = Points{20};
      for (Sample& sample : attention.samples) {
        sample.camera = CameraId{0};
        for (Standing& one : sample.standings) one.gate_visible = one.gate_size = one.gate_light = 1;
        sample.standings[1].strength[static_cast<std::size_t>(CueKind::near_lens)] = strength;
      }
    };
  };
  const Finding* excused = nullptr;
  const std::vector<Finding> by_camera = findings_of(reel, nearer(1));
  excused = found(by_camera, "wandering-eye");
  REQUIRE(excused != nullptr);
  CHECK(excused->severity == Severity::warning);
  CHECK(excused->message.find("; the camera is a default: write one to be sure") != std::string::npos);
  CHECK(excused->next_step == "try `Tobias walks to foreground`, or take `Pell` deeper");

  const std::vector<Finding> not_enough = findings_of(reel, nearer(0.5));
  CHECK(found(not_enough, "wandering-eye")->severity == Severity::error);
  reel.plan.stage.cameras[0].origin = Origin::said;
  const std::vector<Finding> told = findings_of(reel, nearer(1));
  CHECK(found(told, "wandering-eye")->severity == Severity::error);
}

TEST_CASE("a close call is a warning with the lead") {
  Reel reel = lost_favour();
  reel.points = [](int) { return std::vector<double>{38, 33, 10}; };
  const std::vector<Finding> findings = findings_of(reel);
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].rule == "close-call");
  CHECK(findings[0].severity == Severity::warning);
  CHECK(findings[0].message ==
        "`Tobias` leads in most of beat `Stranger`, but never leads by the 8 points asked, limit 75 % of the time; "
        "`Tobias` leads `Pell` by 5 points at 0.4 s");
}

TEST_CASE("a favour lost only at the end says by how much and when") {
  Reel reel = lost_favour();
  reel.points = [](int ms) { return std::vector<double>{38, ms < 9600 ? 20.0 : 33.0, 10}; };
  const std::vector<Finding> findings = findings_of(reel);
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].rule == "close-call");
  CHECK(findings[0].message ==
        "`Tobias` leads in most of beat `Stranger`, but leads `Pell` at the end by only 5 points, limit 8, at 9.6 s");
}

TEST_CASE("a waiver excuses findings of its rule, its people, its stretch, and gives the reason") {
  Reel reel = lost_favour();
  Waiver waiver;
  waiver.rule = "wandering-eye";
  waiver.end = Moment{10000};
  waiver.because = "he is only a voice";
  reel.plan.waivers = {waiver};
  CHECK(findings_of(reel)[0].waived_because == "he is only a voice");
  reel.plan.waivers[0].people = {"Tobias"};
  CHECK(findings_of(reel)[0].waived_because.has_value());
  reel.plan.waivers[0].people = {"Pell"};
  CHECK_FALSE(findings_of(reel)[0].waived_because.has_value());
  CHECK(found(findings_of(reel), "stale-waiver") != nullptr);
  reel.plan.waivers[0].people.clear();
  reel.plan.waivers[0].end = Moment{3000};
  CHECK_FALSE(findings_of(reel)[0].waived_because.has_value());
}

TEST_CASE("a bare waiver excuses nothing, and an unknown rule is told") {
  Reel reel = lost_favour();
  Waiver bare, unknown;
  bare.rule = "wandering-eye";
  bare.end = unknown.end = Moment{10000};
  unknown.rule = "blurry-badger";
  unknown.because = "why not";
  reel.plan.waivers = {bare, unknown};
  const std::vector<Finding> findings = findings_of(reel);
  CHECK_FALSE(found(findings, "wandering-eye")->waived_because.has_value());
  REQUIRE(found(findings, "bare-waiver") != nullptr);
  CHECK(found(findings, "bare-waiver")->severity == Severity::error);
  REQUIRE(found(findings, "name.unknown-rule") != nullptr);
}

TEST_CASE("what bodies and matter cannot do is never waived") {
  Reel reel(2);
  reel.points = [](int) { return std::vector<double>{30, 20}; };
  for (int i = 0; i < 2; ++i) {
    reel.plan.people[static_cast<std::size_t>(i)].present.push_back(
        {Moment{0}, Moment{0}, true, true, Origin::said, {}});
    reel.plan.people[static_cast<std::size_t>(i)].feet.push_back(
        {Moment{0}, Moment{0}, {}, Walk{{{3 + 0.2 * i, 2}}}, Origin::said, {0, 10, 20}});
  }
  Waiver waiver;
  waiver.rule = "bump";
  waiver.end = Moment{10000};
  waiver.because = "they are close friends";
  reel.plan.waivers = {waiver};
  const std::vector<Finding> findings = findings_of(reel);
  const Finding* bump = found(findings, "bump");
  REQUIRE(bump != nullptr);
  CHECK(bump->message == "`A` and `B` are in one place at 0 s in beat `One`: 0.2 m apart, limit 0.45 m");
  CHECK_FALSE(bump->waived_because.has_value());
  CHECK(bump->next_step == "give `B` a place clear of `A`");
}

TEST_CASE("treat changes a severity or switches a rule off") {
  Reel reel = lost_favour();
  reel.plan.settings.treat["wandering-eye"] = "remark";
  CHECK(findings_of(reel)[0].severity == Severity::remark);
  reel.plan.settings.treat["wandering-eye"] = "off";
  CHECK(findings_of(reel).empty());
}

TEST_CASE("earlier stages' remarks can be waived, their errors cannot") {
  const Reel reel = [] {
    Reel made(1);
    made.points = [](int) { return std::vector<double>{30}; };
    Waiver waiver;
    waiver.rule = "place.settled";
    waiver.end = Moment{10000};
    waiver.because = "we shall see on the day";
    Waiver other = waiver;
    other.rule = "place.no-place";
    made.plan.waivers = {waiver, other};
    return made;
  }();
  Findings findings;
  Finding settled, impossible;
  settled.rule = "place.settled";
  settled.severity = Severity::remark;
  impossible.rule = "place.no-place";
  impossible.severity = Severity::error;
  findings.add(settled);
  findings.add(impossible);
  check_rules(reel.plan, reel.attention(), {}, findings);
  CHECK(findings.all()[0].waived_because.has_value());
  CHECK_FALSE(findings.all()[1].waived_because.has_value());
}

TEST_CASE("mixed-orders names both lines, once") {
  Reel reel(2);
  reel.points = [](int) { return std::vector<double>{30, 20}; };
  reel.asks(Kind::favour, {0}).words = "favour A";
  reel.asks(Kind::favour, {1}).words = "favour B";
  const std::vector<Finding> findings = findings_of(reel);
  REQUIRE(found(findings, "mixed-orders") != nullptr);
  CHECK(found(findings, "mixed-orders")->message ==
        "`favour A` and `favour B` cannot both be had at 0 s in beat `One`");
  CHECK(std::count_if(findings.begin(), findings.end(),
                      [](const Finding& one) { return one.rule == "mixed-orders"; }) == 1);
}

TEST_CASE("no finding speaks of shares of viewers") {
  for (const Finding& finding : findings_of(lost_favour())) {
    for (const char* words : {"audience", "viewers will"}) {
      CHECK(finding.message.find(words) == std::string::npos);
      CHECK(finding.on_set.find(std::string("% of the ") + words) == std::string::npos);
    }
  }
}

TEST_CASE("an empty plan has no findings") {
  Findings findings;
  check_rules(Plan{}, Attention{}, {}, findings);
  CHECK(findings.all().empty());
}
