#include "optics/light.h"

#include <algorithm>

#include "base/angle.h"

namespace lensward {

namespace {

// ISO 2720:1974, the value in use for a flat receptor, lux seconds.
constexpr double flat_receptor = 250;
constexpr double nearest_lamp = 0.05;
constexpr double most_stops = 20;

}  // namespace

Lux illuminance(Candela intensity, Vec3 lamp, Vec3 point, Vec3 normal) {
  const Vec3 toward = lamp - point;
  const double distance = length(toward);
  const double cosine_of_fall = dot(unit(toward), normal);
  if (!(cosine_of_fall > 0)) return Lux{0};
  const double counted = std::max(distance, nearest_lamp);
  return Lux{intensity.value * cosine_of_fall / (counted * counted)};
}

Nits reflected(Share reflectance, Lux light) { return Nits{reflectance.value * light.value / pi}; }

Seconds exposure_time(Degrees shutter, double frame_rate) {
  return Seconds{std::clamp(shutter.value, 1.0, 360.0) / (360 * std::max(frame_rate, 1.0))};
}

Lux asked_for(FNumber stop, double sensitivity, Seconds exposure_time) {
  return Lux{stop.value * stop.value * flat_receptor / (exposure_time.value * sensitivity)};
}

Stops stops_between(double a, double b) {
  if (a == b) return Stops{0};
  if (a <= 0) return Stops{-most_stops};
  if (b <= 0) return Stops{most_stops};
  return Stops{std::clamp(natural_log(a / b) / natural_log(2), -most_stops, most_stops)};
}

double srgb_encoded(double linear) {
  const double x = std::clamp(linear, 0.0, 1.0);
  return x <= 0.0031308 ? 12.92 * x : 1.055 * power(x, 1 / 2.4) - 0.055;
}

}  // namespace lensward
