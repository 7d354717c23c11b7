// Body to lens: full face, three-quarter, profile, three-quarter back, back.
//
// Kind: evidence for faces, trade for the steps between.
// Formula: 1 at full face, .85 at 45 degrees, .55 at 90, .25 at 135, .1 at 180, straight between; half from the face,
//   half from the chest.
// Source: Palanica 2014 and others (a face with eyes to the lens over an averted one, O-08 to O-10); T. J.
// Smith
//   2011 on ensemble staging (when one of two turns his back, the facing one gains, O-11). The steps are handbook
//   convention: common practice, no source.
// Weakness: a turned back can be the strongest image of a scene; that is what a waiver is for.
#include "emphasis/cues.h"

namespace lensward {

double body_to_lens(const CueInput& in) {
  if (in.person == nullptr || !in.person->in_front) return 0;
  return (turned_to_lens(in.person->face_angle) + turned_to_lens(in.person->body_angle)) / 2;
}

}  // namespace lensward
