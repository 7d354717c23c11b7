// What a person or thing must be before any cue counts: seen, large enough, lit.
#pragma once

#include "emphasis/cues.h"

namespace lensward {

struct Gates {
  double visible = 0, size = 0, light = 0;  // 0..1 each

  double all() const { return visible * size * light; }
};

// visible: head in frame and unmasked. size: full at 4 % of the frame's height, none at 0. light: full down to 2 stops
// under what the stop asks for, none at 5 under. Things are taken as lit.
Gates gates_of(const CueInput& in);

// The exposure of what is seen of a face: the light that falls on it or the luminance that comes from it, against what
// the stop asks for, whichever is more. A head seen from behind is lit on the side toward us.
Stops seen_exposure(const Plan& plan, const View& view, const PersonSeen& person);

}  // namespace lensward
