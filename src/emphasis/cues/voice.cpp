// Voice: we look at whoever speaks.
//
// Kind: evidence.
// Formula: by loudness, whispered .5, softly .8, plain .9, loudly and shouted 1, from the first word to the last; gone
//   1 s after the last word, and in a rest likewise. In the 0.3 s before the first word it rises from 0 to a third.
// Source: Foulsham et al. 2010 and Coutrot & Guyader 2014 (speaker over silent listener, O-13); Coutrot & Guyader 2014
//   (in talk scenes the talking face over every low-level measure, O-40); Holler & Kendrick 2015 (the next speaker
//   rises before his first word, O-15). The figures by loudness are the trade's guess: common practice, no source.
// Weakness: knows no voices off, no two people talking at once and no language the viewer does not understand.
#include <algorithm>

#include "emphasis/cues.h"

namespace lensward {
namespace {

constexpr Milliseconds gone_after{1000};
constexpr Milliseconds breath{300};
constexpr Milliseconds longest_gap{300};

double strength_of(Loudness loudness) {
  switch (loudness) {
    case Loudness::whispered:
      return 0.5;
    case Loudness::softly:
      return 0.8;
    case Loudness::plain:
      return 0.9;
    case Loudness::loudly:
    case Loudness::shouted:
      return 1;
  }
  return 0.9;
}

// 0 while a word sounds or the gap to the next is too short to be a rest.
Milliseconds silent_for(const Speech& speech, Moment moment) {
  if (moment >= speech.end) return moment - speech.end;
  for (std::size_t i = 0; i + 1 < speech.timed.size(); ++i) {
    const Moment stops = speech.timed[i].end, resumes = speech.timed[i + 1].begin;
    if (moment < stops || moment >= resumes) continue;
    return resumes - stops <= longest_gap ? Milliseconds{} : moment - stops;
  }
  return {};
}

double sounding(const Speech& speech, Moment moment) {
  if (moment < speech.begin) return falling(speech.begin - moment, breath) / 3;
  return falling(silent_for(speech, moment), gone_after);
}

}  // namespace

double voice(const CueInput& in) {
  if (in.target.kind != Target::Kind::person) return 0;
  double strongest = 0;
  for (const Speech* speech : in.now.sounding) {
    if (speech->speaker.index != in.target.index || speech->off) continue;
    strongest = std::max(strongest, strength_of(speech->loudness) * sounding(*speech, in.now.view.moment));
  }
  return strongest;
}

}  // namespace lensward
