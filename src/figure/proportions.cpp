#include "figure/proportions.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace lensward {
namespace {

// Seat to eyes, mean of men and women (ANSUR II: 0.4581 and 0.4591 of stature).
constexpr double sitting_eye = 0.4586;
constexpr double eye_to_crown = 1 - eye_fraction;
// Upright on the knees: the shank lies on the floor, the knee joint a hand's breadth above it.
constexpr double kneeling_loss = knee_fraction - 0.025;
// On the haunches, trunk bent forward: common practice, no source.
constexpr double crouching_eye = 0.56;
// Weight against something, feet put out: common practice, no source.
constexpr double leaning_loss = 0.03;
// Half sitting on an edge nobody gave a height for: a little under the crotch (ANSUR II: 0.481 of stature).
constexpr double perch_height = 0.44;
// Head length lying on the back, 195 mm of 1700 (ANSUR II); the crown lies half of it up.
constexpr double lying_eye = 0.1;
constexpr double lying_crown = 0.057;
// Half of the mean bideltoid breadth of men and women (ANSUR II: 0.291 and 0.277 of stature).
constexpr double half_bideltoid = 0.142;
constexpr double clothes_and_sway = 0.05;

double perching_eye(double stature, double seat) {
  const double perch = seat > 0 ? seat : perch_height * stature;
  return std::min(eye_fraction * stature, perch + sitting_eye * stature);
}

struct SizingRow {
  ShotSize size;
  double cuts, headroom;
};
constexpr std::array<SizingRow, 8> sizings{{
    {ShotSize::extreme_close_up, 0.89, 0.00},
    {ShotSize::close_up, 0.84, 0.07},
    {ShotSize::medium_close_up, 0.74, 0.10},
    {ShotSize::medium_shot, 0.56, 0.08},
    {ShotSize::knee_shot, 0.25, 0.08},
    {ShotSize::full_shot, 0.00, 0.08},
    {ShotSize::wide_shot, 0.00, 0.40},
    {ShotSize::extreme_wide_shot, 0.00, 0.75},
}};

}  // namespace

Metres eye_height(Metres stature, Posture posture, Metres seat) {
  const double tall = stature.value;
  switch (posture) {
    case Posture::standing:
      return Metres{eye_fraction * tall};
    case Posture::sitting:
      return Metres{seat.value + sitting_eye * tall};
    case Posture::leaning:
      return Metres{(eye_fraction - leaning_loss) * tall};
    case Posture::perching:
      return Metres{perching_eye(tall, seat.value)};
    case Posture::crouching:
      return Metres{crouching_eye * tall};
    case Posture::kneeling:
      return Metres{(eye_fraction - kneeling_loss) * tall};
    case Posture::lying:
      return Metres{seat.value + lying_eye * tall};
  }
  return Metres{eye_fraction * tall};
}

Metres crown_height(Metres stature, Posture posture, Metres seat) {
  if (posture == Posture::lying) return Metres{seat.value + lying_crown * stature.value};
  return eye_height(stature, posture, seat) + stature * eye_to_crown;
}

Metres body_radius(Metres stature) { return stature * half_bideltoid + Metres{clothes_and_sway}; }

Sizing sizing_of(ShotSize size) {
  for (const SizingRow& row : sizings) {
    if (row.size == size) return {Share{row.cuts}, Share{row.headroom}};
  }
  return {Share{0}, Share{0}};
}

Metres frame_height_for(ShotSize size, Metres stature) { return frame_height_for(sizing_of(size), stature); }

Metres frame_height_for(Sizing sizing, Metres stature) {
  return stature * ((1 - sizing.cuts.value) / (1 - sizing.headroom.value));
}

ShotSize size_of_cut(Share cut, Share headroom) {
  // A frame that reaches below the feet cuts nothing; three sizes cut nothing and differ in headroom alone.
  const double share = std::isfinite(cut.value) ? std::clamp(cut.value, 0.0, 1.0) : 0.0;
  ShotSize nearest = ShotSize::extreme_wide_shot;
  double least = std::numeric_limits<double>::infinity();
  double least_headroom = least;
  for (const SizingRow& row : sizings) {
    const double miss = std::fabs(row.cuts - share);
    const double headroom_miss = std::fabs(row.headroom - headroom.value);
    if (miss < least || (miss == least && headroom_miss < least_headroom)) {
      nearest = row.size;
      least = miss;
      least_headroom = headroom_miss;
    }
  }
  return nearest;
}

}  // namespace lensward
