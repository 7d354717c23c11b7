#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage dragged_line_page{
    .sees = "A speech with its length told that takes more than a minute for 70 words.",
    .why = "Below that it is no longer talk, and the silence should be written as one.",
    .example = "Oda to Jun, for 9 s: \"He has the keys.\"",
    .better = "pause 3 s\nOda to Jun: \"He has the keys.\"",
    .source = "common practice, no source.",
};

void dragged_line(const Checked& checked, Reporter& report) {
  constexpr double limit = 70;
  for (const Speech& speech : checked.plan.speeches) {
    const double seconds = to_seconds(speech.end - speech.begin).value;
    if (!speech.length_told || speech.timed.empty() || seconds <= 0) continue;
    const double rate = static_cast<double>(speech.timed.size()) * 60 / seconds;
    if (rate >= limit) continue;
    const Target speaker{Target::Kind::person, speech.speaker.index, {}};
    const int beat = beat_at(checked.plan, speech.begin);
    Finding& finding =
        report.add(speech.said_at, {beat, speech.begin, {speaker}},
                   quoted(checked, speaker) + " would speak at " + number(rate, 0) + " words/min in " +
                       beat_words(checked, beat) + ", limit 70 words/min: " + std::to_string(speech.timed.size()) +
                       " words in " + text_of(speech.end - speech.begin));
    finding.next_step = "give it less time, or write the silence as `pause`";
  }
}

}  // namespace lensward
