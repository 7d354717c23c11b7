// The frame on a page: the picture inside, the frame line round it.
#pragma once

#include <string>

#include "pages/sheet.h"
#include "plan/plan.h"

namespace lensward {

// What the camera on air sees at `moment`. `size` should have the picture's own proportions.
Group frame_window(const Plan& plan, Moment moment, Vec2 at, Vec2 size, const Target& favoured, const std::string& id);

}  // namespace lensward
