// One frame as a drawing: what the camera on air shows at a moment, in ink and hatching, with the names under it.
#pragma once

#include <string>

#include "pages/sheet.h"
#include "plan/plan.h"

namespace lensward {

// Height taken by the names under a frame, in mm.
inline constexpr double names_under_frame = 7.5;

// The frame, in the picture's own proportions, as large as fits into `size` (mm) with the names under it, in the middle
// of the width and at the top. The favoured has an outline in the accent, a heavier line and a mark under the frame;
// Target::Kind::nothing marks nobody. A person far out of focus is one soft shape. A plan without cameras gives an
// empty frame. Ids begin with `id`.
Group thumbnail(const Plan& plan, Moment moment, Vec2 at, Vec2 size, const Target& favoured, const std::string& id);

// The line under a frame: "Papers · 0:03.2 · A: 35 mm at T2.8, focus 3.4 m · for Oda". Without a camera, beat and time.
std::string frame_caption(const Plan& plan, Moment moment, const Target& favoured);

// Height of frame and names for a width, in mm.
double thumbnail_height(const Plan& plan, Moment moment, double width);

}  // namespace lensward
