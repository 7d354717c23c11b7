#include "figure/body_parts.h"

namespace lensward {
namespace {

// The trunk is three squashed tapering hulls that lie so deep in each other that their outline has no waist seam.
void add_trunk(SolidMaker& make, const Skeleton& bones, const Look& look) {
  const double h = make.stature;
  const auto torso = [&](double x, double y, double z) { return bones.torso.at(Vec3{x, y, z} * h); };
  const auto pelvis = [&](double x, double y, double z) { return bones.pelvis.at(Vec3{x, y, z} * h); };
  const bool bulky = look.cut == Cut::coat || look.cut == Cut::jumper;
  const double stout = bulky ? 1.07 : 1.0;
  const bool one_piece = look.cut == Cut::coat || look.cut == Cut::dress;
  const Material lower = one_piece ? Material::dress_upper : Material::dress_lower;
  const Vec3 ahead = bones.torso.forward;

  make.cone(torso(0, 0.002, 0.205), 0.090 * stout, torso(0, 0.004, 0.075), 0.078 * stout, 0.70, ahead, Part::chest,
            Material::dress_upper);
  for (const double side : {-1.0, 1.0}) {
    make.cone(torso(side * 0.022, -0.012, 0.285), 0.030, torso(side * 0.100, -0.006, 0.258), 0.043 * stout, 0.92, ahead,
              Part::chest, Material::dress_upper);
  }
  make.cone(torso(0, 0.004, 0.095), 0.080 * stout, pelvis(0, -0.002, 0.012), 0.089 * stout, 0.72, ahead, Part::waist,
            bulky ? Material::dress_upper : lower);
  if (look.cut == Cut::coat) {
    make.ellipsoid(bones.torso, {0, 0.050, 0.247}, {0.024, 0.020, 0.046}, Part::chest, Material::fabric);
  }
}

void add_arms(SolidMaker& make, const Skeleton& bones, const Look& look) {
  const bool rolled = look.cut == Cut::shirt || look.cut == Cut::apron;
  const double stout = look.cut == Cut::coat || look.cut == Cut::jumper ? 1.12 : 1.0;
  for (const Limb& arm : bones.arms) {
    make.round_cone(arm.root, 0.0385 * stout, arm.bend, 0.030 * stout, Part::arm, Material::dress_upper);
    if (rolled) {
      const Vec3 cuff = mix(arm.bend, arm.end, 0.22);
      make.round_cone(arm.bend, 0.030, cuff, 0.0295, Part::arm, Material::dress_upper);
      make.round_cone(arm.bend, 0.026, arm.end, 0.0165, Part::arm, Material::skin);
    } else {
      make.round_cone(arm.bend, 0.030 * stout, mix(arm.bend, arm.end, 0.93), 0.023 * stout, Part::arm,
                      Material::dress_upper);
    }
  }
}

void add_legs(SolidMaker& make, const Skeleton& bones, const Look& look) {
  const bool bare = look.cut == Cut::skirt || look.cut == Cut::dress;
  for (const Limb& leg : bones.legs) {
    const Vec3 hem = mix(leg.bend, leg.end, 0.95);
    make.round_cone(leg.root, 0.054, leg.bend, bare ? 0.034 : 0.040, Part::leg, Material::dress_lower);
    make.round_cone(leg.bend, bare ? 0.032 : 0.040, hem, bare ? 0.021 : 0.033, Part::leg,
                    bare ? Material::skin : Material::dress_lower);
  }
}

// What hangs from the hips: over the thighs to the knees, and from the knees down as far as the hem, so that it bends
// where the body sits.
void add_hanging_cloth(SolidMaker& make, const Skeleton& bones, const Look& look) {
  const double h = make.stature;
  const auto& [left, right] = bones.legs;
  const bool coat = look.cut == Cut::coat;
  const Material material = look.cut == Cut::skirt ? Material::dress_lower : Material::dress_upper;
  const Vec3 hips = bones.pelvis.at(Vec3{0, 0, 0.03} * h);
  const Vec3 knees = mix(left.bend, right.bend, 0.5);
  const Vec3 feet = mix(left.end, right.end, 0.5);
  const double spread = 0.5 * length(left.bend - right.bend) / h;
  const Vec3 over_thighs = cross(bones.pelvis.right, unit(knees - hips));
  const Vec3 over_shins = cross(bones.pelvis.right, unit(feet - knees));
  const Vec3 hem = coat ? mix(knees, feet, 0.10) : mix(knees, feet, 0.52);
  const double at_knees = spread + (coat ? 0.056 : 0.052);
  make.cone(hips, coat ? 0.094 : 0.086, knees, at_knees, 0.72, over_thighs, Part::cloth, material);
  if (!coat) make.cone(knees, at_knees, hem, at_knees + 0.010, 0.72, over_shins, Part::cloth, material);
}

void add_apron(SolidMaker& make, const Skeleton& bones) {
  const double h = make.stature;
  const auto& [left, right] = bones.legs;
  const Vec3 knees = mix(left.bend, right.bend, 0.5);
  const Vec3 ahead = bones.torso.forward;
  const Vec3 waist = bones.pelvis.at(Vec3{0, 0.030, 0.075} * h);
  const Vec3 over_thighs = cross(bones.pelvis.right, unit(knees - waist));
  make.cone(bones.torso.at(Vec3{0, 0.046, 0.215} * h), 0.046, bones.torso.at(Vec3{0, 0.036, 0.09} * h), 0.060, 0.48,
            ahead, Part::cloth, Material::fabric);
  make.cone(waist, 0.070, knees + over_thighs * (-0.012 * h), 0.078, 0.62, over_thighs, Part::cloth, Material::fabric);
}

}  // namespace

void add_clothes(SolidMaker& make, const Skeleton& bones, const Look& look) {
  add_trunk(make, bones, look);
  add_arms(make, bones, look);
  add_legs(make, bones, look);
  const bool hanging = look.cut == Cut::skirt || look.cut == Cut::dress || look.cut == Cut::coat;
  if (hanging) add_hanging_cloth(make, bones, look);
  if (look.cut == Cut::apron) add_apron(make, bones);
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
    make.cone(wrist, 0.0175, knuckles, 0.0240, 0.5, hand.palm, Part::hand, Material::skin);
    make.cone(knuckles, 0.0225, tips, 0.0130, 0.5, hand.palm, Part::hand, Material::skin);
    make.round_cone(ball, 0.0095, thumb_tip, 0.0065, Part::hand, Material::skin);
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
