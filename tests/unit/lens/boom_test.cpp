// The place of a boom, and the shadow of a camera: worked by hand.
#include "lens/boom.h"

#include <catch2/catch.hpp>

#include "lens/light.h"
#include "plan/state.h"
#include "scene.h"

using namespace lensward;

namespace {

constexpr double stature = 1.7;

Scene one_person_before_the_lens() {
  Scene scene({0, 0, 1.5}, 35_mm, FNumber{2.8}, 3_m);
  scene.person("Oda", {0, 3}, Metres{stature}, Degrees{180});
  return scene;
}

Speech a_line() {
  Speech speech;
  speech.speaker = PersonId{0};
  speech.begin = Moment{1000};
  speech.end = Moment{3000};
  return speech;
}

Vec3 eyes_of(const Plan& plan) { return *sharp_point_of(plan, {Target::Kind::person, 0, {}}, Moment{1000}); }

}  // namespace

// The picture's upper edge and a rim of 4 % of its height stand 0.54·h·d/f over a level lens (pinhole, docs/model.md).
TEST_CASE("a boom comes down to the rim of the picture, and no farther") {
  const Scene scene = one_person_before_the_lens();
  const Vec3 eyes = eyes_of(scene.plan);
  const double mouth = eyes.z - 0.04 * stature, edge = 1.5 + 0.54 * 13.454 / 35 * eyes.y;
  const auto boom = boom_for(scene.plan, a_line());
  REQUIRE(boom);
  CHECK(boom->from == Boom::From::over);
  CHECK(boom->distance.value >= edge - mouth);
  CHECK(boom->distance.value <= edge - mouth + 0.02);
}

TEST_CASE("a boom keeps out of a hard lamp's way to a face, and lets a soft one be") {
  Scene scene = one_person_before_the_lens();
  const Vec3 eyes = eyes_of(scene.plan);
  scene.lamp({eyes.x, eyes.y, 4}, Candela{1000}, Lamp::Kind::soft);
  CHECK(boom_for(scene.plan, a_line())->from == Boom::From::over);
  scene.lamp({eyes.x, eyes.y, 4}, Candela{1000}, Lamp::Kind::hard);
  const auto boom = boom_for(scene.plan, a_line());
  REQUIRE(boom);
  CHECK(boom->from != Boom::From::over);
}

TEST_CASE("there is no boom where the picture leaves the room no place for one") {
  Scene scene = one_person_before_the_lens();
  scene.plan.cameras[0].focal = always(10_mm);
  scene.room(-2, -1, 2, 4, Tone::mid);
  scene.plan.stage.room.height = 2.4_m;
  CHECK_FALSE(boom_for(scene.plan, a_line()));
}

TEST_CASE("camera and operator stand in the way of a low lamp behind them, and of no high one") {
  Scene low = one_person_before_the_lens(), high = low, crane = low;
  low.lamp({0, -3, 1.5}, Candela{1000});
  CHECK(camera_shadow_on(low.plan, PersonId{0}, Moment{1000})->value == Approx(10));
  high.lamp({0, -3, 4}, Candela{1000});
  CHECK_FALSE(camera_shadow_on(high.plan, PersonId{0}, Moment{1000}));
  // Nobody stands behind a crane's lens: a lamp that passes under the camera reaches the face.
  crane.lamp({0, -3, 0.5}, Candela{1000});
  CHECK(camera_shadow_on(crane.plan, PersonId{0}, Moment{1000}));
  crane.plan.stage.cameras[0].support.rig = Rig::crane;
  CHECK_FALSE(camera_shadow_on(crane.plan, PersonId{0}, Moment{1000}));
}
