#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage missed_hint_page{
    .sees =
        "A hint: between 3 and 30 % of the body shows for half a second within 2 s of its cue, and never has "
        "the eye.",
    .why = "A hint nobody sees is none; one that everybody watches is a reveal.",
    .example =
        "hint Lotte, on \"walk\"\n"
        "Lotte is under the Table, crouching",
    .better =
        "hint Lotte, on \"walk\"\n"
        "Lotte is at the camera right end of the Table, crouching",
    .source = "common practice, no source.",
};

void missed_hint(const Checked& checked, Reporter& report) {
  report_verdicts(
      checked, "missed-hint", Explains::nothing, report,
      [&](const Verdict& verdict) {
        return "the hint of " + quoted(checked, verdict.favoured) + " in " + beat_words(checked, verdict.beat) + ": " +
               shortfall_words(verdict);
      },
      [&](const Verdict& verdict) {
        return std::string("let more of " + quoted(checked, verdict.favoured) +
                           " show for a moment, or bring it nearer the lens");
      });
}

}  // namespace lensward
