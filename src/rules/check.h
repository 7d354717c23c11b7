// Plan, attention and verdicts -> findings: every rule of rules.def, one file each.
#pragma once

#include <vector>

#include "emphasis/places_tried.h"
#include "emphasis/tally.h"
#include "emphasis/verdict.h"
#include "findings/finding.h"
#include "plan/plan.h"

namespace lensward {

// Runs every rule, then applies the settings' severities and the waivers to what it added.
// Without `tried` no verdict is said to depend on a vague place or on a small slip.
void check_rules(const Plan& plan, const Attention& attention, const std::vector<Verdict>& verdicts, Findings& findings,
                 const PlacesTried& tried = {});

}  // namespace lensward
