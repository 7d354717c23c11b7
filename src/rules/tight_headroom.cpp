#include "base/quantity_text.h"
#include "rules/featured.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage tight_headroom_page{
    .sees =
        "The top of the frame cuts the favoured or speaking head for half a second, unless the head is 40 % "
        "of the frame's height or more.",
    .why = "A head cut by accident looks like a camera set for somebody shorter.",
    .example =
        "camera A, height 1.2 m, aims at Table\n"
        "favour Oda\n"
        "Oda is at foreground",
    .better =
        "camera A, height 1.5 m, aims at Oda\n"
        "favour Oda\n"
        "Oda is at foreground",
    .source =
        "Brown, Cinematography (tops of heads may be cropped in close-ups, else a little headroom); 40 %: a "
        "medium close-up with the eyes on the upper third.",
};

namespace {

constexpr double closer_sizes = 0.4;
// A hair's breadth is nobody's headroom.
constexpr double cut_at_least = 0.005;

}  // namespace

void tight_headroom(const Checked& checked, Reporter& report) {
  FrameRule rule;
  rule.how_bad = [](const Slice&, const PersonSeen& seen) {
    const bool wide = seen.head_height.value > 0 && seen.head_height.value < closer_sizes;
    const bool partly = seen.head_in_frame.value > 0.1;
    const double cut = -seen.head_box.top;
    return wide && partly && cut > cut_at_least ? cut : 0;
  };
  rule.message = [&](const Featured& one, const Slice& slice, const PersonSeen& seen, Milliseconds together) {
    const Share cut{-seen.head_box.top / seen.head_height.value};
    return "the frame's top cuts " + text_of(cut) + " of the head of " + quoted(checked, one.who) + " " +
           at_words(slice.begin) + " in " + beat_words(checked, one.beat) + ", for " + text_of(together) +
           "; limit 0 %";
  };
  rule.next_step = [&](const Featured& one, const Slice&, const PersonSeen&) {
    return "try `camera frames " + name_of(checked.plan, one.who) + " at frame centre, headroom 5%`";
  };
  report_frame_rule(checked, rule, report);
}

}  // namespace lensward
