#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage close_call_page{
    .sees = "A `favour` in which the favoured one leads, but by less than the margin asked for.",
    .why =
        "A lead this small is lost to a light that drifts, a foot off the mark, or a better performance "
        "beside it.",
    .example =
        "favour Tobias, outright\n"
        "Tobias and Oda are at foreground, frontal\n"
        "Tobias: \"Go on.\"",
    .better =
        "favour Tobias, just\n"
        "Tobias and Oda are at foreground, frontal\n"
        "Tobias: \"Go on.\"",
    .source = "common practice, no source: 8 points is about one cue of the weaker half given up.",
};

void close_call(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "close-call", Explains::rival_over_favoured, report, [&](const Verdict& verdict) {
    const Points lead = verdict.favoured_points - verdict.rival_points;
    return quoted(checked, verdict.favoured) + " leads " + quoted(checked, verdict.rival) + " by only " +
           text_of(lead) + (lead.value < 1.5 && lead.value >= 0.5 ? " point " : " points ") +
           at_words(verdict.decided) + " of " + stretch_words(checked, verdict.beat, {verdict.begin, verdict.end}) +
           ", " + text_of(verdict.margin) + " asked";
  });
}

}  // namespace lensward
