// Light on surfaces and what a stop asks for (docs/model.md, "light").
#pragma once

#include "base/units.h"
#include "base/vec.h"

namespace lensward {

// I·cosθ/r²; 0 when the light comes from behind the surface. `normal` is a unit vector. A distance under 5 cm counts as
// 5 cm.
Lux illuminance(Candela intensity, Vec3 lamp, Vec3 point, Vec3 normal);

// ρE/π of a matte surface.
Nits reflected(Share reflectance, Lux light);

// How long the shutter is open for one frame: shutter/360/rate. A shutter outside 1 to 360 degrees and a rate under 1 a
// second count as those.
Seconds exposure_time(Degrees shutter, double frame_rate);

// Incident light a stop asks for, N²·C/(t·S), with C = 250 lx·s (flat receptor, ISO 2720).
Lux asked_for(FNumber stop, double sensitivity, Seconds exposure_time);

// What an upright surface in the open gets from all over, whichever way it faces, as a share of the light on level
// ground: the sky's part and half of what ground of reflectance 0.2 gives back. Overcast: 0.396 from the sky (CIE
// standard overcast sky, ISO 15469:2004 type 1). Sun: half of a blue sky that gives a fifth of it all (from memory).
inline constexpr Share from_all_over_overcast{0.396 + 0.5 * 0.2};
inline constexpr Share from_all_over_in_sun{0.5 * 0.2 + 0.5 * 0.2};

// log2(a / b), clamped to ±20; equal zeros are 0.
Stops stops_between(double a, double b);

// sRGB encoding of a linear value 0..1 (IEC 61966-2-1).
double srgb_encoded(double linear);

}  // namespace lensward
