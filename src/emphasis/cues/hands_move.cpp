// Hands move: business and deeds of the hands draw the eye even when all else is still.
//
// Kind: trade.
// Formula: what the hands do, small business .3, busy .6, large 1, a hand deed .7; times 1 at the onset, falling to 0.6
//   over 0.8 s; after it stops it falls to 0 over 0.8 s. A thing has the strength of what is done with it.
// Source: Mital et al. 2011 for movement as such (O-19); a moving thing draws less than a moving person (Smith & Mital
//   2013, O-23); things touched draw more than things ignored (O-33). Against it: a speaker's gestures get only 2 % of
//   the looks (Beattie et al. 2010), so the weight is small. The strengths are common practice, no source.
// Weakness: does not ask whether the hands themselves are in frame or masked.
#include <algorithm>

#include "emphasis/cues.h"

namespace lensward {
namespace {

double done_with_thing(const CueInput& in) {
  double strongest = 0;
  for (const PersonTrack& track : in.now.plan.people) {
    for (const Business& business : track.hands) {
      const Moment moment = in.now.view.moment;
      if (business.object != in.target || moment < business.begin || moment >= business.end) continue;
      strongest = std::max(strongest, business.strength * onset(moment - business.begin));
    }
  }
  return strongest;
}

}  // namespace

double hands_move(const CueInput& in) {
  const double before = in.memory.fading[static_cast<std::size_t>(CueKind::hands_move)];
  if (in.person == nullptr) return std::max(before, done_with_thing(in));
  const PersonState& state = in.now.people[static_cast<std::size_t>(in.target.index)];
  const double now = std::clamp(state.hands_moving, 0.0, 1.0);
  return std::max(before, now * onset(in.now.view.moment - state.hands_since));
}

}  // namespace lensward
