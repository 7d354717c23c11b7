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
    const std::string stretch = stretch_words(checked, verdict.beat, {verdict.begin, verdict.end});
    const std::string leads = quoted(checked, verdict.favoured) + " leads in most of " + stretch + ", but ";
    const bool at_the_end = first_unmet(verdict).what == "leads at the end by";
    return leads + shortfall_words(verdict) +
           (at_the_end ? ", " + at_words(verdict.decided) : "; " + lead_words(checked, verdict));
  });
}

}  // namespace lensward
