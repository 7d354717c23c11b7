// What the lens sees, printed.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "lens/view.h"
#include "plan/plan.h"

namespace lensward {

// Stable and diffable; "schema" names its version. Printed as text by report/outline.h, or as JSON as it is.
nlohmann::ordered_json dump_view(const Plan& plan, const View& view);

}  // namespace lensward
