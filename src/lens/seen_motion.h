// How fast a body goes over the screen.
#pragma once

#include "lens/seen_person.h"

namespace lensward {

// Widths of the frame a second, of the eyes carried by the feet, the rise or sink of a change of posture, and the
// camera's own moves. 0 when they are not before the lens all the while.
double screen_speed(const Looking& looking, PersonId person);

}  // namespace lensward
