#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage lost_listener_page{
    .sees = "A line that is played on its listener: the listener has the eye for 70 % of it and is seen.",
    .why = "The line lands on the face that says it, and the face it should change is missed.",
    .example =
        "play \"I signed\" on Tobias\n"
        "Tobias is deep, back to lens\n"
        "Oda: \"I signed the papers on Monday.\"",
    .better =
        "play \"I signed\" on Tobias\n"
        "Tobias is at foreground, frontal\n"
        "Oda is deep, three-quarter back\n"
        "Oda: \"I signed the papers on Monday.\"",
    .source = "common practice, no source.",
};

void lost_listener(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "lost-listener", Explains::rival_over_favoured, report, [&](const Verdict& verdict) {
    return quoted(checked, verdict.favoured) + " should have the line " + at_words(verdict.begin) + " in " +
           beat_words(checked, verdict.beat) + ", but " + shortfall_words(verdict) + "; " +
           lead_words(checked, verdict);
  });
}

}  // namespace lensward
