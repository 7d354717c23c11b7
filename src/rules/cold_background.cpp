#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage cold_background_page{
    .sees =
        "A story that runs under: somebody of it can be read (half of head and chest clear, no more than 2 "
        "stops under, blur at most 6 % of the head) for 40 % of the time, and they are never all gone for "
        "more than 6 s.",
    .why = "A story that cannot be followed under the other is no story when it comes up.",
    .example =
        "story Sale runs under\n"
        "Oda and Tobias exit",
    .better =
        "story Sale runs under\n"
        "Oda and Tobias are deep, three-quarter to Table",
    .source = "common practice, no source.",
};

void cold_background(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "cold-background", Explains::rival_over_favoured, report, [&](const Verdict& verdict) {
    return "`" + asked_words(checked, verdict) + "` in " +
           stretch_words(checked, verdict.beat, {verdict.begin, verdict.end}) +
           ", but it cannot be followed: " + shortfall_words(verdict);
  });
}

}  // namespace lensward
