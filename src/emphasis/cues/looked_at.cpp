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
namespace {

// Eyes that turn away from someone name them too; only eyes that rest on them count.
bool eyes_rest_on(const CueInput& in, const PersonState& looker, Vec3 middle) {
  constexpr double near_enough = 0.3;
  return looker.gaze == in.target && length(looker.looks_at - middle) < near_enough;
}

}  // namespace

double looked_at(const CueInput& in) {
  const auto middle = point_of(in.now.plan, in.target, in.now.view.moment);
  if (!middle) return 0;
  double missed = 1;
  for (const PersonSeen& looker : in.now.view.people) {
    if (!looker.in_front) continue;
    if (in.target.kind == Target::Kind::person && looker.person.index == in.target.index) continue;
    if (!eyes_rest_on(in, in.now.people[static_cast<std::size_t>(looker.person.index)], *middle)) continue;
    missed *= 1 - plainness(in.now, looker) / 2;
  }
  return 1 - missed;
}

}  // namespace lensward
