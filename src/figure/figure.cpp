#include "figure/figure.h"

#include "figure/body_parts.h"
#include "figure/proportions.h"

namespace lensward {

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

  const double middle = 0.5 * (1 + chin_fraction);
  figure.head_middle = bones.head.origin;
  figure.eyes = bones.head.at(Vec3{0, 0.046, eye_fraction - middle} * h);
  figure.crown = bones.head.at(Vec3{0, -0.006, 1 - middle} * h);
  figure.chin = bones.head.at(Vec3{0, 0.0375, chin_fraction - middle} * h);
  figure.head_up = bones.head.up;
  figure.face_direction = bones.head.forward;
  figure.gaze_direction = bones.gaze;
  return figure;
}

}  // namespace lensward
