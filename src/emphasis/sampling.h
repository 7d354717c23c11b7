// How often the scene is looked at.
#pragma once

#include <functional>
#include <vector>

#include "emphasis/beats_known.h"
#include "emphasis/tally.h"
#include "lens/see.h"
#include "plan/plan.h"

namespace lensward {

// As weigh(), at another rate. Requires samples_a_second > 0. No share may depend on it by more than 0.01.
Attention weigh_at(const Plan& plan, int samples_a_second, const std::function<bool()>& unwanted = {},
                   BeatsKnown* known = nullptr);

// At these moments alone, seen by an onlooker who may have seen other plans of the same set. What the eye remembers
// from before the first is missing, so begin a little before what matters. Requires moments in order, within the scene.
Attention weigh_moments(const Plan& plan, const std::vector<Moment>& moments, Onlooker& onlooker);

}  // namespace lensward
