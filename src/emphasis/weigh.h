// Plan -> attention.
#pragma once

#include <functional>

#include "emphasis/beats_known.h"
#include "emphasis/tally.h"
#include "plan/plan.h"

namespace lensward {

// Sees the plan at every sample and reckons who has the eye. An empty plan gives no samples. `unwanted` is asked now
// and then, on any thread: once nobody waits for the result any more, there is none, and no samples either. Beats that
// are known are not looked at again; null: none are.
Attention weigh(const Plan& plan, const std::function<bool()>& unwanted = {}, BeatsKnown* known = nullptr);

// The tally of a single moment, as `explain --at` prints it: the sample at or next before the moment.
// Requires at least one sample.
const Sample& sample_at(const Attention& attention, Moment moment);

}  // namespace lensward
