// Severities of the film, and waivers: what is excused, by whom, and why.
#pragma once

#include "rules/rule.h"

namespace lensward {

// Marks what waivers excuse, and tells of each waiver whether it excused anything. One without a reason, or for a rule
// that nobody knows, excuses nothing.
std::vector<bool> apply_waivers(const Plan& plan, Findings& findings);

// Sets severities as `treat` lines say and drops what they switch off. Findings before `from` were made by earlier
// stages: of those only remarks can be treated.
void apply_treatments(const Plan& plan, std::size_t from, Findings& findings);

}  // namespace lensward
