#include <algorithm>

#include "base/quantity_text.h"
#include "rules/featured.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage soft_favourite_page{
    .sees =
        "Blur on the favoured face wider than the sharp circle (0.025 mm on the gate) for half a second "
        "together. While a pull to that face is on its way it counts for nothing: `pull-too-quick` and `slow-landing` "
        "speak of that.",
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

namespace {

bool is_being_pulled_to(const Plan& plan, const View& view, PersonId person) {
  if (!view.camera.known()) return false;
  const Target who{Target::Kind::person, person.index, {}};
  const Lane<Target>& pulls = plan.cameras[static_cast<std::size_t>(view.camera.index)].focus_on;
  return std::any_of(pulls.begin(), pulls.end(), [&](const Segment<Target>& pull) {
    return pull.to == who && pull.begin <= view.moment && view.moment < pull.end;
  });
}

}  // namespace

void soft_favourite(const Checked& checked, Reporter& report) {
  FrameRule rule;
  rule.whom = Whom::favoured_only;
  rule.how_bad = [&](const Slice& slice, const PersonSeen& seen) {
    const bool shown = seen.head_visible.value > 0.25 && !is_being_pulled_to(checked.plan, *slice.view, seen.person);
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
