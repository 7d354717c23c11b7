#include "figure/figure.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "base/angle.h"
#include "figure/skeleton.h"

using namespace lensward;

namespace {

Pose standing(double stature) {
  Pose pose;
  pose.stature = Metres{stature};
  pose.looks_at = {0, 100, 0.936 * stature};
  return pose;
}

bool finite(Vec3 v) { return std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z); }

double lowest(const Solid& solid) {
  if (solid.shape == Solid::Shape::ellipsoid) {
    const Vec3 d{solid.x_axis.z * solid.radii.x, solid.y_axis.z * solid.radii.y, solid.z_axis.z * solid.radii.z};
    return solid.a.z - length(d);
  }
  return std::min(solid.a.z - solid.ra, solid.b.z - solid.rb);
}

double highest(const Solid& solid) {
  if (solid.shape == Solid::Shape::ellipsoid) return 2 * solid.a.z - lowest(solid);
  return std::max(solid.a.z + solid.ra, solid.b.z + solid.rb);
}

constexpr Posture postures[] = {Posture::standing,  Posture::sitting,  Posture::leaning, Posture::perching,
                                Posture::crouching, Posture::kneeling, Posture::lying};

}  // namespace

// Eye 0.936, chin 0.870 of stature: Drillis and Contini, in Winter, Biomechanics and Motor Control of Human Movement,
// figure 4.1.
TEST_CASE("landmarks of a standing figure stand at the published fractions of stature") {
  const double stature = GENERATE(1.5, 1.7, 1.8);
  const PersonFigure figure = figure_of(standing(stature));
  CHECK(figure.eyes.z == Approx(0.936 * stature).margin(0.001));
  CHECK(figure.chin.z == Approx(0.870 * stature).margin(0.001));
  CHECK(figure.crown.z == Approx(stature).margin(0.001));

  const Skeleton bones = skeleton_of(standing(stature));
  for (std::size_t side = 0; side < 2; ++side) {
    CHECK(bones.legs[side].root.z == Approx(0.530 * stature).margin(0.005));
    CHECK(bones.legs[side].bend.z == Approx(0.285 * stature).margin(0.01 * stature));
    CHECK(bones.legs[side].end.z == Approx(0.039 * stature).margin(0.005));
    CHECK(bones.arms[side].bend.z == Approx(0.630 * stature).margin(0.05 * stature));
    CHECK(bones.arms[side].end.z == Approx(0.485 * stature).margin(0.05 * stature));
  }
}

// 1.591, 1.479: the same table worked out for 1.70 m.
TEST_CASE("the figure's solids end where its landmarks are") {
  const PersonFigure figure = figure_of(standing(1.7));
  double top = 0, bottom = 9;
  for (const Solid& solid : figure.solids) {
    top = std::max(top, highest(solid));
    bottom = std::min(bottom, lowest(solid));
  }
  CHECK(figure.eyes.z == Approx(1.591).margin(0.001));
  CHECK(figure.chin.z == Approx(1.479).margin(0.001));
  // Hair stands up to three centimetres above the crown; soles are on the floor.
  CHECK(top >= 1.69);
  CHECK(top <= 1.735);
  CHECK(bottom == Approx(0).margin(0.012));
}

// Eye height sitting 804.5 mm of 1756.2 and 747.7 of 1628.5: ANSUR II (Gordon and others 2014), means of men and women.
TEST_CASE("seated eyes stand over the seat by the measured sitting eye height") {
  for (const auto& [stature, eyes] : {std::pair{1.7562, 0.8045}, std::pair{1.6285, 0.7477}}) {
    Pose pose = standing(stature);
    pose.posture = Posture::sitting;
    pose.seat = Metres{0.43};
    pose.looks_at = {0, 100, 0.43 + eyes};
    CHECK(figure_of(pose).eyes.z == Approx(0.43 + eyes).margin(0.012));
  }
}

// Upper arm 0.186, forearm 0.146, thigh 0.245, shank 0.246 of stature (Drillis and Contini).
TEST_CASE("bones keep their length in every posture") {
  for (const Posture posture : postures) {
    Pose pose = standing(1.7);
    pose.posture = posture;
    pose.seat = Metres{posture == Posture::sitting ? 0.45 : posture == Posture::perching ? 0.75 : 0};
    pose.right_hand_at = Vec3{0.4, 0.5, 1.1};
    const Skeleton bones = skeleton_of(pose);
    for (std::size_t side = 0; side < 2; ++side) {
      CHECK(length(bones.arms[side].bend - bones.arms[side].root) == Approx(0.186 * 1.7).epsilon(1e-6));
      CHECK(length(bones.arms[side].end - bones.arms[side].bend) == Approx(0.146 * 1.7).epsilon(1e-6));
      CHECK(length(bones.legs[side].bend - bones.legs[side].root) == Approx(0.245 * 1.7).epsilon(1e-6));
      CHECK(length(bones.legs[side].end - bones.legs[side].bend) == Approx(0.246 * 1.7).epsilon(1e-6));
    }
  }
}

