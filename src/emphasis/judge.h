// Attention -> verdicts: was the eye where the writer wants it?
#pragma once

#include <vector>

#include "emphasis/tally.h"
#include "emphasis/verdict.h"
#include "plan/plan.h"

namespace lensward {

// A verdict for every intent in the plan's order, then one for each beat without any, which is checked against its
// speakers. Beats that hold an unreadable line are not judged.
std::vector<Verdict> judge(const Plan& plan, const Attention& attention);

}  // namespace lensward
