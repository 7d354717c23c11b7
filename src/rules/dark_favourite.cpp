#include "base/quantity_text.h"
#include "emphasis/gates.h"
#include "rules/featured.h"
#include "rules/next_step.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage dark_favourite_page{
    .sees = "The favoured face is more than 2 stops under what the stop asks for, for half a second.",
    .why = "A face that dark is a silhouette, and the audience looks where there is light.",
    .example =
        "light Key, aims at Table\n"
        "favour Pell\n"
        "Pell is by the Yard-Door",
    .better =
        "light Key, aims at Pell\n"
        "favour Pell\n"
        "Pell is by the Yard-Door",
    .source = "common practice, no source: skin two stops under reads as shadow.",
};

namespace {

constexpr double stops_under = 2;

}  // namespace

void dark_favourite(const Checked& checked, Reporter& report) {
  FrameRule rule;
  rule.whom = Whom::favoured_only;
  rule.how_bad = [&](const Slice& slice, const PersonSeen& seen) {
    const double under = -seen_exposure(checked.plan, *slice.view, seen).value;
    return seen.head_visible.value > 0.25 && under > stops_under ? under : 0;
  };
  rule.message = [&](const Featured& one, const Slice& slice, const PersonSeen& seen, Milliseconds together) {
    const Stops under = -seen_exposure(checked.plan, *slice.view, seen);
    return quoted(checked, one.who) + " is favoured but " + text_of(under) + " under " + at_words(slice.begin) +
           " in " + beat_words(checked, one.beat) + ", for " + text_of(together) + "; limit 2 stops";
  };
  rule.next_step = [&](const Featured& one, const Slice& slice, const PersonSeen&) {
    return light_step(checked, slice.begin, one.who);
  };
  report_frame_rule(checked, rule, report);
}

}  // namespace lensward
