#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage gabbled_line_page{
    .sees = "A speech with its length told that leaves less than a minute for 250 words.",
    .why = "Nobody can say it, and nobody could follow it.",
    .example = "Oda to Jun, for 1 s: \"I signed the papers on Monday and he has the keys tomorrow.\"",
    .better = "Oda to Jun, for 4.5 s: \"I signed the papers on Monday and he has the keys tomorrow.\"",
    .source = "common practice, no source.",
};

void gabbled_line(const Checked& checked, Reporter& report) {
  constexpr double limit = 250;
  for (const Speech& speech : checked.plan.speeches) {
    const double seconds = to_seconds(speech.end - speech.begin).value;
    if (!speech.length_told || speech.timed.empty() || seconds <= 0) continue;
    const double rate = static_cast<double>(speech.timed.size()) * 60 / seconds;
    if (rate <= limit) continue;
    const Target speaker{Target::Kind::person, speech.speaker.index, {}};
    const int beat = beat_at(checked.plan, speech.begin);
    Finding& finding =
        report.add(speech.said_at, {beat, speech.begin, {speaker}},
                   quoted(checked, speaker) + " would speak at " + number(rate, 0) + " words/min in " +
                       beat_words(checked, beat) + ", limit 250 words/min: " + std::to_string(speech.timed.size()) +
                       " words in " + text_of(speech.end - speech.begin));
    finding.next_step = "give it more time, or leave the length out";
  }
}

}  // namespace lensward
