// Depth of field and blur of a thin lens (facts and worked checks: docs/model.md, "focus").
#pragma once

#include <optional>

#include "base/units.h"

namespace lensward {

// f²/(N·c), without the + f. Requires stop and circle > 0.
Metres hyperfocal(Millimetres focal, FNumber stop, Millimetres circle);

struct SharpRange {
  Metres near;
  std::optional<Metres> far;  // none: to infinity
};
// S·f²/(f² ± N·c·(S − f)). Requires focus > focal.
SharpRange sharp_range(Millimetres focal, FNumber stop, Millimetres circle, Metres focus);

// Diameter of the blur disc on the gate of a point at `distance`: (f²/N)·|x − S| / (x·(S − f)).
// A focus nearer than 1.1 focal lengths counts as 1.1 focal lengths; a distance under 1 cm as 1 cm.
Millimetres blur_disc(Millimetres focal, FNumber stop, Metres focus, Metres distance);

// The focus that splits two distances: 2ab / (a + b).
Metres split_focus(Metres a, Metres b);

}  // namespace lensward
