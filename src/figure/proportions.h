// Where a person's landmarks are, from stature (Drillis–Contini fractions; ANSUR II for seated heights).
#pragma once

#include "base/units.h"
#include "base/vec.h"
#include "base/words.h"

namespace lensward {

// Fractions of stature, of the standing figure, from the floor.
inline constexpr double eye_fraction = 0.936;
inline constexpr double chin_fraction = 0.870;
inline constexpr double shoulder_fraction = 0.818;
inline constexpr double chest_fraction = 0.720;
inline constexpr double elbow_fraction = 0.630;
inline constexpr double hip_fraction = 0.530;
inline constexpr double knee_fraction = 0.285;
inline constexpr double ankle_fraction = 0.039;

// Height of the eyes above the floor in a posture. `seat` is the height sat, leaned or lain on, 0 for the floor.
Metres eye_height(Metres stature, Posture posture, Metres seat);
// Height of the crown.
Metres crown_height(Metres stature, Posture posture, Metres seat);

// Half the breadth over the shoulders with clothes and sway: the room a body needs from its middle.
Metres body_radius(Metres stature);

// Where a shot size cuts the standing figure and the headroom it leaves (docs/language.md, "Sizes"): `cuts` is the
// share of stature below the frame's lower edge, `headroom` the share of the frame's height above the crown.
struct Sizing {
  Share cuts, headroom;

  bool operator==(const Sizing&) const = default;
};
Sizing sizing_of(ShotSize size);
// Height of the picture at the person: stature·(1 − cuts)/(1 − headroom).
Metres frame_height_for(ShotSize size, Metres stature);
Metres frame_height_for(Sizing sizing, Metres stature);
// The size whose cut is nearest to this one.
ShotSize size_of_cut(Share cut, Share headroom);

}  // namespace lensward
