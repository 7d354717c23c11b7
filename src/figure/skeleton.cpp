#include "figure/skeleton.h"

#include <algorithm>

#include "base/angle.h"
#include "figure/proportions.h"

namespace lensward {
namespace {

// Lengths as fractions of stature (Drillis–Contini, in Winter, fig. 4.1).
constexpr double upper_arm = 0.186, forearm = 0.146, hand = 0.108, thigh = 0.245, shank = 0.246;
constexpr double hips_to_eyes = eye_fraction - hip_fraction;

// The clothed shoulder rounds off below the acromion, so the joint sits a little under it.
constexpr double shoulder_out = 0.100, shoulder_above_hips = 0.780 - hip_fraction;
constexpr double hip_out = 0.047;
constexpr double neck_pivot_above_hips = 0.895 - hip_fraction, neck_pivot_to_head = 0.040;

// Necks turn 77.5 to 81 degrees a side and bend 65 up and down (Ferrario 2002); eyes turn 35 and 20 to 25 at ease
// (LaValle, Virtual Reality, fig. 5.21).
constexpr Degrees neck_turn{80}, neck_bend{55}, eyes_turn{35}, eyes_bend{22};

Degrees clamped(Degrees angle, Degrees limit) { return std::clamp(angle, -limit, limit); }

Vec3 any_perpendicular(Vec3 unit_vector) {
  const Vec3 other = std::fabs(unit_vector.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
  return unit(cross(unit_vector, other));
}

// The part of `direction` at right angles to a unit vector, as a unit vector.
Vec3 perpendicular_part(Vec3 direction, Vec3 to) {
  const Vec3 rest = direction - to * dot(direction, to);
  return length(rest) > 1e-6 ? unit(rest) : any_perpendicular(to);
}

BodyFrame upright(Vec3 origin, Degrees facing) {
  const Vec2 forward = direction_of(facing);
  return {origin, {forward.y, -forward.x, 0}, raised(forward, 0), {0, 0, 1}};
}

// Tilts a frame forward about its own right axis.
BodyFrame leaned(const BodyFrame& frame, Degrees forward) {
  const double c = cosine(forward), s = sine(forward);
  return {frame.origin, frame.right, frame.forward * c - frame.up * s, frame.up * c + frame.forward * s};
}

// How a posture holds the trunk: hip height, hips behind the point stood on, lean of the trunk.
struct Trunk {
  double hip_height = 0, hip_back = 0;
  Degrees lean;
};

Trunk trunk_of(const Pose& pose) {
  const double h = pose.stature.value;
  const auto with_lean = [&](Degrees lean, double hip_back) {
    const double eyes = eye_height(pose.stature, pose.posture, pose.seat).value;
    return Trunk{std::max(0.05 * h, eyes - hips_to_eyes * h * cosine(lean)), hip_back * h, lean};
  };
  switch (pose.posture) {
    case Posture::standing:
      return with_lean(pose.walking ? 3_deg : 0_deg, 0.012);
    case Posture::leaning:
      return with_lean(-5_deg, 0.02);
    case Posture::crouching:
      return with_lean(26_deg, 0.07);
    case Posture::sitting:
      return with_lean(2_deg, 0.02);
    case Posture::perching:
      return with_lean(4_deg, 0.01);
    case Posture::kneeling:
      return with_lean(0_deg, 0.01);
    case Posture::lying:
      break;
  }
  return {pose.seat.value + 0.075 * h, 0, 0_deg};
}

BodyFrame pelvis_of(const Pose& pose, const Trunk& trunk) {
  BodyFrame frame = upright(raised(pose.at, trunk.hip_height), pose.facing);
  if (pose.posture == Posture::lying) {
    // On the back, feet toward the bearing faced, the middle of the body over the point.
    const Vec3 to_feet = frame.forward;
    frame.forward = {0, 0, 1};
    frame.up = to_feet * -1;
    frame.right = cross(frame.forward, frame.up);
    return frame;
  }
  frame.origin = frame.origin - frame.forward * trunk.hip_back;
  return frame;
}

// Turns the head toward a point as far as the neck goes, and the eyes the rest.
void turn_head(Skeleton& bones, Vec3 looks_at) {
  const double h = bones.stature;
  const BodyFrame& torso = bones.torso;
  const Vec3 pivot = torso.at({0, -0.004 * h, neck_pivot_above_hips * h});
  const Vec3 eyes = pivot + torso.turned({0, 0, 0.041 * h});
  const Vec3 wanted = unit(looks_at - eyes);
  const bool aimed = length(looks_at - eyes) > 1e-6;
  const double ahead = aimed ? dot(wanted, torso.forward) : 1;
  const Degrees yaw = aimed ? arc_tangent(dot(wanted, torso.right), ahead) : 0_deg;
  const Degrees pitch = aimed ? arc_sine(dot(wanted, torso.up)) : 0_deg;

  const auto direction = [&](Degrees turn, Degrees bend) {
    return torso.turned({sine(turn) * cosine(bend), cosine(turn) * cosine(bend), sine(bend)});
  };
  // A head takes most of a look down and leaves a little to the eyes.
  const Degrees head_yaw = clamped(yaw, neck_turn);
  const Degrees head_pitch = clamped(pitch * 0.75, neck_bend);
  BodyFrame head;
  head.forward = direction(head_yaw, head_pitch);
  head.right = torso.right * cosine(head_yaw) - torso.forward * sine(head_yaw);
  head.up = cross(head.right, head.forward);
  head.origin = pivot + head.up * (neck_pivot_to_head * h) + head.forward * (0.008 * h);
  bones.head = head;
  bones.gaze =
      direction(head_yaw + clamped(yaw - head_yaw, eyes_turn), head_pitch + clamped(pitch - head_pitch, eyes_bend));
}

// ---- Legs ----------------------------------------------------------------------------------------------------------

struct Footing {
  Vec3 ankle;  // in the pelvis frame, but z above the floor
  Vec3 knee_toward;
};

// One foot of a walk: it goes back on the floor for six tenths of the stride and swings forward through the air.
Footing walking_foot(double phase, double side, double h) {
  const double share = phase - std::floor(phase);
  constexpr double on_floor = 0.6;
  constexpr double reach_fore = 0.19, reach_aft = -0.21;
  const double swing = (share - on_floor) / (1 - on_floor);
  const double along =
      share < on_floor ? mix(reach_fore, reach_aft, share / on_floor) : mix(reach_aft, reach_fore, swing);
  const double lift =
      share < on_floor ? std::max(0.0, -along - 0.1) * 0.35 : 0.07 * sine(Degrees{180 * swing}) + 0.03 * (1 - swing);
  return {{side * 0.035 * h, along * h, (ankle_fraction + lift) * h}, {side * 0.05, 1, 0}};
}

Footing footing_of(const Pose& pose, const Trunk& trunk, std::size_t side) {
  const double h = pose.stature.value, s = side_sign(side);
  // One foot ahead of the other, which one by the person, so that two people never stand like a pair.
  const double ahead = (static_cast<std::size_t>(pose.look) % 2 == side) ? 0.028 : -0.012;
  switch (pose.posture) {
    case Posture::standing:
      if (pose.walking) return walking_foot(pose.stride + (side == 0 ? 0 : 0.5), s, h);
      return {{s * 0.047 * h, ahead * h, ankle_fraction * h}, {s * 0.2, 1, 0}};
    case Posture::leaning:
      return {{s * 0.05 * h, (0.15 + ahead) * h, ankle_fraction * h}, {s * 0.2, 1, 0}};
    case Posture::perching:
      return {{s * 0.06 * h, (0.24 + ahead) * h, ankle_fraction * h}, {s * 0.2, 1, 0.3}};
    case Posture::sitting: {
      const bool on_floor = trunk.hip_height < 0.16 * h;
      if (on_floor) return {{s * 0.07 * h, 0.44 * h, ankle_fraction * h}, {s * 0.3, 0, 1}};
      const double hanging = std::max(ankle_fraction, trunk.hip_height / h - shank - 0.02);
      return {{s * 0.055 * h, (0.225 + ahead) * h, hanging * h}, {s * 0.12, 0.6, 1}};
    }
    case Posture::kneeling:
      return {{s * 0.05 * h, -0.22 * h, 0.045 * h}, {s * 0.1, 1, -0.4}};
    case Posture::crouching:
      return {{s * 0.06 * h, (0.10 + 2 * ahead) * h, ankle_fraction * h}, {s * 0.35, 1, 1}};
    case Posture::lying:
      break;
  }
  return {{s * 0.055 * h, 0, trunk.hip_height}, {s * 0.1, 1, 0}};
}

void place_legs(Skeleton& bones, const Pose& pose, const Trunk& trunk) {
  const double h = bones.stature;
  const BodyFrame& pelvis = bones.pelvis;
  for (std::size_t side = 0; side < 2; ++side) {
    const Vec3 hip = pelvis.at({side_sign(side) * hip_out * h, 0, 0});
    const Footing footing = footing_of(pose, trunk, side);
    const bool lying = pose.posture == Posture::lying;
    const Vec3 ankle =
        lying ? pelvis.at({footing.ankle.x, -0.02 * h, -0.485 * h})
              : pelvis.at({footing.ankle.x, footing.ankle.y + trunk.hip_back, footing.ankle.z - trunk.hip_height});
    bones.legs[side] = reach(hip, ankle, Metres{thigh * h}, Metres{shank * h}, pelvis.turned(footing.knee_toward));
    const Vec3 outward = pelvis.right * (side_sign(side) * 0.22);
    bones.toes[side] = unit(pelvis.forward + outward);
    if (pose.posture == Posture::kneeling) bones.toes[side] = unit(pelvis.forward * -1 + pelvis.up * -0.3);
    if (pose.walking) {
      const Limb& leg = bones.legs[side];
      const Vec3 shin = unit(leg.end - leg.bend);
      bones.toes[side] = unit(perpendicular_part(pelvis.forward, shin) + pelvis.forward);
    }
  }
}

// ---- Arms ----------------------------------------------------------------------------------------------------------

// Where the wrist rests when the hand has nothing to do, in world coordinates.
Vec3 resting_wrist(const Skeleton& bones, const Pose& pose, std::size_t side) {
  const double h = bones.stature, s = side_sign(side);
  const Vec3 shoulder = bones.arms[side].root;
  const Limb& leg = bones.legs[side];
  switch (pose.posture) {
    case Posture::sitting:
      return mix(leg.root, leg.bend, 0.60) + bones.pelvis.turned({-s * 0.012 * h, 0, 0.058 * h});
    case Posture::kneeling:
      return mix(leg.root, leg.bend, 0.20) + bones.pelvis.turned({s * 0.010 * h, 0.062 * h, 0});
    case Posture::crouching:
      return mix(leg.root, leg.bend, 0.92) + bones.pelvis.turned({-s * 0.01 * h, -0.01 * h, 0.042 * h});
    case Posture::perching:
    case Posture::leaning:
      return shoulder + bones.torso.turned({s * 0.05 * h, -0.03 * h, -0.318 * h});
    case Posture::lying:
      return shoulder + bones.torso.turned({s * 0.06 * h, -0.01 * h, -0.315 * h});
    case Posture::standing:
      break;
  }
  const double swing = pose.walking ? 0.11 * cosine(Degrees{360 * (pose.stride + (side == 0 ? 0.5 : 0.0))}) : 0.0;
  const double drop = pose.walking ? 0.312 : 0.322;
  return shoulder + bones.pelvis.turned({s * 0.028 * h, (0.020 + swing) * h, -drop * h});
}

bool hangs(const Pose& pose) { return pose.posture == Posture::standing || pose.posture == Posture::leaning; }

void hold_hand(Skeleton& bones, const Pose& pose, std::size_t side, bool reaching) {
  const double s = side_sign(side);
  const Limb& arm = bones.arms[side];
  const Vec3 along = unit(arm.end - arm.bend);
  HandPose& pose_of_hand = bones.hands[side];
  if (reaching) {
    // A hand laid on something flattens: its fingers come half way to level.
    pose_of_hand.fingers = unit({along.x, along.y, along.z * 0.4});
    pose_of_hand.palm = perpendicular_part({0, 0, -1}, pose_of_hand.fingers);
  } else if (hangs(pose)) {
    pose_of_hand.fingers = unit(along + bones.pelvis.forward * 0.12);
    pose_of_hand.palm = perpendicular_part(bones.pelvis.right * -s - bones.pelvis.forward * 0.25, pose_of_hand.fingers);
  } else {
    pose_of_hand.fingers = unit(along * 0.6 + bones.pelvis.forward * 0.5 - bones.pelvis.right * (s * 0.35));
    pose_of_hand.palm = perpendicular_part(bones.pelvis.up * -1, pose_of_hand.fingers);
  }
  pose_of_hand.thumb = cross(pose_of_hand.palm, pose_of_hand.fingers) * -s;
}

void place_arms(Skeleton& bones, const Pose& pose) {
  const double h = bones.stature;
  for (std::size_t side = 0; side < 2; ++side) {
    const double s = side_sign(side);
    const Vec3 shoulder = bones.torso.at({s * shoulder_out * h, -0.006 * h, shoulder_above_hips * h});
    bones.arms[side].root = shoulder;
    const std::optional<Vec3>& target = side == 0 ? pose.left_hand_at : pose.right_hand_at;
    const Vec3 pole = bones.torso.turned({s * (target ? 0.45 : 0.25), -0.8, target ? -0.75 : -0.4});
    Vec3 wrist = target ? *target : resting_wrist(bones, pose, side);
    const auto stretch = [&] {
      bones.arms[side] = reach(shoulder, wrist, Metres{upper_arm * h}, Metres{forearm * h}, pole);
      hold_hand(bones, pose, side, target.has_value());
    };
    stretch();
    // The middle of the palm goes to the point, so the wrist stops short of it: by how much shows once the arm is bent.
    for (int round = 0; target && round < 2; ++round) {
      wrist = *target - bones.hands[side].fingers * (0.5 * hand * h) - bones.hands[side].palm * (0.012 * h);
      stretch();
    }
  }
}

}  // namespace

Limb reach(Vec3 root, Vec3 target, Metres upper, Metres lower, Vec3 pole) {
  const double a = upper.value, b = lower.value;
  const Vec3 way = target - root;
  const Vec3 toward = length(way) > 1e-9 ? unit(way) : unit(pole);
  const double distance = std::clamp(length(way), std::fabs(a - b) + 1e-4 * a, 0.9997 * (a + b));
  const double along = (a * a - b * b + distance * distance) / (2 * distance);
  const double out = std::sqrt(std::max(0.0, a * a - along * along));
  return {root, root + toward * along + perpendicular_part(pole, toward) * out, root + toward * distance};
}

Skeleton skeleton_of(const Pose& pose) {
  Skeleton bones;
  bones.stature = pose.stature.value;
  const Trunk trunk = trunk_of(pose);
  bones.pelvis = pelvis_of(pose, trunk);
  bones.torso = leaned(bones.pelvis, trunk.lean);
  turn_head(bones, pose.looks_at);
  place_legs(bones, pose, trunk);
  place_arms(bones, pose);
  return bones;
}

}  // namespace lensward
