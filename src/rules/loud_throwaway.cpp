#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage loud_throwaway_page{
    .sees = "A line that is thrown away: its speaker may have the eye for at most half of it.",
    .why = "A line meant to be half heard is played to the audience.",
    .example =
        "throw away \"Kitchen's closed\"\n"
        "Tobias is at foreground, frontal\n"
        "Tobias: \"Kitchen's closed.\"",
    .better =
        "throw away \"Kitchen's closed\"\n"
        "Tobias is at the Range, back to lens\n"
        "Tobias, softly: \"Kitchen's closed.\"",
    .source = "common practice, no source.",
};

void loud_throwaway(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "loud-throwaway", Explains::favoured_over_rival, report, [&](const Verdict& verdict) {
    return quoted(checked, verdict.favoured) + " has the eye for " + first_unmet(verdict).value +
           " of the line thrown away " + at_words(verdict.begin) + " in " + beat_words(checked, verdict.beat) +
           ", limit " + first_unmet(verdict).limit;
  });
}

}  // namespace lensward
