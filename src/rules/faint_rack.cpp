#include <algorithm>

#include "base/quantity_text.h"
#include "optics/focus.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage faint_rack_page{
    .sees =
        "A `racks focus` of a camera on air from one person to another, both in the picture, after which the one left "
        "behind is blurred by less than 0.05 mm, twice the limit of sharpness.",
    .why = "The focus was to carry the eye over, and to the audience both are as sharp as before.",
    .example =
        "camera A, lens 28 mm, stop T5.6\n"
        "camera A focuses on Oda\n"
        "camera A racks focus to Pell",
    .better =
        "camera A, lens 85 mm, stop T2\n"
        "camera A focuses on Oda\n"
        "camera A racks focus to Pell",
    .source = "common practice, no source: 0.025 mm still reads as sharp, twice that as soft.",
};

namespace {

constexpr Millimetres seen_as_soft{0.05};

bool racks(const Checked& checked, Span said_at) {
  const BeatLine* line = line_told_at(checked.plan, said_at);
  return line != nullptr && line->verb == "racks focus";
}

const PersonSeen* seen_at(const Checked& checked, Moment moment, const Target& who) {
  const auto view = std::ranges::lower_bound(checked.attention.views, moment, {}, &View::moment);
  if (view == checked.attention.views.end()) return nullptr;
  const auto seen = std::ranges::find(view->people, PersonId{who.index}, &PersonSeen::person);
  return seen == view->people.end() ? nullptr : &*seen;
}

// Both faces are there to be told apart.
bool both_are_seen(const PersonSeen* left, const PersonSeen* come_to) {
  constexpr Share enough{0.5};
  return left != nullptr && come_to != nullptr && left->head_in_frame > enough && come_to->head_in_frame > enough;
}

void look_at(const Checked& checked, CameraId camera, const Segment<Target>& pull, Reporter& report) {
  const bool of_people = pull.from.kind == Target::Kind::person && pull.to.kind == Target::Kind::person;
  if (!of_people || pull.from == pull.to || pull.end <= pull.begin || !racks(checked, pull.said_at)) return;
  if (on_air(checked.plan, pull.begin) != camera || on_air(checked.plan, pull.end) != camera) return;
  const PersonSeen *left = seen_at(checked, pull.end, pull.from), *come_to = seen_at(checked, pull.end, pull.to);
  if (!both_are_seen(left, come_to) || left->blur >= seen_as_soft) return;
  const int beat = beat_at(checked.plan, pull.begin);
  Finding& finding = report.add(pull.said_at, {beat, pull.end, {pull.from, pull.to}},
                                "the rack from " + quoted(checked, pull.from) + " to " + quoted(checked, pull.to) +
                                    " in " + beat_words(checked, beat) + " leaves " + quoted(checked, pull.from) +
                                    " at a blur of " + text_of(left->blur) + ", limit 0.05 mm: nobody will see it");
  finding.next_step = "take a longer lens or a wider stop, or let something else carry the eye over";
}

}  // namespace

void faint_rack(const Checked& checked, Reporter& report) {
  for (std::size_t i = 0; i < checked.plan.cameras.size(); ++i)
    for (const Segment<Target>& pull : checked.plan.cameras[i].focus_on)
      look_at(checked, CameraId{static_cast<int>(i)}, pull, report);
}

}  // namespace lensward
