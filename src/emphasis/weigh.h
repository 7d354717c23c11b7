// Plan -> attention.
#pragma once

#include "emphasis/tally.h"
#include "plan/plan.h"

namespace lensward {

// Sees the plan at every sample and reckons who has the eye. An empty plan gives no samples.
Attention weigh(const Plan& plan);

// The tally of a single moment, as `explain --at` prints it: the sample at or next before the moment.
// Requires at least one sample.
const Sample& sample_at(const Attention& attention, Moment moment);

}  // namespace lensward
