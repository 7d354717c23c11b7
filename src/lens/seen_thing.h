// Props and pieces as the lens sees them.
#pragma once

#include <vector>

#include "lens/seen_person.h"

namespace lensward {

// The props and pieces that some intent or anybody's eyes name, anywhere in the plan; pieces first, each in the stage's
// order.
std::vector<Target> things_named(const Plan& plan);

ThingSeen seen_thing(const Looking& looking, const Target& thing);

}  // namespace lensward
