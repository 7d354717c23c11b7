#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage lost_ending_page{
    .sees = "A story that closes: the last deed of its people in the beat can be read for 1.5 s.",
    .why = "The audience never learns how it ended.",
    .example =
        "story Suitcase closes\n"
        "Wren exits by the Yard-Door",
    .better =
        "story Suitcase closes\n"
        "camera frames Wren at frame right third\n"
        "Wren exits by the Yard-Door",
    .source = "common practice, no source.",
};

void lost_ending(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "lost-ending", Explains::rival_over_favoured, report, [&](const Verdict& verdict) {
    return "`" + asked_words(checked, verdict) + "` in " +
           stretch_words(checked, verdict.beat, {verdict.begin, verdict.end}) +
           ", but its end is not seen: " + shortfall_words(verdict);
  });
}

}  // namespace lensward
