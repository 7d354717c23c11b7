#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage dropped_pass_page{
    .sees =
        "A `pass`: the giver has the eye through the half second before the cue, the taker afterwards, and no "
        "third person for more than 0.5 s between.",
    .why = "The eye falls between two people, and the line that passed it is wasted.",
    .example =
        "pass from Ines to Runa, on [Turn]\n"
        "Piet rises, on [Turn]\n"
        "Ines: \"Did you sign it? [Turn] Or did you only carry it?\"",
    .better =
        "pass from Ines to Runa, on [Turn]\n"
        "Ines: \"Did you sign it? [Turn] Or did you only carry it?\"\n"
        "Runa turns frontal, on [Turn]",
    .source = "common practice, no source.",
};

void dropped_pass(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "dropped-pass", Explains::rival_over_favoured, report, [&](const Verdict& verdict) {
    const auto own =
        std::find_if(verdict.measures.rbegin(), verdict.measures.rend(), [](const Measure& one) { return !one.met; });
    return "`" + asked_words(checked, verdict) + "` " + at_words(verdict.begin) + " in " +
           beat_words(checked, verdict.beat) + ": " + own->told;
  });
}

}  // namespace lensward
