// What the camera on air sees at one moment: who is in frame, how large, how sharp, how bright, and what hides them.
#pragma once

#include <memory>

#include "lens/view.h"
#include "plan/plan.h"

namespace lensward {

// Projects the plan at `moment` through the camera on air. Any moment is accepted (see person_at). Nobody in frame is
// not an error: the view holds everyone present, with nothing visible. A plan without cameras gives an empty view.
// Every number in the view is finite.
View see(const Plan& plan, Moment moment);

// What the last view drew. Handed from call to call it saves drawing again what has not moved; no result depends on it.
struct MaskFrame;
struct Drawings {
  std::shared_ptr<MaskFrame> last;
};
View see(const Plan& plan, Moment moment, Drawings& drawings);

}  // namespace lensward
