// Who a change takes out of the picture.
#pragma once

#include <vector>

#include "mend/mend.h"

namespace lensward {

// Everybody who is out of the picture for `lost_from` or longer, all stretches together, where they are in it before at
// the same moment of the same beat; in the stage's order. Somebody is in the picture with a tenth of the head within
// its edges, hidden or not. Requires rehearsals with as many beats and the same company, to the depth of marks.
std::vector<LostFromPicture> lost_from_picture(const Rehearsal& before, const Rehearsal& after);

}  // namespace lensward
