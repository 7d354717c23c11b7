// Attention -> verdicts: was the eye where the writer wants it?
#pragma once

#include <vector>

#include "emphasis/tally.h"
#include "emphasis/verdict.h"
#include "plan/plan.h"

namespace lensward {

// A verdict for every intent in the plan's order, then for every story's state, then for each beat in which people
// speak and no intent says whom to watch: it is checked against its speakers. Beats that hold an unreadable line and
// stretches of no length are not judged. Without samples nothing is judged.
std::vector<Verdict> judge(const Plan& plan, const Attention& attention);

// The same verdict over another attention, which may hold a part of the scene only. Requires a verdict on an intent or
// a story of this plan.
Verdict judge_again(const Plan& plan, const Attention& attention, const Verdict& verdict);

}  // namespace lensward
