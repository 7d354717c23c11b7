// Joints of a posed body, before it is clothed.
#pragma once

#include <array>

#include "figure/figure.h"

namespace lensward {

// A right-handed frame of reference: x to the body's own right, y forward, z up along it. Unit axes.
struct BodyFrame {
  Vec3 origin;
  Vec3 right{1, 0, 0}, forward{0, 1, 0}, up{0, 0, 1};

  Vec3 turned(Vec3 local) const { return right * local.x + forward * local.y + up * local.z; }
  Vec3 at(Vec3 local) const { return origin + turned(local); }
};

// Shoulder, elbow, wrist; or hip, knee, ankle.
struct Limb {
  Vec3 root, bend, end;
};

struct HandPose {
  Vec3 fingers;  // unit, from wrist to fingertips
  Vec3 palm;     // unit, out of the palm
  Vec3 thumb;    // unit, to the thumb's side
};

// Index 0 is the left side, 1 the right.
struct Skeleton {
  double stature = 1.7;
  BodyFrame pelvis, torso;  // origin midway between the hips; the torso leans from the pelvis
  BodyFrame head;           // origin midway between crown and chin
  Vec3 gaze{0, 1, 0};
  std::array<Limb, 2> arms, legs;
  std::array<HandPose, 2> hands;
  std::array<Vec3, 2> toes;  // unit, from heel to toe
};

// -1 for the left side, +1 for the right: the sign of x in a body frame.
constexpr double side_sign(std::size_t side) { return side == 0 ? -1.0 : 1.0; }

// Two bones of the lengths given, from `root` toward `target` as far as they reach, the joint bent toward `pole`.
Limb reach(Vec3 root, Vec3 target, Metres upper, Metres lower, Vec3 pole);

Skeleton skeleton_of(const Pose& pose);

}  // namespace lensward
