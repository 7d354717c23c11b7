#include "export/hatch.h"

#include <algorithm>
#include <cmath>

#include "base/angle.h"

namespace lensward {

Bounds bounds_of(const std::vector<PathStep>& steps) {
  Bounds bounds;
  bool first = true;
  const auto take = [&](Vec2 point) {
    if (first) bounds = {point, point};
    first = false;
    bounds.low = {std::min(bounds.low.x, point.x), std::min(bounds.low.y, point.y)};
    bounds.high = {std::max(bounds.high.x, point.x), std::max(bounds.high.y, point.y)};
  };
  for (const PathStep& step : steps) {
    if (step.kind == PathStep::Kind::close) continue;
    take(step.to);
    if (step.kind != PathStep::Kind::curve) continue;
    take(step.control_1);
    take(step.control_2);
  }
  return bounds;
}

std::vector<HatchLine> hatch_lines(const Fill& fill, Bounds bounds) {
  constexpr double smallest_gap = 0.2;
  constexpr int most_lines = 4000;
  const double gap = std::max(fill.hatch_gap, smallest_gap);
  // y grows downward on a sheet, so a line that rises to the right has a negative slope here.
  const Vec2 along{cosine(Degrees{fill.hatch_angle}), -sine(Degrees{fill.hatch_angle})};
  const Vec2 across = left_of(along);
  const Vec2 corners[] = {bounds.low, {bounds.high.x, bounds.low.y}, bounds.high, {bounds.low.x, bounds.high.y}};
  double near = dot(corners[0], across), far = near;
  double start = dot(corners[0], along), end = start;
  for (const Vec2 corner : corners) {
    near = std::min(near, dot(corner, across));
    far = std::max(far, dot(corner, across));
    start = std::min(start, dot(corner, along));
    end = std::max(end, dot(corner, along));
  }
  std::vector<HatchLine> lines;
  const double first = std::ceil(near / gap);
  for (int i = 0; i < most_lines && (first + i) * gap <= far; ++i) {
    const Vec2 base = across * ((first + i) * gap);
    lines.push_back({base + along * start, base + along * end});
  }
  return lines;
}

}  // namespace lensward
