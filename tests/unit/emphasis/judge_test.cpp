// Every predicate at its limit: a playback that just holds and one that just does not. The limits are those of
// docs/language.md, "Intents and stories".
#include <catch2/catch.hpp>

#include "reel.h"

using namespace lensward;
using Kind = Intent::Kind;
using Result = Verdict::Result;
using State = StoryState::State;

namespace {

Target person(int index) { return {Target::Kind::person, index, {}}; }

// Person 0 leads by `lead` except in the given stretch, where the lead is `then`.
Reel::Numbers leads(double lead, int from = -1, int to = -1, double then = 0) {
  return [=](int ms) {
    const double now = ms >= from && ms < to ? then : lead;
    return std::vector<double>{30 + now, 30, 10};
  };
}

Verdict favour(Reel::Numbers points, Intent::Strength strength = Intent::Strength::usual) {
  Reel reel(3);
  reel.points = std::move(points);
  reel.asks(Kind::favour, {0}).strength = strength;
  return reel.verdict();
}

}  // namespace

TEST_CASE("favour holds with the margin of 8 all through") {
  const Verdict verdict = favour(leads(8));
  CHECK(verdict.result == Result::holds);
  CHECK(verdict.complaint.empty());
  CHECK(verdict.rival == person(1));
  CHECK(verdict.favoured_points.value == Approx(38));
  CHECK(verdict.rival_points.value == Approx(30));
  CHECK(verdict.led.value == Approx(1));
}

TEST_CASE("favour is close with less than the margin, and fails when another leads") {
  CHECK(favour(leads(7.9)).result == Result::close);
  CHECK(favour(leads(7.9)).complaint == "close-call");
  CHECK(favour(leads(-0.5)).result == Result::fails);
  CHECK(favour(leads(-0.5)).complaint == "wandering-eye");
}

TEST_CASE("favour must lead by the margin for 75 % of the stretch, settle left out") {
  CHECK(favour(leads(10, 1000, 3300, 2)).result == Result::holds);
  CHECK(favour(leads(10, 1000, 3500, 2)).result == Result::close);
}

TEST_CASE("favour: what happens in the first 0.4 s does not count") {
  CHECK(favour(leads(10, 0, 400, -20)).result == Result::holds);
}

TEST_CASE("favour is broken by a loss of over 0.6 s") {
  CHECK(favour(leads(10, 3000, 3600, -2)).result == Result::holds);
  const Verdict broken = favour(leads(10, 3000, 3700, -2));
  CHECK(broken.result == Result::fails);
  CHECK(broken.decided == Moment{3000});
}

TEST_CASE("favour must land: the margin through the last half second") {
  CHECK(favour(leads(10, 9900, 10100, 5)).result == Result::close);
  CHECK(favour(leads(10, 9900, 10100, -5)).result == Result::fails);
}

TEST_CASE("favour fails when the favoured cannot be seen for 90 % of the stretch") {
  Reel reel(3);
  reel.points = leads(12);
  reel.visible = [](int ms) { return std::vector<double>{ms < 2000 ? 0.59 : 0.6}; };
  reel.asks(Kind::favour, {0});
  CHECK(reel.verdict().result == Result::fails);
  CHECK_FALSE(reel.verdict().measures.front().met);
  reel.visible = [](int ms) { return std::vector<double>{ms < 1300 ? 0.59 : 0.6}; };
  CHECK(reel.verdict().result == Result::holds);
}

TEST_CASE("just asks 4 points at 60 %, outright 16 at 90 %, margin what it says") {
  CHECK(favour(leads(4), Intent::Strength::just).result == Result::holds);
  CHECK(favour(leads(4.5, 1000, 4700, 1), Intent::Strength::just).result == Result::holds);
  CHECK(favour(leads(15.9), Intent::Strength::outright).result == Result::close);
  CHECK(favour(leads(16), Intent::Strength::outright).result == Result::holds);
  Reel reel(3);
  reel.points = leads(11);
  reel.asks(Kind::favour, {0}).margin = Points{12};
  CHECK(reel.verdict().result == Result::close);
}

