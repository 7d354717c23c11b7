#include "base/quantity_text.h"
#include "rules/featured.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage soft_favourite_page{
    .sees =
        "Blur on the favoured face wider than the sharp circle (0.025 mm on the gate) for half a second "
        "together.",
    .why = "The eye leaves a soft face for a sharp one, and the focus puller had no order to hold it.",
    .example =
        "camera A, lens 85 mm, stop T1.4, focus Oda\n"
        "favour Wren\n"
        "Wren is deep",
    .better =
        "camera A, lens 85 mm, stop T1.4, focus Wren\n"
        "favour Wren\n"
        "Wren is deep",
    .source =
        "0.025 mm: the usual circle of confusion for 35 mm film, as printed in the American Cinematographer "
        "Manual.",
};

void soft_favourite(const Checked& checked, Reporter& report) {
  FrameRule rule;
  rule.whom = Whom::favoured_only;
  rule.how_bad = [&](const Slice&, const PersonSeen& seen) {
    const bool shown = seen.head_visible.value > 0.25;
    return shown && seen.blur > checked.plan.settings.sharp_circle ? seen.blur.value : 0;
  };
  rule.message = [&](const Featured& one, const Slice& slice, const PersonSeen& seen, Milliseconds together) {
    return quoted(checked, one.who) + " is favoured but soft for " + text_of(together) + " in " +
           beat_words(checked, one.beat) + ": blur " + text_of(seen.blur) + " " + at_words(slice.begin) + ", limit " +
           text_of(checked.plan.settings.sharp_circle);
  };
  rule.next_step = [&](const Featured& one, const Slice&, const PersonSeen&) {
    return "try `camera focuses on " + name_of(checked.plan, one.who) + "`";
  };
  report_frame_rule(checked, rule, report);
}

}  // namespace lensward
