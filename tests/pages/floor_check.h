// Reads a floor plan as drawn and tells what a reader of it would complain of. It knows the drawing alone, not how the
// labels were placed.
#pragma once

#include <string>
#include <vector>

#include "pages/overhead.h"

namespace lensward::floor_check {

// What is wrong with the names on the plan, one sentence each: a name over another or over the scale; a name over a
// person, a floor mark, a thing in hand, a lamp or a camera; a name farther than 8 mm from its thing and on no leader
// that leads from one to the other; a thing of the plan without its name, on the floor or by its number in the key; a
// name off the paper. `at` and `most` are what the drawing was given.
std::vector<std::string> complaints(const Overhead& drawing, const Plan& plan, Moment moment, Vec2 at, Vec2 most);

}  // namespace lensward::floor_check