// Necks turn 77.5 to 81 degrees a side (Ferrario and others 2002), eyes 35 more at ease (LaValle, Virtual Reality).
TEST_CASE("a head turns no further than a neck goes, and the eyes the rest") {
  for (int bearing = -180; bearing <= 180; bearing += 5) {
    Pose pose = standing(1.7);
    const Vec2 way = direction_of(Degrees{static_cast<double>(bearing)});
    pose.looks_at = {way.x * 50, way.y * 50, 1.59};
    const PersonFigure figure = figure_of(pose);
    const double face = wrapped(bearing_of(floor_of(figure.face_direction))).value;
    const double gaze = wrapped(bearing_of(floor_of(figure.gaze_direction))).value;
    CHECK(std::fabs(face) <= 80.001);
    CHECK(std::fabs(gaze) <= 115.001);
    if (std::abs(bearing) <= 80) CHECK(face == Approx(bearing).margin(0.2));
    if (std::abs(bearing) <= 110) CHECK(gaze == Approx(bearing).margin(0.2));
  }
}

TEST_CASE("a head bends within limits when somebody looks at their feet or overhead") {
  Pose pose = standing(1.7);
  pose.looks_at = {0, 0.05, 0};
  const PersonFigure down = figure_of(pose);
  CHECK(down.face_direction.z < -0.5);
  CHECK(down.face_direction.z > -0.85);
  pose.looks_at = {0, 0.05, 9};
  CHECK(figure_of(pose).face_direction.z > 0.5);
  CHECK(figure_of(pose).face_direction.z < 0.85);
}

TEST_CASE("a hand goes to what is in reach, and toward what is not") {
  Pose pose = standing(1.7);
  pose.right_hand_at = Vec3{0.15, 0.40, 1.15};
  const Skeleton near = skeleton_of(pose);
  const Vec3 palm = near.arms[1].end + near.hands[1].fingers * (0.05 * 1.7);
  CHECK(length(palm - *pose.right_hand_at) < 0.05);

  pose.right_hand_at = Vec3{0.15, 5, 1.3};
  const Skeleton far = skeleton_of(pose);
  CHECK(length(far.arms[1].end - far.arms[1].root) == Approx((0.186 + 0.146) * 1.7).epsilon(0.001));
  CHECK(unit(far.arms[1].end - far.arms[1].root).y > 0.99);
}

TEST_CASE("a figure that looks straight ahead is the same on both sides, feet and lap aside") {
  const int look = GENERATE(range(0, 12));
  Pose pose = standing(1.7);
  pose.look = look;
  const std::vector<Solid> solids = figure_of(pose).solids;
  const auto mirrored = [](Vec3 v) { return Vec3{-v.x, v.y, v.z}; };
  const auto same = [](Vec3 a, Vec3 b) { return length(a - b) < 1e-9; };
  for (const Solid& solid : solids) {
    if (solid.part == Part::leg || solid.part == Part::foot || solid.part == Part::cloth) continue;
    const bool found = std::any_of(solids.begin(), solids.end(), [&](const Solid& other) {
      return other.shape == solid.shape && other.material == solid.material && same(mirrored(solid.a), other.a) &&
             same(mirrored(solid.b), other.b) && std::fabs(solid.ra - other.ra) < 1e-9;
    });
    CHECK(found);
  }
}

TEST_CASE("nobody's solids sink into the floor or hold anything but finite numbers") {
  for (const Posture posture : postures) {
    for (int look = 0; look < 12; ++look) {
      for (const double phase : {0.0, 0.25, 0.6, 0.9}) {
        Pose pose = standing(1.7);
        pose.posture = posture;
        pose.look = look;
        pose.walking = phase > 0;
        pose.stride = phase;
        pose.seat = Metres{posture == Posture::sitting ? 0.45 : posture == Posture::perching ? 0.75 : 0.0};
        for (const Solid& solid : figure_of(pose).solids) {
          INFO("posture " << static_cast<int>(posture) << " look " << look << " part " << static_cast<int>(solid.part)
                          << " phase " << phase);
          CHECK(finite(solid.a));
          CHECK(finite(solid.b));
          CHECK(finite(solid.flat_axis));
          CHECK(solid.flat > 0);
          CHECK(solid.flat <= 1);
          if (solid.shape == Solid::Shape::ellipsoid) CHECK(solid.radii.x > 0);
          // Hair lain on gives way.
          const bool pressed = posture == Posture::lying && solid.part == Part::hair;
          if (solid.shape != Solid::Shape::frustum && !pressed) CHECK(lowest(solid) > -0.05);
        }
      }
    }
  }
}

TEST_CASE("looking at one's own eyes, and a hand at one's own shoulder, still give a figure") {
  Pose pose = standing(1.7);
  pose.looks_at = {0, 0, 1.591};
  pose.left_hand_at = skeleton_of(pose).arms[0].root;
  const PersonFigure figure = figure_of(pose);
  CHECK(finite(figure.eyes));
  CHECK(length(figure.face_direction) == Approx(1));
  for (const Solid& solid : figure.solids) CHECK(finite(solid.b));
}

TEST_CASE("a point drawn on the face lies on its surface, before the middle of the head") {
  const PersonFigure figure = figure_of(standing(1.7));
  for (const double across : {-0.02, 0.0, 0.02}) {
    const Vec3 point = on_face(figure, Metres{1.7}, Metres{across}, Metres{-0.02});
    CHECK(dot(point - figure.head_middle, figure.face_direction) > 0.05);
    CHECK(point.x == Approx(figure.head_middle.x + across).margin(1e-9));
  }
}
