// What the camera on air sees at one moment: who is in frame, how large, how sharp, how bright, and what hides them.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

#include "lens/view.h"
#include "plan/plan.h"

namespace lensward {

// Projects the plan at `moment` through the camera on air. Any moment is accepted (see person_at). Nobody in frame is
// not an error: the view holds everyone present, with nothing visible. A plan without cameras gives an empty view.
// Every number in the view is finite.
View see(const Plan& plan, Moment moment);

// Views of one plan, or of plans that differ from one another in what their people, cameras and lamps do alone: the
// same stage and settings. What has been drawn for one view is kept for those after it; no result depends on it.
// Requires people with stature.
class Onlooker {
 public:
  // Keeps what was drawn through so many lenses; a moved camera counts as another lens. Looks for these things in place
  // of those that the plans name. Requires lenses_kept > 0.
  explicit Onlooker(std::size_t lenses_kept = 1, std::optional<std::vector<Target>> things = std::nullopt);
  ~Onlooker();
  Onlooker(const Onlooker&) = delete;
  Onlooker& operator=(const Onlooker&) = delete;

  // As the other see. The view is good until the next call.
  const View& see(const Plan& plan, Moment moment);

 private:
  struct Kept;
  std::unique_ptr<Kept> kept_;
};

}  // namespace lensward
