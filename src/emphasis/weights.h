// How much each cue counts.
#pragma once

#include <array>

#include "emphasis/tally.h"
#include "plan/plan.h"

namespace lensward {

// The points a cue gives at full strength when a film says nothing. They add to 100.
Points default_weight(CueKind cue);

// The settings' weights in place of the defaults, then all scaled so that they add to 100. Names may be written with
// blanks or hyphens; names of no cue are passed over. Weights that add to nothing give the defaults.
std::array<Points, cue_count> weights_of(const Settings& settings);

}  // namespace lensward
