// The only trigonometry in the program. The C library's results differ in the last bit from one system to the next;
// these do not, so that the same text gives the same bytes everywhere (style test: no std::sin and the like elsewhere).
#pragma once

#include "base/units.h"
#include "base/vec.h"

namespace lensward {

inline constexpr double pi = 3.14159265358979323846;

// Absolute error below 1e-14 for angles within ±1e6 degrees. NaN and infinity give NaN.
double sine(Degrees angle);
double cosine(Degrees angle);
double tangent(Degrees angle);

// -180 < result <= 180. (0, 0) gives 0.
Degrees arc_tangent(double y, double x);
// Arguments outside -1..1 are clamped, since rounding may carry a cosine a bit past one.
Degrees arc_cosine(double cosine);
Degrees arc_sine(double sine);

// Relative error below 1e-14. natural_log and log2 of a value <= 0 give minus infinity.
double exponential(double x);
double natural_log(double x);
double log2(double x);
double power(double base, double exponent);

// Bearings are compass bearings: 0 is plan north (+y), 90 is plan east (+x), growing clockwise seen from above.
Degrees bearing_of(Vec2 direction);
Vec2 direction_of(Degrees bearing);
// The same angle in -180 < result <= 180.
Degrees wrapped(Degrees angle);
// The same angle in 0 <= result < 360.
Degrees as_bearing(Degrees angle);

}  // namespace lensward
