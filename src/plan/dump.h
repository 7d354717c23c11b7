// The plan, printed: who is where, doing what, from when to when, and by which origin.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "plan/plan.h"

namespace lensward {

// Stable and diffable; "schema" names its version. Printed as text by report/outline.h, or as JSON as it is.
nlohmann::ordered_json dump_plan(const Plan& plan);

}  // namespace lensward
