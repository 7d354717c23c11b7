// Eyes move: a glance is seen by whoever watches a face.
//
// Kind: trade.
// Formula: .6 for half a second from a look's beginning, times how much of the face is turned to the lens; then it
//   falls to 0 over 0.8 s. Only looks that are told count.
// Source: common practice, no source. Eyes are the most looked-at part of a person for their size (Broda & de Haas
// 2022,
//   O-04).
// Weakness: does not ask how far the eyes travel.
#include <algorithm>

#include "emphasis/cues.h"

namespace lensward {
namespace {

constexpr Milliseconds glance{500};
constexpr double glance_strength = 0.6;

bool told(const Segment<Gaze>& look) { return look.origin != Origin::assumed && look.origin != Origin::carried; }

bool glances(const Lane<Gaze>& eyes, Moment moment) {
  return std::any_of(eyes.begin(), eyes.end(), [moment](const Segment<Gaze>& look) {
    return told(look) && look.begin.count > 0 && look.begin <= moment && moment < look.begin + glance;
  });
}

}  // namespace

double eyes_move(const CueInput& in) {
  const double before = in.memory.fading[static_cast<std::size_t>(CueKind::eyes_move)];
  if (in.person == nullptr || !in.person->in_front) return before;
  const PersonTrack& track = in.now.plan.people[static_cast<std::size_t>(in.target.index)];
  if (!glances(track.eyes, in.now.view.moment)) return before;
  return std::max(before, glance_strength * turned_to_lens(in.person->face_angle));
}

}  // namespace lensward