TEST_CASE("favour ahead of: only the one named is a rival") {
  Reel reel(3);
  reel.points = leads(-10);
  reel.asks(Kind::favour, {0}).ahead_of = {person(2)};
  CHECK(reel.verdict().result == Result::holds);
  CHECK(reel.verdict().rival == person(2));
}

TEST_CASE("favour: a line played on somebody else meanwhile does not count") {
  Reel reel(3);
  reel.points = leads(10, 3000, 6000, -20);
  reel.asks(Kind::favour, {0});
  CHECK(reel.verdict().result == Result::fails);
  reel.asks(Kind::play, {1}, 3000, 6000);
  CHECK(reel.verdict().result == Result::holds);
}

TEST_CASE("favour nobody: no one leads by 6 for over 30 % of the stretch") {
  Reel reel(3);
  reel.asks(Kind::favour_nobody, {});
  reel.points = leads(6, 3000, 10000, 5);
  CHECK(reel.verdict().result == Result::holds);
  reel.points = leads(6, 4000, 10000, 5);
  CHECK(reel.verdict().result == Result::fails);
  CHECK(reel.verdict().complaint == "room-leans");
  CHECK(reel.verdict().favoured == person(0));
}

TEST_CASE("share: means within 10 points, each a quarter, together three quarters") {
  Reel reel(3);
  reel.asks(Kind::share, {0, 1});
  const auto alternate = [&](int first_part, double lead) {
    reel.points = [=](int ms) {
      return std::vector<double>{ms < first_part ? 30 + lead : 30, ms < first_part ? 30 : 30 + lead, 10};
    };
    return reel.verdict();
  };
  CHECK(alternate(5000, 10).result == Result::holds);
  CHECK(alternate(2000, 10).complaint == "lopsided-share");
  CHECK(alternate(7200, 22).result == Result::holds);
  CHECK(alternate(7200, 26).result == Result::fails);
}

TEST_CASE("share leaning: the one leant to is 3 to 10 points ahead on average") {
  Reel reel(3);
  reel.asks(Kind::share, {0, 1}).ahead_of = {person(1)};
  reel.points = [](int ms) { return std::vector<double>{30, ms < 4000 ? 29.0 : 39.0, 10}; };
  CHECK(reel.verdict().result == Result::holds);
  reel.plan.intents[0].ahead_of = {person(0)};
  CHECK(reel.verdict().result == Result::fails);
}

namespace {

Reel::Numbers passes(int taken_at, int third_from = -1, int third_to = -1) {
  return [=](int ms) {
    std::vector<double> points{ms < taken_at ? 40.0 : 20.0, ms < taken_at ? 20.0 : 40.0, 10};
    if (ms >= third_from && ms < third_to) points[2] = 60;
    return points;
  };
}

Verdict pass(Reel::Numbers points) {
  Reel reel(3);
  reel.points = std::move(points);
  reel.asks(Kind::pass, {0, 1}, 4000);
  return reel.verdict();
}

}  // namespace

TEST_CASE("pass: the giver before, the taker within 0.8 s, no third for over 0.5 s between") {
  CHECK(pass(passes(4000)).result == Result::holds);
  CHECK(pass(passes(4300)).result == Result::holds);
  CHECK(pass(passes(99999)).complaint == "dropped-pass");
  CHECK(pass(passes(3500)).complaint == "dropped-pass");
  CHECK(pass(passes(4700, 4100, 4700)).complaint == "dropped-pass");
}

TEST_CASE("pass: an eye that comes late is a slow landing") {
  const Verdict late =
      pass([](int ms) { return std::vector<double>{ms < 4900 ? 40.0 : 20.0, ms < 4900 ? 39.9 : 40.0, 10}; });
  CHECK(late.result == Result::close);
  CHECK(late.complaint == "slow-landing");
  CHECK(late.measures.back().met == false);
  CHECK(late.measures.back().value == "0.9 s");
}

