#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage not_judged_page{
    .sees = "A beat with a line that could not be read: none of its intents is judged.",
    .why = "A verdict on half a beat would be worse than none.",
    .example =
        "beat Papers\n"
        "favour Oda\n"
        "Oda blorts to the Table",
    .better =
        "beat Papers\n"
        "favour Oda\n"
        "Oda walks to the Table",
    .source = "by the meaning of the word.",
};

void not_judged(const Checked& checked, Reporter& report) {
  for (std::size_t i = 0; i < checked.plan.beats.size(); ++i) {
    const Beat& beat = checked.plan.beats[i];
    if (beat.judged) continue;
    Finding& finding =
        report.add(beat.heading, {static_cast<int>(i), beat.begin, {}},
                   beat_words(checked, static_cast<int>(i)) + " is not judged: a line of it could not be read");
    finding.next_step = "mend the lines of it that are reported";
  }
}

}  // namespace lensward
