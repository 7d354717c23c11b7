// Amounts of deeds and cues -> quantities.
#pragma once

#include <optional>

#include "base/units.h"
#include "findings/finding.h"
#include "plan/measures.h"
#include "syntax/script.h"

namespace lensward {

// Each gives nothing, and a `unit.` finding, when the unit is missing, of another kind or out of bounds. A range or
// `about` counts by the value it would like best.
std::optional<Milliseconds> time_told(const Amount& amount, Findings& findings);
std::optional<Metres> length_told(const Amount& amount, Metres step, Findings& findings);
std::optional<Degrees> angle_told(const Amount& amount, Findings& findings);
std::optional<Share> share_told(const Amount& amount, Findings& findings);

// What the amount measures; nothing when its unit is no unit.
std::optional<Dimension> dimension_of(const Amount& amount);

}  // namespace lensward