TEST_CASE("play: the listener has the eye for 70 % of the speech") {
  Reel reel(3);
  reel.says(1, 2000, 6000);
  reel.asks(Kind::play, {0}, 2000, 6000);
  reel.points = leads(10, 2000, 3200, -10);
  CHECK(reel.verdict().result == Result::holds);
  reel.points = leads(10, 2000, 3300, -10);
  CHECK(reel.verdict().complaint == "lost-listener");
}

TEST_CASE("throw away: the speaker has the eye for at most half of the line") {
  Reel reel(3);
  reel.says(0, 2000, 6000);
  reel.asks(Kind::throw_away, {}, 2000, 6000);
  reel.points = leads(10, 2000, 4000, -10);
  CHECK(reel.verdict().result == Result::holds);
  CHECK(reel.verdict().favoured == person(0));
  reel.points = leads(10, 2000, 3900, -10);
  CHECK(reel.verdict().complaint == "loud-throwaway");
}

TEST_CASE("hide: never more than one percent, over beats, until the reveal") {
  Reel reel(3);
  reel.points = leads(10);
  reel.asks(Kind::hide, {1}, 0, 2000);
  reel.visible = [](int ms) { return std::vector<double>{1, ms < 7000 ? 0.01 : 1}; };
  CHECK(reel.verdict().complaint == "early-sight");
  CHECK(reel.verdict().decided == Moment{7000});
  reel.asks(Kind::reveal, {1}, 7000, 8000);
  CHECK(reel.verdict().result == Result::holds);
  reel.visible = [](int ms) { return std::vector<double>{1, ms < 6900 ? 0.011 : 1}; };
  CHECK(reel.verdict().result == Result::fails);
}

TEST_CASE("hide: a hint lifts it for two seconds, and must show between 3 and 30 % for half a second") {
  Reel reel(3);
  reel.points = leads(10);
  reel.asks(Kind::hide, {1});
  reel.asks(Kind::hint, {1}, 4000, 4000);
  reel.visible = [](int ms) { return std::vector<double>{1, ms >= 3500 && ms < 4000 ? 0.1 : 0}; };
  CHECK(reel.verdicts()[0].result == Result::holds);
  CHECK(reel.verdicts()[1].result == Result::holds);
  reel.visible = [](int ms) { return std::vector<double>{1, ms >= 3600 && ms < 4000 ? 0.1 : 0}; };
  CHECK(reel.verdicts()[1].complaint == "missed-hint");
}

TEST_CASE("hide in plain sight: never the eye, always more than the margin behind") {
  Reel reel(3);
  reel.points = leads(8.1);
  reel.asks(Kind::hide, {1}).strength = Intent::Strength::in_plain_sight;
  CHECK(reel.verdict().result == Result::holds);
  reel.points = leads(7);
  CHECK(reel.verdict().result == Result::close);
  reel.points = leads(9, 5000, 5200, -1);
  CHECK(reel.verdict().result == Result::fails);
  CHECK(reel.verdict().complaint == "catches-the-eye");
}

TEST_CASE("reveal: half of the body, legible and the eye within 0.6 s") {
  Reel reel(3);
  reel.asks(Kind::reveal, {0}, 4000, 10000);
  reel.points = leads(10, 0, 4500, -10);
  CHECK(reel.verdict().result == Result::holds);
  reel.points = leads(10, 0, 4700, -10);
  CHECK(reel.verdict().complaint == "fumbled-reveal");
  reel.points = leads(10);
  reel.visible = [](int) { return std::vector<double>{0.49}; };
  CHECK(reel.verdict().result == Result::fails);
}

