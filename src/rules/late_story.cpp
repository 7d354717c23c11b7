#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage late_story_page{
    .sees = "A story that comes up has the eye within 0.6 s.",
    .why = "The audience is still with the other story when this one begins to matter.",
    .example =
        "story Winter comes up, on \"carry\"\n"
        "Runa turns frontal, 2 s after Ines speaks",
    .better =
        "story Winter comes up, on \"carry\"\n"
        "Runa turns frontal, on \"carry\"",
    .source = "common practice, no source.",
};

void late_story(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "late-story", Explains::rival_over_favoured, report, [&](const Verdict& verdict) {
    return "`" + asked_words(checked, verdict) + "` in " +
           stretch_words(checked, verdict.beat, {verdict.begin, verdict.end}) +
           ", but it comes late: " + shortfall_words(verdict);
  });
}

}  // namespace lensward
