// Why one person has the eye rather than another: their cues side by side.
#pragma once

#include "pages/flow.h"
#include "pages/lay_out.h"

namespace lensward {

// The favoured's cues as solid bars to the right, the rival's hatched to the left, in points, the most telling first,
// at the verdict's deciding moment. An empty block when there is nothing to compare.
Block tally_figure(const Results& results, const Verdict& verdict, double width);

// How a verdict came out in a sentence. Of one that fails, or is close, with another ahead at the deciding moment: who
// has the eye instead, when, and the two cues that part them most: "Oda has the eye instead at 0:03.2, by 6 points:
// light 12 to 4, centre 9 to 6". Else as outcome_words.
std::string instead_words(const Results& results, const Verdict& verdict);

}  // namespace lensward