TEST_CASE(
    "plant: noticed for 0.8 s, never the eye for over 1.5 s; pay off: the eye, or legible in the hands that have it") {
  Reel reel(3);
  const Target letter{Target::Kind::prop, 0, {}};
  reel.things = {letter};
  Intent& plant = reel.asks(Kind::plant, {});
  plant.targets = {letter};
  reel.points = [](int) { return std::vector<double>{40, 30, 10, 5}; };
  reel.visible = [](int ms) { return std::vector<double>{1, 1, 1, ms < 800 ? 0.5 : 0.4}; };
  CHECK(reel.verdict().result == Result::holds);
  reel.visible = [](int ms) { return std::vector<double>{1, 1, 1, ms < 700 ? 0.5 : 0.4}; };
  CHECK(reel.verdict().complaint == "missed-plant");
  reel.visible = [](int) { return std::vector<double>{}; };
  reel.points = [](int ms) { return std::vector<double>{40, 30, 10, ms < 1600 ? 50.0 : 5.0}; };
  CHECK(reel.verdict().complaint == "heavy-plant");
  reel.plan.intents[0].kind = Kind::pay_off;
  CHECK(reel.verdict().result == Result::holds);
  reel.points = [](int ms) { return std::vector<double>{40, 30, 10, ms < 700 ? 50.0 : 5.0}; };
  CHECK(reel.verdict().complaint == "missed-payoff");
  reel.plan.people[0].right_hand.push_back({Moment{0}, Moment{0}, {}, letter, Origin::said, {}});
  CHECK(reel.verdict().result == Result::holds);
}

TEST_CASE("draw the eye: the decoy leads at 75 %, the doer stays under 60 % of it") {
  Reel reel(3);
  reel.asks(Kind::draw_the_eye, {0}, 2000, 4000).ahead_of = {person(2)};
  reel.points = [](int) { return std::vector<double>{40, 30, 23}; };
  CHECK(reel.verdict().result == Result::holds);
  reel.points = [](int) { return std::vector<double>{40, 30, 24}; };
  CHECK(reel.verdict().complaint == "caught-at-it");
  reel.points = [](int) { return std::vector<double>{37, 30, 10}; };
  CHECK(reel.verdict().result == Result::fails);
}

TEST_CASE("settle: the eye rests unbroken after the last change of favour") {
  Reel reel(3);
  reel.asks(Kind::settle, {}).rests = Milliseconds{1000};
  reel.asks(Kind::favour, {0}, 8000);
  reel.points = leads(10, 9000, 9100, -10);
  CHECK(reel.verdicts()[0].result == Result::holds);
  reel.points = leads(10, 8900, 9100, -10);
  CHECK(reel.verdicts()[0].complaint == "no-time-to-settle");
}

TEST_CASE("button: the margin through the last second") {
  Reel reel(3);
  reel.asks(Kind::button, {0});
  reel.points = leads(8, 0, 9000, -10);
  CHECK(reel.verdict().result == Result::holds);
  reel.points = leads(8, 9000, 9100, 2);
  CHECK(reel.verdict().result == Result::close);
  reel.points = leads(8, 9000, 9100, -1);
  CHECK(reel.verdict().complaint == "no-button");
}

TEST_CASE("a beat that says nothing: each speaker has the eye at half of each own line") {
  Reel reel(3);
  reel.says(0, 1000, 3000);
  reel.says(1, 4000, 6000);
  reel.points = [](int ms) { return std::vector<double>{ms < 5000 ? 40.0 : 20.0, 30, 10}; };
  CHECK(reel.verdicts().size() == 1);
  CHECK(reel.verdict().result == Result::holds);
  reel.points = [](int ms) { return std::vector<double>{ms < 5100 ? 40.0 : 20.0, 30, 10}; };
  CHECK(reel.verdict().complaint == "nobody-asked");
  CHECK(reel.verdict().favoured == person(1));
  CHECK(reel.verdict().speech == 1);
}

TEST_CASE("a beat with a favour, or without talk, is not checked against its speakers") {
  Reel reel(3);
  reel.points = leads(10);
  CHECK(reel.verdicts().empty());
  reel.says(0, 1000, 3000);
  reel.asks(Kind::favour, {0});
  CHECK(reel.verdicts().size() == 1);
}

