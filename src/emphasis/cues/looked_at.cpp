// Looked at: we look where others look.
//
// Kind: evidence.
// Formula: 1 - Π(1 - p/2) over all in frame whose eyes rest on them, p being how plainly each looker's face is seen
//   (visible × size × turn × sharp).
// Source: Borji, Parks & Itti 2014 (what a person in the picture looks at, O-25); Zwickel & Võ 2010 (only when the
//   looker's head is seen, O-26); Milgram et al. 1969 and Gallup et al. 2012 (more lookers draw more, ever less so,
//   O-29). The half is a choice, no source.
// Weakness: a look at something near them, or a head turned without the eyes, counts as nothing.
#include "emphasis/cues.h"

namespace lensward {

double looked_at(const CueInput& in) {
  double missed = 1;
  for (const PersonSeen& looker : in.now.view.people) {
    if (!looker.in_front) continue;
    if (in.target.kind == Target::Kind::person && looker.person.index == in.target.index) continue;
    if (in.now.people[static_cast<std::size_t>(looker.person.index)].gaze != in.target) continue;
    missed *= 1 - plainness(in.now, looker) / 2;
  }
  return 1 - missed;
}

}  // namespace lensward
