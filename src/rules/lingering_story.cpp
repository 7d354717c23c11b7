#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage lingering_story_page{
    .sees =
        "A story that has dropped out: nobody of it has more than 20 points, save people whom another running "
        "story holds.",
    .why = "What is over should not go on asking to be watched.",
    .example =
        "story Sale drops out\n"
        "Oda is at foreground, frontal",
    .better =
        "story Sale drops out\n"
        "Oda is deep, back to lens",
    .source = "common practice, no source.",
};

void lingering_story(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "lingering-story", Explains::rival_over_favoured, report, [&](const Verdict& verdict) {
    return "`" + asked_words(checked, verdict) + "` in " +
           stretch_words(checked, verdict.beat, {verdict.begin, verdict.end}) +
           ", but it still shows: " + shortfall_words(verdict);
  });
}

}  // namespace lensward
