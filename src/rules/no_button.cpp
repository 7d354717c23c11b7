#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage no_button_page{
    .sees = "A `button`: through the last second of the beat the one named leads by the margin, and is sharp.",
    .why = "The beat ends on someone else's face.",
    .example =
        "button on Lotte\n"
        "Lotte is deep, back to lens",
    .better =
        "button on Lotte\n"
        "Lotte turns frontal\n"
        "camera focuses on Lotte",
    .source = "common practice, no source.",
};

void no_button(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "no-button", Explains::rival_over_favoured, report, [&](const Verdict& verdict) {
    return beat_words(checked, verdict.beat) + " should end on " + quoted(checked, verdict.favoured) + ", who " +
           shortfall_words(verdict) + " " + at_words(verdict.decided);
  });
}

}  // namespace lensward
