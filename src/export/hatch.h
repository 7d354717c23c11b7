// The house tone: one set of parallel lines for every exporter.
#pragma once

#include <vector>

#include "pages/sheet.h"

namespace lensward {

struct HatchLine {
  Vec2 from, to;
};

// Smallest rectangle round the steps' points and control points; all zero for no steps.
struct Bounds {
  Vec2 low, high;
};
Bounds bounds_of(const std::vector<PathStep>& steps);

// Lines of a hatched fill that cover `bounds`, to be clipped to the shape. Their phase is that of the page, not of the
// shape, so that neighbours of one tone run on. A gap under 0.2 mm counts as 0.2 mm. At most 4000 lines.
std::vector<HatchLine> hatch_lines(const Fill& fill, Bounds bounds);

}  // namespace lensward
