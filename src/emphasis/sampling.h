// How often the scene is looked at.
#pragma once

#include "emphasis/tally.h"
#include "plan/plan.h"

namespace lensward {

// As weigh(), at another rate. Requires samples_a_second > 0. No share may depend on it by more than 0.01.
Attention weigh_at(const Plan& plan, int samples_a_second);

// Only from begin to end, both clipped to the scene. What the eye remembers from before begin is missing, so begin a
// little before what matters. Requires samples_a_second > 0 and begin <= end.
Attention weigh_part(const Plan& plan, int samples_a_second, Moment begin, Moment end);

}  // namespace lensward
