// Rules of lines and orders.
#include <catch2/catch.hpp>

#include "checked.h"

using namespace lensward;
using Kind = Intent::Kind;
using Messages = std::vector<std::string>;

TEST_CASE("moves-on-the-line: a walk that begins within 0.3 s of the favoured speaker's last word or mark") {
  Reel reel(2);
  reel.points = [](int) { return std::vector<double>{50, 20}; };
  reel.asks(Kind::favour, {0});
  Speech& speech = reel.says(0, 1000, 5000);
  speech.timed = {{"on", Moment{1000}, Moment{4000}, {}}, {"Monday", Moment{4000}, Moment{5000}, {}}};
  const auto walk_at = [&](int begin) {
    reel.plan.people[1].feet = {{Moment{begin}, Moment{begin + 1000}, {}, Walk{{{0, 0}, {1, 0}}}, Origin::said, {}}};
    return messages(findings_of(reel), "moves-on-the-line");
  };
  CHECK(walk_at(3600).empty());
  CHECK(walk_at(3700) == Messages{"`B` begins to move at 3.7 s, on `A`'s \"Monday\" in beat `One`; meant?"});
  CHECK(walk_at(4300).size() == 1);
  CHECK(walk_at(4400).empty());
  reel.plan.speeches[0].marks = {{"Turn", Moment{2000}, {}}};
  CHECK(walk_at(2100).size() == 1);
  CHECK(walk_at(4000).size() == 1);
  reel.plan.speeches[0].marks = {{"Turn", Moment{4000}, {}}};
  CHECK(walk_at(4000).size() == 1);
  reel.asks(Kind::favour, {1}, 4000);
  CHECK(walk_at(4000).empty());
  reel.plan.intents.clear();
  CHECK(walk_at(4000).empty());
}

TEST_CASE("slow-landing: the eye comes more than 0.5 s after favour changes") {
  Reel reel(2);
  reel.asks(Kind::favour, {0}, 0, 5000);
  reel.asks(Kind::favour, {1}, 5000);
  const auto lands = [&](int at) {
    reel.points = [at](int ms) { return std::vector<double>{ms < at ? 31.0 : 10.0, ms < at ? 30.0 : 50.0}; };
    return messages(findings_of(reel), "slow-landing");
  };
  CHECK(lands(5500).empty());
  CHECK(lands(5600) ==
        Messages{"the eye reaches `B` 0.6 s after the change of favour at 5 s in beat `One`, limit 0.5 s"});
}

TEST_CASE("a pass that lands late is a warning, one that never lands an error") {
  Reel reel(3);
  reel.asks(Kind::pass, {0, 1}, 4000).words = "pass from A to B";
  const auto lands = [&](int at) {
    reel.points = [at](int ms) { return std::vector<double>{ms < at ? 40.0 : 20.0, ms < at ? 39.9 : 40.0, 10}; };
    return findings_of(reel);
  };
  CHECK(messages(lands(4900), "slow-landing") ==
        Messages{"the eye reaches `B` 0.9 s after the pass in beat `One`, limit 0.8 s"});
  CHECK(messages(lands(99999), "dropped-pass") ==
        Messages{"`pass from A to B` at 4 s in beat `One`: the eye never goes to `B`"});
}

TEST_CASE("eyes-elsewhere: two thirds of the told looks are on one who is not favoured") {
  Reel reel(5);
  reel.points = [](int) { return std::vector<double>{50, 20, 5, 5, 5}; };
  reel.asks(Kind::favour, {0});
  const auto looks = [&](int looker, int at) {
    Gaze gaze{Gaze::Manner::at_target, {Target::Kind::person, at, {}}};
    reel.plan.people[static_cast<std::size_t>(looker)].eyes = {{Moment{0}, Moment{0}, gaze, gaze, Origin::said, {}}};
  };
  looks(2, 1);
  looks(3, 1);
  looks(4, 0);
  CHECK(messages(findings_of(reel), "eyes-elsewhere") ==
        Messages{"67 % of the looks in beat `One` are on `B` while `A` is favoured, limit 66 %"});
  looks(3, 0);
  CHECK(messages(findings_of(reel), "eyes-elsewhere").empty());
}

TEST_CASE("plants and pay-offs need each other, in that order") {
  Reel reel(1);
  const Target letter{Target::Kind::prop, 0, {}};
  Prop prop;
  prop.name = "Letter";
  reel.plan.stage.props.push_back(prop);
  reel.things = {letter};
  reel.points = [](int) { return std::vector<double>{50, 5}; };
  reel.asks(Kind::plant, {}, 0).targets = {letter};
  CHECK(messages(findings_of(reel), "unpaid-plant") ==
        Messages{"`Letter` is planted in beat `One` and never paid off in this scene"});
  reel.asks(Kind::pay_off, {}, 5000).targets = {letter};
  CHECK(messages(findings_of(reel), "unpaid-plant").empty());
  CHECK(messages(findings_of(reel), "payoff-from-nowhere").empty());
  reel.plan.intents[1].begin = Moment{0};
  reel.plan.intents[0].begin = Moment{5000};
  CHECK(messages(findings_of(reel), "payoff-from-nowhere").size() == 1);
}

TEST_CASE("not-judged: a beat with an unreadable line says so, and nothing else of it is judged") {
  Reel reel(2);
  reel.points = [](int) { return std::vector<double>{10, 50}; };
  reel.asks(Kind::favour, {0});
  reel.plan.beats[0].judged = false;
  const std::vector<Finding> findings = findings_of(reel);
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].message == "beat `One` is not judged: a line of it could not be read");
}

TEST_CASE("nobody-asked is a remark with the part of the line its speaker holds") {
  Reel reel(2);
  reel.points = [](int ms) { return std::vector<double>{ms < 4000 ? 50.0 : 10.0, 30}; };
  reel.says(0, 3000, 7000);
  const std::vector<Finding> findings = findings_of(reel);
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].severity == Severity::remark);
  CHECK(findings[0].message ==
        "beat `One` says nothing of whom to watch; `A` has the eye for 25 % of the own line at 3 s, limit 50 %");
}

TEST_CASE("stories fail under their own names") {
  Reel reel(2);
  reel.points = [](int) { return std::vector<double>{10, 50}; };
  reel.story({0}, StoryState::State::leads);
  reel.plan.stage.stories[0].name = "Sale";
  CHECK(messages(findings_of(reel), "lost-story") ==
        Messages{"`story Sale leads` in beat `One`, but it does not lead: it has the eye for only 0 %, limit 70 %"});
}

TEST_CASE("early-sight says how much shows, when and where") {
  Reel reel(2);
  reel.points = [](int) { return std::vector<double>{50, 10}; };
  reel.asks(Kind::hide, {1});
  reel.visible = [](int ms) { return std::vector<double>{1, ms == 6000 ? 0.12 : 0}; };
  CHECK(messages(findings_of(reel), "early-sight") ==
        Messages{"`B` is hidden but shows 12 %, limit 1 % at 6 s in beat `One`"});
}
