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
    return quoted(checked, verdict.favoured) + " leads through " + stretch + ", but " + shortfall_words(verdict) +
           "; at the closest " + quoted(checked, verdict.rival) + " has " +
           points_words(verdict.rival_points, verdict.favoured_points, verdict.decided);
  });
}

}  // namespace lensward
