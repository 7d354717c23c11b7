// Plan -> attention.
#pragma once

#include <functional>

#include "emphasis/tally.h"
#include "plan/plan.h"

namespace lensward {

// Sees the plan at every sample and reckons who has the eye. An empty plan gives no samples. `unwanted` is asked now
// and then, on any thread: once nobody waits for the result any more, there is none, and no samples either.
Attention weigh(const Plan& plan, const std::function<bool()>& unwanted = {});

// The tally of a single moment, as `explain --at` prints it: the sample at or next before the moment.
// Requires at least one sample.
const Sample& sample_at(const Attention& attention, Moment moment);

}  // namespace lensward
