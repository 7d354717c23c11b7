#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage hungry_background_page{
    .sees = "A story that runs under has the eye for no more than 1.5 s together.",
    .why = "The background eats the scene.",
    .example =
        "story Sale runs under\n"
        "Oda rises, large",
    .better =
        "story Sale runs under\n"
        "Oda is deep, three-quarter back",
    .source = "common practice, no source.",
};

void hungry_background(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "hungry-background", Explains::favoured_over_rival, report, [&](const Verdict& verdict) {
    return "`" + asked_words(checked, verdict) + "` in " +
           stretch_words(checked, verdict.beat, {verdict.begin, verdict.end}) +
           ", but it takes the lead: " + shortfall_words(verdict);
  });
}

}  // namespace lensward
