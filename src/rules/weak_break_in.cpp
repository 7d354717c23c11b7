#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage weak_break_in_page{
    .sees =
        "A story that breaks in: somebody of it whom the beat has not shown yet has the eye within 0.5 s of "
        "first sight, and then for 70 % of the time.",
    .why = "An interruption that is not noticed interrupts nothing.",
    .example =
        "story Stranger breaks in, as Pell enters\n"
        "Pell enters by the Yard-Door",
    .better =
        "story Stranger breaks in, as Pell enters\n"
        "light Key aims at Yard-Door\n"
        "Pell enters by the Yard-Door, briskly",
    .source = "common practice, no source.",
};

void weak_break_in(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "weak-break-in", Explains::rival_over_favoured, report, [&](const Verdict& verdict) {
    return "`" + asked_words(checked, verdict) + "` in " +
           stretch_words(checked, verdict.beat, {verdict.begin, verdict.end}) +
           ", but it does not take the eye: " + shortfall_words(verdict);
  });
}

}  // namespace lensward
