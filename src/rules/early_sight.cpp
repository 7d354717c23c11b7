#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage early_sight_page{
    .sees =
        "Someone or something hidden: no more than 1 % of the outline shows at any moment until the reveal, "
        "over beats, but for the two seconds about a `hint`.",
    .why = "A secret that shows once is known.",
    .example =
        "hide Lotte\n"
        "Lotte is at the Table, standing",
    .better =
        "hide Lotte\n"
        "Lotte is under the Table, crouching",
    .source = "common practice, no source: 1 % of a body at full figure is a hand.",
};

void early_sight(const Checked& checked, Reporter& report) {
  report_verdicts(
      checked, "early-sight", Explains::nothing, report,
      [&](const Verdict& verdict) {
        return quoted(checked, verdict.favoured) + " is hidden but " + shortfall_words(verdict) + " " +
               at_words(verdict.decided) + " in " + beat_words(checked, beat_at(checked.plan, verdict.decided));
      },
      [&](const Verdict& verdict) {
        return std::string("put " + quoted(checked, verdict.favoured) +
                           " behind or under something, or out of the frame, until the reveal");
      });
}

}  // namespace lensward
