#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage caught_at_it_page{
    .sees =
        "A `draw the eye`: through the covered deed the decoy leads by the margin for 75 % of it, and whoever "
        "does the deed stays under 60 % of the decoy's points.",
    .why = "The trick is seen.",
    .example =
        "draw the eye to Tobias, while Taking\n"
        "Jun takes Tickets, named Taking\n"
        "Tobias is at the Range, back to lens",
    .better =
        "draw the eye to Tobias, while Taking\n"
        "Jun takes Tickets, small, named Taking\n"
        "Tobias turns frontal, as Taking",
    .source = "common practice, no source.",
};

void caught_at_it(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "caught-at-it", Explains::rival_over_favoured, report, [&](const Verdict& verdict) {
    return "the eye should be on " + quoted(checked, verdict.favoured) + " " + at_words(verdict.begin) + " in " +
           beat_words(checked, verdict.beat) + ", but " + shortfall_words(verdict);
  });
}

}  // namespace lensward
