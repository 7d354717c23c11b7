#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage fumbled_reveal_page{
    .sees =
        "A reveal: within 0.6 s of its cue half of the body shows, can be read (no more than 2 stops under, "
        "blur at most 6 % of the head) and has the eye, all at once.",
    .why = "The moment the scene has waited for passes unseen.",
    .example =
        "reveal Lotte, as Lifting\n"
        "Lotte is under the Table, back to lens",
    .better =
        "reveal Lotte, as Lifting\n"
        "Lotte is under the Table, frontal\n"
        "light Key aims at Lotte, as Lifting",
    .source = "common practice, no source.",
};

void fumbled_reveal(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "fumbled-reveal", Explains::rival_over_favoured, report, [&](const Verdict& verdict) {
    return "the reveal of " + quoted(checked, verdict.favoured) + " " + at_words(verdict.begin) + " in " +
           beat_words(checked, verdict.beat) + " fails: " + shortfall_words(verdict);
  });
}

}  // namespace lensward
