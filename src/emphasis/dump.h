// The attention and the verdicts, printed.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "emphasis/tally.h"
#include "emphasis/verdict.h"
#include "plan/plan.h"

namespace lensward {

// Stable and diffable; "schema" names its version. Printed as text by report/outline.h, or as JSON as it is.
nlohmann::ordered_json dump_attention(const Plan& plan, const Attention& attention,
                                      const std::vector<Verdict>& verdicts);

}  // namespace lensward
