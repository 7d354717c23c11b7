// What is wrong with a way that is not the chosen one.
#pragma once

#include "findings/finding.h"
#include "plan/plan.h"
#include "plan/scene_text.h"

namespace lensward {

// Of the findings of the scene played with `way`, adds the errors and warnings of the way's beat to `told`, under
// "way B of `Rebuke`". Requires the findings of the whole scene planned with that way, and its plan.
void add_findings_of_way(const WayOfScene& way, const Plan& plan, const Findings& with_way, Findings& told);

}  // namespace lensward