TEST_CASE("stories: leads, runs under, comes up") {
  Reel reel(3);
  reel.story({0}, State::leads);
  reel.points = leads(10, 2000, 4800, -10);
  CHECK(reel.verdict().result == Result::holds);
  reel.points = leads(10, 2000, 5000, -10);
  CHECK(reel.verdict().complaint == "lost-story");

  reel.plan.stories[0].state = State::comes_up;
  reel.points = leads(10, 0, 600, -10);
  CHECK(reel.verdict().result == Result::holds);
  reel.points = leads(10, 0, 700, -10);
  CHECK(reel.verdict().complaint == "late-story");

  reel.plan.stories[0].state = State::runs_under;
  reel.points = leads(-10, 2000, 3500, 10);
  CHECK(reel.verdict().result == Result::holds);
  reel.points = leads(-10, 2000, 3600, 10);
  CHECK(reel.verdict().complaint == "hungry-background");
  reel.points = leads(-10);
  reel.visible = [](int ms) { return std::vector<double>{ms < 3900 ? 1.0 : 0.3}; };
  CHECK(reel.verdict().complaint == "cold-background");
}

TEST_CASE("stories: a break-in takes the eye within half a second of first sight") {
  Reel reel(3);
  reel.story({0}, State::breaks_in, 4000);
  reel.visible = [](int ms) { return std::vector<double>{ms < 5000 ? 0.0 : 1.0}; };
  reel.points = leads(10, 0, 5500, -10);
  CHECK(reel.verdict().result == Result::holds);
  reel.points = leads(10, 0, 5600, -10);
  CHECK(reel.verdict().complaint == "weak-break-in");
}

TEST_CASE("stories: dropped means nobody over 20 points, save who runs in another") {
  Reel reel(3);
  reel.story({0}, State::drops_out);
  reel.points = [](int) { return std::vector<double>{20, 30, 10}; };
  CHECK(reel.verdict().result == Result::holds);
  reel.points = [](int) { return std::vector<double>{21, 30, 10}; };
  CHECK(reel.verdict().complaint == "lingering-story");
  reel.story({0, 1}, State::leads);
  CHECK(reel.verdict().result == Result::holds);
}

TEST_CASE("stories: the last deed of a closing one is legible for 1.5 s") {
  Reel reel(3);
  reel.story({0}, State::closes);
  reel.points = leads(10);
  CHECK(reel.verdict().complaint == "lost-ending");
  reel.says(0, 5000, 7000);
  CHECK(reel.verdict().result == Result::holds);
  reel.visible = [](int ms) { return std::vector<double>{ms < 6400 ? 1.0 : 0.2}; };
  CHECK(reel.verdict().result == Result::fails);
}

TEST_CASE("not judged: a beat with an unreadable line, a stretch of no length, nobody named, no samples") {
  Reel reel(3);
  reel.points = leads(10);
  reel.asks(Kind::favour, {0});
  reel.plan.beats[0].judged = false;
  CHECK(reel.verdict().result == Result::not_judged);
  reel.plan.beats[0].judged = true;
  reel.plan.intents[0].end = reel.plan.intents[0].begin;
  CHECK(reel.verdict().result == Result::not_judged);
  reel.plan.intents[0].targets.clear();
  CHECK(reel.verdict().result == Result::not_judged);
  CHECK(judge(reel.plan, Attention{}).front().result == Result::not_judged);
}

TEST_CASE("stories: one leads until another takes the lead") {
  Reel reel(3);
  reel.points = [](int ms) { return std::vector<double>{ms < 5000 ? 40.0 : 10.0, ms < 5000 ? 10.0 : 40.0, 5}; };
  reel.story({0}, State::leads);
  CHECK(reel.verdict().complaint == "lost-story");
  reel.story({1}, State::breaks_in, 5000);
  CHECK(reel.verdict().result == Result::holds);
  CHECK(reel.verdict().end == Moment{5000});
  reel.plan.stories[1].state = State::runs_under;
  CHECK(reel.verdict().complaint == "lost-story");
}
