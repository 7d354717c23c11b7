#include "figure/figure.h"

#include "figure/body_parts.h"
#include "figure/proportions.h"

namespace lensward {
namespace {

constexpr double middle_of_head = 0.5 * (1 + chin_fraction);

Vec3 eyes_of(const Skeleton& bones) {
  return bones.head.at(Vec3{0, 0.046, eye_fraction - middle_of_head} * bones.stature);
}

}  // namespace

PersonFigure figure_of(const Pose& pose) {
  const Skeleton bones = skeleton_of(pose);
  const double h = bones.stature;
  PersonFigure figure;
  figure.solids.reserve(40);
  SolidMaker make{figure.solids, h};
  const Look look = look_of(pose.look);
  add_head(make, bones, look);
  add_clothes(make, bones, look);
  figure.seams = seams_of(bones, look);
  add_hands(make, bones);
  add_feet(make, bones);

  figure.head_middle = bones.head.origin;
  figure.eyes = eyes_of(bones);
  figure.crown = bones.head.at(Vec3{0, -0.006, 1 - middle_of_head} * h);
  figure.chin = bones.head.at(Vec3{0, 0.0375, chin_fraction - middle_of_head} * h);
  figure.head_up = bones.head.up;
  figure.face_direction = bones.head.forward;
  figure.gaze_direction = bones.gaze;
  return figure;
}

Vec3 eyes_of(const Pose& pose) { return eyes_of(skeleton_of(pose)); }

}  // namespace lensward
