#include "plan/frame_for.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "figure/proportions.h"

using namespace lensward;

namespace {

CameraState camera_at_south() {
  CameraState camera;
  camera.at = {3, -2, 1.5};
  return camera;
}

Framed standing(int person, double x, double y, double tall = 1.7) {
  Framed framed;
  framed.person = PersonId{person};
  framed.eyes = {x, y, eye_fraction * tall};
  framed.stature = Metres{tall};
  return framed;
}

PicturePoint place_of(const CameraState& camera, const Framed& framed) {
  const auto seen = project(pinhole_of(camera), framed.eyes);
  REQUIRE(seen);
  return seen->at;
}

double shown_height(const CameraState& camera, const Framed& framed) {
  const auto seen = project(pinhole_of(camera), framed.eyes);
  REQUIRE(seen);
  return seen->depth.value * camera.gate_height.value / camera.focal.value;
}

}  // namespace

TEST_CASE("a fixed camera turns until somebody stands where the picture wants them") {
  for (double across : {0.25, 1.0 / 3, 0.5, 0.8}) {
    Framed oda = standing(0, 2, 2.5);
    oda.across = Share{across};
    const FrameAnswer answer = frame_for(camera_at_south(), {oda}, {});
    CHECK(place_of(answer.camera, oda).u == Approx(across).margin(0.001));
    CHECK(answer.camera.at == Vec3{3, -2, 1.5});
    CHECK(answer.camera.focal.value == 35);
    CHECK(answer.width_error < 0.001);
    // Eyes on the upper third, common practice of framing faces.
    CHECK(place_of(answer.camera, oda).v == Approx(1.0 / 3).margin(0.001));
  }
}

TEST_CASE("headroom without a size puts the crown as far below the top as told, and the lens stays") {
  for (const double headroom : {0.02, 0.05, 0.2}) {
    Framed oda = standing(0, 3, 2.5);
    oda.headroom = Share{headroom};
    const FrameAnswer answer = frame_for(camera_at_south(), {oda}, {});
    const auto crown = project(pinhole_of(answer.camera), {3, 2.5, 1.7});
    REQUIRE(crown);
    CHECK(crown->at.v == Approx(headroom).margin(0.01));
    CHECK(answer.camera.focal.value == 35);
  }
}

TEST_CASE("a zoom gives the size without moving, a dolly without zooming") {
  for (ShotSize size : {ShotSize::close_up, ShotSize::medium_shot, ShotSize::knee_shot, ShotSize::full_shot}) {
    Framed oda = standing(0, 2, 2.5, 1.63);
    oda.across = Share{1.0 / 3};
    oda.size = sizing_of(size);
    const double height = frame_height_for(size, oda.stature).value;

    const FrameAnswer zoomed = frame_for(camera_at_south(), {oda}, {false, true});
    CHECK(shown_height(zoomed.camera, oda) == Approx(height).epsilon(0.001));
    CHECK(zoomed.camera.at == Vec3{3, -2, 1.5});
    CHECK(zoomed.size_error < 0.001);

    const FrameAnswer moved = frame_for(camera_at_south(), {oda}, {true, false});
    CHECK(shown_height(moved.camera, oda) == Approx(height).epsilon(0.005));
    CHECK(moved.camera.focal.value == 35);
    CHECK(moved.camera.at.z == 1.5);
    CHECK(place_of(moved.camera, oda).u == Approx(1.0 / 3).margin(0.002));
    // Still on the line it was on.
    const Vec2 before = unit(Vec2{3, -2} - Vec2{2, 2.5});
    const Vec2 after = unit(floor_of(moved.camera.at) - Vec2{2, 2.5});
    CHECK(dot(before, after) == Approx(1).margin(1e-9));
  }
}

TEST_CASE("headroom is the size's own") {
  Framed oda = standing(0, 3, 2);
  oda.size = sizing_of(ShotSize::medium_shot);
  const FrameAnswer answer = frame_for(camera_at_south(), {oda}, {false, true});
  const auto crown = project(pinhole_of(answer.camera), {3, 2, 1.7});
  REQUIRE(crown);
  // 8 % above the crown; a tilted picture of a standing figure is off by less than a hundredth.
  CHECK(crown->at.v == Approx(0.08).margin(0.01));
}

TEST_CASE("what a fixed camera cannot give is told as what is left") {
  Framed oda = standing(0, 2, 2.5);
  oda.size = sizing_of(ShotSize::close_up);
  CHECK(frame_for(camera_at_south(), {oda}, {}).size_error > 0.5);
  Framed left = standing(0, 2, 2.5);
  Framed right = standing(1, 4, 2.5);
  left.across = Share{0.45};
  right.across = Share{0.55};
  CHECK(frame_for(camera_at_south(), {left, right}, {}).width_error > 0.1);
}

TEST_CASE("two people at two places fix the lens of a zoom and the distance of a dolly") {
  Framed left = standing(0, 2.2, 2.5);
  Framed right = standing(1, 3.8, 2.7, 1.8);
  left.across = Share{1.0 / 3};
  right.across = Share{2.0 / 3};
  for (Freedom freedom : {Freedom{false, true}, Freedom{true, false}}) {
    const FrameAnswer answer = frame_for(camera_at_south(), {left, right}, freedom);
    CHECK(answer.width_error < 0.02);
    CHECK(place_of(answer.camera, left).u == Approx(1.0 / 3).margin(0.02));
    CHECK(place_of(answer.camera, right).u == Approx(2.0 / 3).margin(0.02));
  }
}

TEST_CASE("a group without places is held in the middle, and a free camera takes all of it in") {
  const std::vector<Framed> group{standing(0, 0.5, 2), standing(1, 3, 3), standing(2, 5.5, 2.4)};
  const FrameAnswer turned = frame_for(camera_at_south(), group, {});
  CHECK(place_of(turned.camera, group[0]).u + place_of(turned.camera, group[2]).u == Approx(1).margin(0.001));
  const FrameAnswer moved = frame_for(camera_at_south(), group, {true, false});
  for (const Framed& one : group) {
    CHECK(place_of(moved.camera, one).u > 0.05);
    CHECK(place_of(moved.camera, one).u < 0.95);
  }
}

TEST_CASE("a rolled camera is turned the same way") {
  CameraState camera = camera_at_south();
  camera.roll = Degrees{12};
  Framed oda = standing(0, 2, 2.5);
  oda.across = Share{0.3};
  const FrameAnswer answer = frame_for(camera, {oda}, {});
  CHECK(place_of(answer.camera, oda).u == Approx(0.3).margin(0.001));
  CHECK(answer.camera.roll.value == 12);
}

TEST_CASE("somebody on the lens, behind it or a mile off still gives numbers") {
  for (const Framed& one : {standing(0, 3, -2), standing(0, 3, -9), standing(0, 2000, 9000), standing(0, 3.0001, -2)}) {
    for (Freedom freedom : {Freedom{}, Freedom{true, false}, Freedom{false, true}, Freedom{true, true}}) {
      Framed framed = one;
      framed.across = Share{0.9};
      framed.size = sizing_of(ShotSize::extreme_close_up);
      const CameraState camera = frame_for(camera_at_south(), {framed}, freedom).camera;
      CHECK(std::isfinite(camera.pan.value + camera.tilt.value + camera.focal.value));
      CHECK(std::isfinite(camera.at.x + camera.at.y + camera.at.z));
    }
  }
}
