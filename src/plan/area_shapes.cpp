#include <algorithm>

#include "base/angle.h"
#include "plan/areas.h"

namespace lensward {
namespace {

constexpr double exact_slack = 0.01;

}  // namespace

double reach_of(const Placing& placing, Vec2 direction) {
  return placing.furniture ? reach_of(*placing.furniture, direction) : 0;
}

Area strip_beside(const FloorBox& box, Vec2 outward, Band band, double run_on, double own) {
  const Vec2 along = left_of(outward) * -1;
  const double half = reach_of(box, along);
  const double edge = reach_of(box, outward) + own;
  const double slack = band.exact ? exact_slack : 0;
  const auto point = [&](double a, double out) { return box.at + along * a + outward * (edge + out); };
  const double run = half + run_on;
  Area area;
  area.shape = {point(-run, band.least - slack), point(run, band.least - slack), point(run, band.greatest + slack),
                point(-run, band.greatest + slack)};
  if (area_of(area.shape) < 0) std::reverse(area.shape.begin(), area.shape.end());
  const double kept = band.exact ? run : half;
  area.middle = {point(-kept, band.middle), point(kept, band.middle)};
  area.exact = band.exact;
  area.longer = along;
  return area;
}

Area sector_round(Vec2 apex, Vec2 direction, Degrees half_angle, Band band, double own) {
  const double slack = band.exact ? exact_slack : 0;
  const double least = std::max(0.01, band.least + own - slack);
  const double greatest = std::max(least + 0.01, band.greatest + own + slack);
  Area area;
  constexpr int steps = 6;
  for (int i = 0; i <= steps; ++i) {
    const Degrees off = half_angle * (1 - 2.0 * i / steps);
    area.shape.push_back(apex + direction_of(bearing_of(direction) + off) * greatest);
  }
  const double near = least / cosine(half_angle);
  if (near < greatest) {
    area.shape.push_back(apex + direction_of(bearing_of(direction) - half_angle) * near);
    area.shape.push_back(apex + direction_of(bearing_of(direction) + half_angle) * near);
  } else {
    area.shape = clipped(area.shape, {direction * -1, -(dot(direction, apex) + least)});
  }
  area.middle = {apex + direction * (band.middle + own)};
  area.exact = band.exact;
  return area;
}

Area area_at(Vec2 point, double within) {
  Area area;
  area.shape = {point + Vec2{-within, -within}, point + Vec2{within, -within}, point + Vec2{within, within},
                point + Vec2{-within, within}};
  area.middle = {point};
  area.exact = true;
  area.point = true;
  return area;
}

}  // namespace lensward
