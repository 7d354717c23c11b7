#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage lost_story_page{
    .sees = "A story that leads, or has come up: somebody of it has the eye for 70 % of the time.",
    .why = "The audience follows the other story.",
    .example =
        "story Sale leads\n"
        "Oda and Tobias are deep, back to lens",
    .better =
        "story Sale leads\n"
        "Oda is at foreground, frontal",
    .source = "common practice, no source.",
};

void lost_story(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "lost-story", Explains::rival_over_favoured, report, [&](const Verdict& verdict) {
    return "`" + asked_words(checked, verdict) + "` in " +
           stretch_words(checked, verdict.beat, {verdict.begin, verdict.end}) +
           ", but it does not lead: " + shortfall_words(verdict);
  });
}

}  // namespace lensward
