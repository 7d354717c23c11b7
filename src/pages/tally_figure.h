// Why one person has the eye rather than another: their cues side by side.
#pragma once

#include "pages/flow.h"
#include "pages/lay_out.h"

namespace lensward {

// The favoured's cues as solid bars to the right, the rival's hatched to the left, in points, the most telling first,
// at the verdict's deciding moment. An empty block when there is nothing to compare.
Block tally_figure(const Results& results, const Verdict& verdict, double width);

}  // namespace lensward
