#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage catches_the_eye_page{
    .sees =
        "Someone hidden in plain sight: never the eye, and at every moment more than the margin (8 points) "
        "behind the leader.",
    .why = "The one the audience should overlook is the one they look at.",
    .example =
        "hide Lotte, in plain sight\n"
        "Lotte is at foreground, frontal",
    .better =
        "hide Lotte, in plain sight\n"
        "Lotte is deep, back to lens",
    .source = "common practice, no source.",
};

void catches_the_eye(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "catches-the-eye", Explains::favoured_over_rival, report, [&](const Verdict& verdict) {
    return quoted(checked, verdict.favoured) + " is hidden in plain sight but " + shortfall_words(verdict) + " " +
           at_words(verdict.decided) + " in " + beat_words(checked, verdict.beat);
  });
}

}  // namespace lensward
