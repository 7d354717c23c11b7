// What the lens sees, printed.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "lens/view.h"
#include "plan/plan.h"

namespace lensward {

// Stable and diffable; "schema" names its version. Printed as text by report/outline.h, or as JSON as it is.
nlohmann::ordered_json dump_view(const Plan& plan, const View& view);

// What is looked at: every solid of the moment in world coordinates by its owner, the camera on air and the lit lamps,
// so that others can draw the same picture. Its own schema (docs/model.md, "Solids, printed").
nlohmann::ordered_json dump_solids(const Plan& plan, Moment moment);

}  // namespace lensward
