// Spoken to: after the speaker we look at the one who must answer.
//
// Kind: trade.
// Formula: 1 from 0.3 s into the speech to its end, gone 1 s after; shared out when several are spoken to, and between
//   all others when it is to everyone. 0.3 s is a breath: the speaker is looked at first.
// Source: Holler & Kendrick 2015 (looks go to the next speaker before the turn changes, O-15); the strength is common
//   practice, no source.
// Weakness: knows nothing of what is said; an insult and a remark on the weather count alike.
#include <algorithm>

#include "emphasis/cues.h"

namespace lensward {
namespace {

constexpr Milliseconds first_on_the_speaker{300};
constexpr Milliseconds gone_after{1000};

// The part of the address that falls on one person.
double part_of(const Speech& speech, int person, int present) {
  if (speech.speaker.index == person) return 0;
  if (speech.to_everyone) return 1.0 / std::max(1, present - 1);
  const auto addressed = [person](PersonId id) { return id.index == person; };
  if (std::none_of(speech.to.begin(), speech.to.end(), addressed)) return 0;
  return 1.0 / static_cast<double>(speech.to.size());
}

}  // namespace

double spoken_to(const CueInput& in) {
  if (in.target.kind != Target::Kind::person) return 0;
  const Moment moment = in.now.view.moment;
  const int present = static_cast<int>(in.now.view.people.size());
  double strongest = 0;
  for (const Speech* speech : in.now.sounding) {
    if (moment < speech->begin + first_on_the_speaker) continue;
    const double part = part_of(*speech, in.target.index, present);
    strongest = std::max(strongest, part * falling(moment - speech->end, gone_after));
  }
  return strongest;
}

}  // namespace lensward
