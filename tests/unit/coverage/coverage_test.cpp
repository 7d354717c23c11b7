#include "coverage/coverage.h"

#include <catch2/catch.hpp>

#include "../lens/scene.h"
#include "coverage/words.h"

using namespace lensward;

namespace {

// Ann and Ben face one another 2 m apart across the lens's way, and say a line each; more lines on demand.
struct Talk : Scene {
  Talk() : Scene({1, -4, 1.5}, Millimetres{35}, FNumber{2.8}, Metres{4}) {
    person("Ann", {0, 0}, Metres{1.7}, Degrees{90});
    person("Ben", {2, 0}, Metres{1.7}, Degrees{270});
    plan.beats[0].name = "Asking";
  }

  void say(int from, int to, std::int64_t begin) {
    Speech speech;
    speech.speaker = PersonId{from};
    if (to >= 0) speech.to = {PersonId{to}};
    speech.to_everyone = to < 0;
    speech.begin = Moment{begin};
    speech.end = Moment{begin + 1000};
    speech.words = "Well.";
    plan.speeches.push_back(speech);
  }

  Coverage covered(const std::vector<Verdict>& verdicts = {}) const { return coverage_of(plan, verdicts); }
};

int of_kind(const Coverage& coverage, SetUp::Kind kind) {
  return static_cast<int>(std::ranges::count(coverage.set_ups, kind, &SetUp::kind));
}

using Kind = SetUp::Kind;

}  // namespace

TEST_CASE("the side of a line is the sign of a cross product, none within 20 cm of it") {
  // Worked case of a text on the 180-degree rule: A (0, 0), B (2, 0).
  CHECK(side_of_line({0, 0}, {2, 0}, {1, -3}) == -1);
  CHECK(side_of_line({0, 0}, {2, 0}, {1, 3}) == 1);
  CHECK(side_of_line({0, 0}, {2, 0}, {3, -0.19}) == 0);
  CHECK(side_of_line({0, 0}, {2, 0}, {3, -0.21}) == -1);
  CHECK(side_of_line({0, 0}, {2, 0}, {-1, 0}) == 0);
}

TEST_CASE("the 30-degree rule's angle is that at the subject") {
  // Worked by hand: atan(1/3), atan(2/3), atan(1/sqrt 3), and a right angle.
  CHECK(angle_between({0, 0}, {0, -3}, {1, -3}).value == Approx(18.435).margin(1e-3));
  CHECK(angle_between({0, 0}, {0, -3}, {2, -3}).value == Approx(33.690).margin(1e-3));
  CHECK(angle_between({0, 0}, {0, -3}, {1.7320508, -3}).value == Approx(30).margin(1e-6));
  CHECK(angle_between({0, 0}, {-2, -2}, {2, -2}).value == Approx(90));
}

TEST_CASE("two who talk are covered by five set-ups: master, two singles, two over-shoulders") {
  // The count textbooks give for a talk of two.
  Talk talk;
  talk.say(0, 1, 1000);
  talk.say(1, 0, 3000);
  const Coverage coverage = talk.covered();
  CHECK(coverage.set_ups.size() == 5);
  CHECK(of_kind(coverage, Kind::master) == 1);
  CHECK(of_kind(coverage, Kind::single) == 2);
  CHECK(of_kind(coverage, Kind::over_shoulder) == 2);
}

TEST_CASE("all cameras stay on the held frame's side, so that the two look at one another") {
  Talk talk;
  talk.say(0, 1, 1000);
  talk.say(1, 0, 3000);
  const Coverage coverage = talk.covered();
  for (const SetUp& set_up : coverage.set_ups) {
    CHECK(side_of_line({0, 0}, {2, 0}, floor_of(set_up.camera.at)) == -1);
    // From south of them Ann, in the west, looks to the right.
    if (set_up.of.known()) CHECK(set_up.looks_right == (set_up.of == PersonId{0}));
  }
  talk.plan.cameras[0].place = always(Vec3{1, 4, 1.5});
  for (const SetUp& set_up : talk.covered().set_ups) {
    CHECK(side_of_line({0, 0}, {2, 0}, floor_of(set_up.camera.at)) == 1);
    if (set_up.of.known()) CHECK(set_up.looks_right == (set_up.of == PersonId{1}));
  }
}

