#include "optics/focus.h"

#include <algorithm>

namespace lensward {

Metres hyperfocal(Millimetres focal, FNumber stop, Millimetres circle) {
  const double f = focal.value;
  return to_metres(Millimetres{f * f / (stop.value * circle.value)});
}

SharpRange sharp_range(Millimetres focal, FNumber stop, Millimetres circle, Metres focus) {
  const double f = focal.value;
  const double s = to_millimetres(focus).value;
  const double spread = stop.value * circle.value * (s - f);
  SharpRange range;
  range.near = to_metres(Millimetres{s * f * f / (f * f + spread)});
  // At the hyperfocal distance the far limit is already infinite: S - f = H makes the denominator zero.
  if (f * f > spread) range.far = to_metres(Millimetres{s * f * f / (f * f - spread)});
  return range;
}

Millimetres blur_disc(Millimetres focal, FNumber stop, Metres focus, Metres distance) {
  const double f = focal.value;
  const double s = std::max(to_millimetres(focus).value, 1.1 * f);
  const double x = std::max(to_millimetres(distance).value, 10.0);
  return Millimetres{f * f / stop.value * std::fabs(x - s) / (x * (s - f))};
}

Metres split_focus(Metres a, Metres b) { return Metres{2 * a.value * b.value / (a.value + b.value)}; }

}  // namespace lensward
