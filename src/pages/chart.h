// Attention over the whole scene: asked for against reckoned.
#pragma once

#include <string>
#include <vector>

#include "pages/lay_out.h"

namespace lensward {

// The pages of the chart: time runs across; above, who is asked to have the eye and who has it; below, a lane for each
// person with their points, solid while they have the eye, hatched while they have not; findings pinned at the foot by
// number, and all of them listed: beneath, and on pages of their own as far as they need. Twelve lanes a page; a plan
// without beats gives no page.
std::vector<Sheet> lay_out_chart(const Results& results);

}  // namespace lensward