TEST_CASE("a single and an over-shoulder of the same person are 30 degrees apart or more, or of another size") {
  Talk talk;
  talk.say(0, 1, 1000);
  talk.say(1, 0, 3000);
  for (const SetUp& one : talk.covered().set_ups)
    for (const SetUp& other : talk.covered().set_ups) {
      if (one.kind != Kind::single || other.kind != Kind::over_shoulder || one.of != other.of) continue;
      const Vec2 subject = one.of == PersonId{0} ? Vec2{0, 0} : Vec2{2, 0};
      const double apart = angle_between(subject, floor_of(one.camera.at), floor_of(other.camera.at)).value;
      const auto height = [&](const SetUp& set_up) {
        return set_up.camera.gate_height.value / set_up.camera.focal.value * set_up.camera.focus.value;
      };
      CHECK((apart >= 30 || height(other) > 1.2 * height(one)));
    }
}

TEST_CASE("one line of a pair is covered by singles alone; a line to everyone by one of the speaker") {
  Talk talk;
  talk.say(0, 1, 1000);
  CHECK(talk.covered().set_ups.size() == 3);
  Talk to_all;
  to_all.say(0, -1, 1000);
  CHECK(to_all.covered().set_ups.size() == 2);
}

TEST_CASE("who goes elsewhere has to be covered anew, who shifts a step has not") {
  Talk talk;
  talk.say(0, 1, 1000);
  talk.say(1, 0, 3000);
  talk.say(0, 1, 9000);
  talk.plan.people[0].feet = {{Moment{5000}, Moment{8000}, {}, Walk{{{0, 0}, {0.5, 0}}}, Origin::said, {}}};
  CHECK(talk.covered().set_ups.size() == 5);
  talk.plan.people[0].feet = {{Moment{5000}, Moment{8000}, {}, Walk{{{0, 0}, {-2, 0}}}, Origin::said, {}}};
  CHECK(talk.covered().set_ups.size() > 5);
}

TEST_CASE("where the held frame comes to the other side of a pair, that is told once") {
  Talk talk;
  talk.say(0, 1, 1000);
  talk.say(1, 0, 9000);
  talk.say(0, 1, 12000);
  CHECK(talk.covered().crossed.empty());
  talk.plan.cameras[0].place = changing(Moment{4000}, Moment{8000}, Vec3{1, -4, 1.5}, Vec3{1, 4, 1.5});
  const Coverage coverage = talk.covered();
  REQUIRE(coverage.crossed.size() == 1);
  CHECK(coverage.crossed[0].at == Moment{9500});
}

TEST_CASE("a scene without beats, cameras or words is no trouble") {
  CHECK(coverage_of(Plan{}, {}).set_ups.empty());
  CHECK(coverage_text(Plan{}, coverage_of(Plan{}, {})) == "nothing to cover: the scene has no beats\n");
  const Coverage silent = Talk{}.covered();
  CHECK(silent.set_ups.size() == 1);
  CHECK(silent.insurance.empty());
}

TEST_CASE("hours are those of published rates") {
  // A producer's blog: 20 minutes a simple set-up, 45 with a dolly; 12 of them take 4 to 9 hours.
  CHECK(hours_for(12).least == Approx(4));
  CHECK(hours_for(12).most == Approx(9));
}

TEST_CASE("what is worth taking first shows whom the eye should be on and is not") {
  Talk talk;
  talk.say(0, 1, 1000);
  talk.say(1, 0, 10000);
  Verdict fails;
  fails.result = Verdict::Result::fails;
  fails.beat = 0;
  fails.begin = Moment{2000};
  fails.end = Moment{9000};
  fails.favoured = {Target::Kind::person, 1, {}};
  const Coverage coverage = talk.covered({fails});
  REQUIRE(coverage.insurance.size() == 2);
  const auto first = static_cast<std::size_t>(coverage.insurance[0].set_up);
  CHECK(coverage.set_ups[first].of == PersonId{1});
  CHECK(coverage.insurance[0].rescues == Milliseconds{7000});
  CHECK(coverage.insurance[0].joins == Moment{10000});
  CHECK(coverage.held.failing == 1);
}
