// The floor from above at one moment of a beat, in an architect's hand.
#pragma once

#include <string>
#include <vector>

#include "pages/lay_out.h"

namespace lensward {

struct Overhead {
  Group group;  // a figure with its description
  int denominator = 0;
  Vec2 size;                     // of paper used, mm; never more than was given
  std::vector<std::string> key;  // "12  Wilhelmina Oakenshott": names that had no room beside their people
};

// Everyone present at `moment`, where they look, the ways walked in the beat with a tick for each second, ghosts of
// where they stood when it began, marks, furniture, things in hand or laid down, cameras with their angle of view,
// lamps, a scale bar and a compass. Requires beat to be one of the plan, or -1 for a plan without beats. The drawing is
// centred across `most`.
Overhead draw_overhead(const Results& results, int beat, Moment moment, Vec2 at, Vec2 most);

}  // namespace lensward
