// Near light: the brighter face draws more.
//
// Kind: trade.
// Formula: luminance of the face as the eye gets it, in stops under the brightest face in frame: 1 for the brightest,
//   0 at 4 stops less. Things have none.
// Source: common practice, no source. Nuthmann & Einhäuser 2015 find that luminance adds little once edges are counted
//   (O-41), so its weight stays below that of faces.
// Weakness: a dark figure before a bright group draws too (Einhäuser et al. 2006, O-38); that is left to `apart`.
#include <algorithm>

#include "emphasis/cues.h"
#include "optics/light.h"

namespace lensward {

double near_light(const CueInput& in) {
  constexpr double stops_to_nothing = 4;
  if (in.person == nullptr || !(in.person->luminance.value > 0)) return 0;
  const Stops under = stops_between(in.now.brightest_face.value, in.person->luminance.value);
  return std::clamp(1 - under.value / stops_to_nothing, 0.0, 1.0);
}

}  // namespace lensward
