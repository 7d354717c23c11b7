#include <algorithm>

#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage drowned_line_page{
    .sees =
        "A sound over a quarter of the words of a line, half a second or more of it. Lines thrown away or told `off` "
        "do "
        "not count, nor does a sound that goes on a second before and after the line: that is background.",
    .why = "Played on the day it is in the take for good; the words under it cannot be got out again.",
    .example =
        "Oda: \"I signed it [On] Monday.\"\n"
        "sound Bell, on [On], for 2 s",
    .better =
        "Oda: \"I signed it on Monday. [Said]\"\n"
        "sound Bell, on [Said], for 2 s",
    .source = "common practice, no source: sounds are added afterwards, or played between lines.",
};

namespace {

constexpr double quarter = 0.25;
constexpr Milliseconds together_at_least{500}, background{1000};

bool is_background(const Sound& sound, const Speech& speech) {
  return sound.begin + background <= speech.begin && sound.end >= speech.end + background;
}

bool is_thrown_away(const Plan& plan, const Speech& speech) {
  return std::ranges::any_of(plan.intents, [&](const Intent& intent) {
    return intent.kind == Intent::Kind::throw_away && intent.begin < speech.end && speech.begin < intent.end;
  });
}

}  // namespace

void drowned_line(const Checked& checked, Reporter& report) {
  for (const Sound& sound : checked.plan.sounds) {
    for (const Speech& speech : checked.plan.speeches) {
      if (speech.off || is_background(sound, speech) || is_thrown_away(checked.plan, speech)) continue;
      const Milliseconds together = std::min(sound.end, speech.end) - std::max(sound.begin, speech.begin);
      const auto covered = std::ranges::count_if(
          speech.timed, [&](const Word& word) { return word.begin < sound.end && sound.begin < word.end; });
      const Share share{static_cast<double>(covered) /
                        static_cast<double>(std::max<std::size_t>(speech.timed.size(), 1))};
      if (together < together_at_least || share.value < quarter) continue;
      const Moment at = std::max(sound.begin, speech.begin);
      const int beat = beat_at(checked.plan, at);
      const Target speaker{Target::Kind::person, speech.speaker.index, {}};
      Finding& finding = report.add(sound.said_at, {beat, at, {speaker}},
                                    "sound `" + sound.name + "` lies over " + text_of(share) + " of the words of " +
                                        quoted(checked, speaker) + "'s \"" + first_words(speech) + "\" " +
                                        at_words(at) + " in " + beat_words(checked, beat) + ", limit 25 %; meant?");
      finding.next_step =
          "let it come after the line, or tell sound that it is added afterwards: `note for sound \"…\"`";
    }
  }
}

}  // namespace lensward
