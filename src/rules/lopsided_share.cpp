#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage lopsided_share_page{
    .sees =
        "A `share`: mean points within 10 of each other, each having the eye a quarter of the stretch (of "
        "three, a sixth), together three quarters. With `leaning`, the one leant to must be 3 to 10 points "
        "ahead on average.",
    .why = "What was meant as a scene of two plays as one and a listener.",
    .example =
        "share Oda and Wren\n"
        "Oda is at foreground, frontal\n"
        "Wren is deep, back to lens\n"
        "Oda: \"Well?\"",
    .better =
        "share Oda and Wren\n"
        "Oda is at foreground, profile toward frame right\n"
        "Wren is at foreground, profile toward frame left\n"
        "Oda: \"Well?\"",
    .source = "common practice, no source.",
};

void lopsided_share(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "lopsided-share", Explains::rival_over_favoured, report, [&](const Verdict& verdict) {
    return "`" + asked_words(checked, verdict) + "` in " + beat_words(checked, verdict.beat) + ": " +
           shortfall_words(verdict);
  });
}

}  // namespace lensward
