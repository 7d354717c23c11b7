#include <catch2/catch.hpp>

#include "base/angle.h"
#include "plan/plan.h"

using namespace lensward;

namespace {

// Two people, one camera; the first walks 3 m east in 2 s and then 4 m north in 4 s of the same path.
Plan two_people() {
  Plan plan;
  plan.stage.people.resize(2);
  plan.stage.people[0].name = "Ann";
  plan.stage.people[1].name = "Ben";
  plan.stage.cameras.resize(2);
  plan.people.resize(2);
  plan.cameras.resize(2);
  plan.people[0].present = {{0_ms, 0_ms, true, true, Origin::said, {}}};
  plan.people[0].feet = {{1000_ms, 8000_ms, {}, Walk{{{0, 0}, {3, 0}, {3, 4}}}, Origin::said, {}}};
  plan.people[1].feet = {{0_ms, 0_ms, {}, Walk{{{3, 8}}}, Origin::said, {}}};
  return plan;
}

}  // namespace

TEST_CASE("a walk is even along its whole path") {
  const Walk walk{{{0, 0}, {3, 0}, {3, 4}}};
  CHECK(walk.length().value == Approx(7));
  CHECK(walk.at(0) == Vec2{0, 0});
  CHECK(walk.at(5.0 / 7).x == Approx(3));
  CHECK(walk.at(5.0 / 7).y == Approx(2));
  CHECK(walk.at(1) == Vec2{3, 4});
  CHECK(walk.at(2) == Vec2{3, 4});
}

TEST_CASE("feet go at path over time, and stand before and after") {
  const Plan plan = two_people();
  const PersonState before = person_at(plan, PersonId{0}, 500_ms);
  CHECK(before.at == Vec2{0, 0});
  CHECK(length(before.velocity) == 0);
  const PersonState midway = person_at(plan, PersonId{0}, 3000_ms);
  CHECK(midway.at.x == Approx(2));
  CHECK(midway.velocity.x == Approx(1));
  const PersonState after = person_at(plan, PersonId{0}, 9000_ms);
  CHECK(after.at == Vec2{3, 4});
  CHECK(length(after.velocity) == 0);
}

TEST_CASE("a turn goes the short way and its rate is its angle over its time") {
  Plan plan = two_people();
  plan.people[1].body = {{0_ms, 1000_ms, {Degrees{170}, {}}, {Degrees{-170}, {}}, Origin::said, {}}};
  const PersonState midway = person_at(plan, PersonId{1}, 500_ms);
  CHECK(abs(wrapped(midway.facing - Degrees{180})).value == Approx(0).margin(1e-9));
  CHECK(midway.turning.value == Approx(20));
}

TEST_CASE("eyes and bodies that follow somebody follow their walk") {
  Plan plan = two_people();
  const Target ann{Target::Kind::person, 0, {}};
  plan.people[1].body = {{0_ms, 0_ms, {}, {Degrees{0}, ann}, Origin::said, {}}};
  plan.people[1].eyes = {{0_ms, 0_ms, {}, Gaze{Gaze::Manner::at_target, ann}, Origin::said, {}}};
  const PersonState state = person_at(plan, PersonId{1}, 8000_ms);
  CHECK(state.facing.value == Approx(180));
  CHECK(state.looks_at.y == Approx(4));
  CHECK(state.gaze == ann);
  CHECK(state.gaze_told);
  CHECK_FALSE(person_at(plan, PersonId{0}, 0_ms).gaze_told);
}

TEST_CASE("a camera that keeps somebody holds them at their place in the picture") {
  Plan plan = two_people();
  plan.cameras[0].place = {{0_ms, 0_ms, {1, -5, 1.6}, {1, -5, 1.6}, Origin::said, {}}};
  plan.cameras[0].keeps = {{0_ms, 0_ms, {}, {Target::Kind::person, 0, {}}, Origin::said, {}}};
  plan.cameras[0].keeps_at = {{0_ms, 0_ms, Share{0.25}, Share{0.25}, Origin::said, {}}};
  for (const Moment moment : {0_ms, 2500_ms, 5000_ms, 9000_ms}) {
    const CameraState camera = camera_at(plan, CameraId{0}, moment);
    const auto seen = project(pinhole_of(camera), *point_of(plan, {Target::Kind::person, 0, {}}, moment));
    REQUIRE(seen);
    CHECK(seen->at.u == Approx(0.25));
  }
}

TEST_CASE("focus that follows is the distance along the lens axis") {
  Plan plan = two_people();
  plan.cameras[0].place = {{0_ms, 0_ms, {3, 0, 1.5}, {3, 0, 1.5}, Origin::said, {}}};
  plan.cameras[0].aim = {{0_ms, 0_ms, {0, 0}, {0, 0}, Origin::said, {}}};
  plan.cameras[0].focus = {{0_ms, 0_ms, Metres{2}, Metres{2}, Origin::said, {}}};
  plan.cameras[0].focus_on = {{1000_ms, 2000_ms, {}, {Target::Kind::person, 1, {}}, Origin::said, {}}};
  CHECK(camera_at(plan, CameraId{0}, 0_ms).focus.value == Approx(2));
  // On the eyes, which are ahead of the feet: he faces away from the lens, then toward it.
  const double away = camera_at(plan, CameraId{0}, 2000_ms).focus.value;
  CHECK(away > 8.04);
  CHECK(away < 8.1);
  // Half way in dioptres.
  CHECK(camera_at(plan, CameraId{0}, 1500_ms).focus.value == Approx(2 / (1.0 / 2 + 1 / away)));
  plan.people[1].body = {{0_ms, 0_ms, {}, {Degrees{180}, {}}, Origin::said, {}}};
  CHECK(camera_at(plan, CameraId{0}, 2000_ms).focus.value == Approx(16 - away));
}

TEST_CASE("the camera on air is that of the last cut") {
  Plan plan = two_people();
  plan.cuts = {{0_ms, CameraId{1}, {}}, {2000_ms, CameraId{0}, {}}};
  CHECK(on_air(plan, 0_ms) == CameraId{1});
  CHECK(on_air(plan, 1999_ms) == CameraId{1});
  CHECK(on_air(plan, 2000_ms) == CameraId{0});
}

TEST_CASE("a beat holds its first moment and not its last") {
  Plan plan = two_people();
  CHECK(beat_at(plan, 0_ms) == -1);
  plan.beats.resize(2);
  plan.beats[0].end = plan.beats[1].begin = 1000_ms;
  plan.beats[1].end = 2000_ms;
  CHECK(beat_at(plan, 999_ms) == 0);
  CHECK(beat_at(plan, 1000_ms) == 1);
  CHECK(beat_at(plan, 5000_ms) == 1);
}

TEST_CASE("turning points are in order and once each") {
  Plan plan = two_people();
  plan.cuts = {{0_ms, CameraId{1}, {}}};
  CHECK(turning_points(plan) == std::vector<Moment>{0_ms, 1000_ms, 8000_ms});
}
