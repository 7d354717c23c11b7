#include <algorithm>

#include "figure/body_parts.h"

namespace lensward {
namespace {

// How much wider than the usual body, with `thick` for what a coat or a jumper adds.
double breadth_of(const Look& look, double thick) {
  return look.build * (look.cut == Cut::coat || look.cut == Cut::jumper ? thick : 1.0);
}

// The trunk is squashed tapering hulls that lie so deep in each other that their outline has no waist seam.
void add_trunk(SolidMaker& make, const Skeleton& bones, const Look& look) {
  const double h = make.stature;
  const auto torso = [&](double x, double y, double z) { return bones.torso.at(Vec3{x, y, z} * h); };
  const auto pelvis = [&](double x, double y, double z) { return bones.pelvis.at(Vec3{x, y, z} * h); };
  const double stout = breadth_of(look, 1.06);
  const Material lower = look.cut == Cut::coat ? Material::dress_upper : Material::dress_lower;
  const Vec3 ahead = bones.torso.forward;

  make.cone(torso(0, 0.000, 0.200), 0.089 * stout, torso(0, 0.004, 0.075), 0.076 * stout, 0.70, ahead, Part::chest,
            Material::dress_upper);
  for (const double side : {-1.0, 1.0}) {
    make.cone(torso(side * 0.020, -0.014, 0.297), 0.024, torso(side * 0.092, -0.006, 0.252), 0.042 * stout, 0.95, ahead,
              Part::chest, Material::dress_upper);
  }
  make.tube(torso(0, -0.012, 0.270), 0.046, torso(0, -0.017, 0.309), 0.0335, 1, {}, Part::chest,
            look.cut == Cut::coat ? Material::fabric : Material::dress_upper);
  make.cone(torso(0, 0.004, 0.095), 0.075, pelvis(0, -0.002, 0.012),
            0.088 * (look.cut == Cut::coat ? stout : look.build), 0.72, ahead, Part::waist, lower);
}

// A jumper ends in a straight hem over the hips.
void add_hem(SolidMaker& make, const Skeleton& bones) {
  const double h = make.stature;
  make.tube(bones.torso.at(Vec3{0, 0.002, 0.130} * h), 0.0880, bones.torso.at(Vec3{0, -0.001, 0.008} * h), 0.0970, 0.74,
            bones.torso.forward, Part::waist, Material::dress_upper);
}

void add_arms(SolidMaker& make, const Skeleton& bones, const Look& look) {
  const bool rolled = look.cut == Cut::shirt;
  const double stout = breadth_of(look, 1.14);
  for (const Limb& arm : bones.arms) {
    make.round_cone(arm.root, 0.0385 * stout, arm.bend, 0.0285 * stout, Part::arm, Material::dress_upper);
    const Vec3 cuff = mix(arm.bend, arm.end, rolled ? 0.30 : 0.95);
    make.tube(arm.bend, 0.0285 * stout, cuff, (rolled ? 0.0285 : 0.0235) * stout, 1, {}, Part::arm,
              Material::dress_upper);
    make.round_cone(mix(arm.bend, arm.end, rolled ? 0.1 : 0.7), rolled ? 0.0225 : 0.0165, arm.end, 0.0155, Part::arm,
                    Material::skin);
  }
}

void add_legs(SolidMaker& make, const Skeleton& bones, const Look& look) {
  // Under a coat the cloth is the outline: the thigh keeps inside it.
  const double thigh = look.cut == Cut::coat ? 0.041 : 0.054;
  for (const Limb& leg : bones.legs) {
    make.round_cone(leg.root, thigh, leg.bend, 0.038, Part::leg, Material::dress_lower);
    make.tube(leg.bend, 0.038, mix(leg.bend, leg.end, 1.02), 0.036, 1, {}, Part::leg, Material::dress_lower);
  }
}

// A coat from the hips over the thighs, as far out as clears both of them, across the body and fore and aft.
void add_coat_tails(SolidMaker& make, const Skeleton& bones) {
  constexpr double room = 0.060;
  const Limb& leg = bones.legs[0];
  const bool straight = dot(unit(leg.bend - leg.root), unit(leg.end - leg.bend)) > 0.8;
  const auto hem_over = [&](const Limb& one) { return mix(one.root, one.bend, straight ? 1.0 : 0.72); };
  const Vec3 left = hem_over(bones.legs[0]), right = hem_over(bones.legs[1]);
  const Vec3 apart = (right - left) * (0.5 / bones.stature), middle = mix(left, right, 0.5);
  const double aside = dot(apart, bones.pelvis.right), across = std::fabs(aside) + room;
  const double along = length(apart - bones.pelvis.right * aside) + 1.1 * room;
  const Vec3 waist = bones.pelvis.at(Vec3{0, -0.002, 0.014} * bones.stature);
  const Vec3 fore = cross(bones.pelvis.right, unit(middle - waist));
  make.tube(waist, 0.092, middle, std::max(across, along), std::min(across, along) / std::max(across, along),
            across >= along ? fore : bones.pelvis.right, Part::cloth, Material::dress_upper);
}

}  // namespace

void add_clothes(SolidMaker& make, const Skeleton& bones, const Look& look) {
  add_trunk(make, bones, look);
  add_arms(make, bones, look);
  add_legs(make, bones, look);
  if (look.cut == Cut::coat) add_coat_tails(make, bones);
  if (look.cut == Cut::jumper) add_hem(make, bones);
}

std::vector<std::vector<Vec3>> seams_of(const Skeleton& bones, const Look& look) {
  const double h = bones.stature, stout = breadth_of(look, 1.06);
  // A point on the front of the trunk; the chest's hull tapers from 0.089 at 0.2 to 0.076 at 0.075 above the hips.
  const auto on_chest = [&](double x, double z) {
    const double radius =
        stout * mix(0.088, 0.089, std::clamp((z - 0.012) / 0.19, 0.0, 1.0)) - 0.010 * (z < 0.14 ? 1 : 0);
    const double above = std::max(0.0, z - 0.200);
    const double rest = std::max(0.0, radius * radius - x * x - above * above);
    return bones.torso.at(Vec3{x, 0.003 + 0.71 * std::sqrt(rest), z} * h);
  };
  const auto along = [&](std::vector<Vec2> corners) {
    constexpr int parts = 5;
    std::vector<Vec3> line;
    for (std::size_t i = 1; i < corners.size(); ++i) {
      for (int part = i == 1 ? 0 : 1; part <= parts; ++part) {
        const Vec2 at = mix(corners[i - 1], corners[i], static_cast<double>(part) / parts);
        line.push_back(on_chest(at.x, at.y));
      }
    }
    return line;
  };
  switch (look.cut) {
    case Cut::shirt:
      return {along({{0.026, 0.274}, {0, 0.236}, {-0.026, 0.274}}), along({{0, 0.236}, {0, 0.06}})};
    case Cut::coat:
      return {along({{0.034, 0.280}, {0.052, 0.225}, {0.004, 0.125}}),
              along({{-0.034, 0.280}, {-0.052, 0.225}, {0.004, 0.125}}), along({{0.004, 0.125}, {0.004, 0.0}})};
    case Cut::jumper:
      break;
  }
  return {};
}

void add_hands(SolidMaker& make, const Skeleton& bones) {
  const double h = make.stature;
  for (std::size_t side = 0; side < 2; ++side) {
    const Vec3 wrist = bones.arms[side].end;
    const HandPose& hand = bones.hands[side];
    const Vec3 knuckles = wrist + hand.fingers * (0.046 * h);
    const Vec3 tips = knuckles + unit(hand.fingers + hand.palm * 0.35) * (0.042 * h);
    const Vec3 ball = wrist + hand.fingers * (0.018 * h) + hand.thumb * (0.012 * h);
    const Vec3 thumb_tip = ball + unit(hand.fingers * 0.8 + hand.thumb * 0.55 + hand.palm * 0.3) * (0.034 * h);
    make.cone(wrist, 0.0165, knuckles, 0.0230, 0.5, hand.palm, Part::hand, Material::skin);
    make.cone(knuckles, 0.0215, tips, 0.0120, 0.5, hand.palm, Part::hand, Material::skin);
    make.round_cone(ball, 0.0092, thumb_tip, 0.0064, Part::hand, Material::skin);
  }
}

void add_feet(SolidMaker& make, const Skeleton& bones) {
  const double h = make.stature;
  for (std::size_t side = 0; side < 2; ++side) {
    const Limb& leg = bones.legs[side];
    const Vec3 shin = unit(leg.end - leg.bend);
    const Vec3 toe = bones.toes[side];
    // The sole is a shoe's breadth under the ankle, whichever way the foot points.
    const Vec3 down = unit(shin - toe * dot(shin, toe));
    const Vec3 heel = leg.end + down * (0.014 * h) - toe * (0.022 * h);
    const Vec3 ball = leg.end + down * (0.021 * h) + toe * (0.088 * h);
    make.round_cone(heel, 0.0245, ball, 0.0185, Part::foot, Material::shoe);
  }
}

}  // namespace lensward
