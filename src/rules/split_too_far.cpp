#include <algorithm>
#include <cmath>

#include "base/quantity_text.h"
#include "optics/focus.h"
#include "rules/cuts.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage split_too_far_page{
    .sees =
        "A `splits focus` of a camera on air after which, while the focus stays, one of the two in the picture is "
        "blurred by more than 0.025 mm (`default sharp-circle`), for half a second.",
    .why = "Neither is sharp, which looks like a focus puller's mistake and not like a choice.",
    .example =
        "camera A, lens 85 mm, stop T2\n"
        "camera A splits focus between Oda and Pell",
    .better =
        "camera A, lens 35 mm, stop T8\n"
        "camera A splits focus between Oda and Pell",
    .source =
        "0.025 mm: circle of confusion usual for the 35 mm motion-picture frame (American Cinematographer Manual, "
        "1/1000 inch; from memory).",
};

namespace {

constexpr Milliseconds for_at_least{500};

// From when the focus has arrived to when it is told otherwise.
Stretch lasts(const Checked& checked, const FocusSplit& split) {
  const CameraTrack& track = checked.plan.cameras[static_cast<std::size_t>(split.camera.index)];
  Moment end = checked.plan.duration();
  for (const auto& set : track.focus)
    if (set.begin >= split.end && set.said_at != split.said_at) end = std::min(end, set.begin);
  for (const auto& pull : track.focus_on)
    if (pull.begin >= split.end && pull.to.kind != Target::Kind::nothing) end = std::min(end, pull.begin);
  return {split.end, end};
}

// Of the two the blurred one; nothing when one of them is not to be seen.
Millimetres worst_blur(const FocusSplit& split, const Slice& slice) {
  if (slice.view->camera != split.camera) return {};
  const PersonSeen *one = person_in(*slice.view, split.one), *other = person_in(*slice.view, split.other);
  if (one == nullptr || other == nullptr || !is_plain(*one) || !is_plain(*other)) return {};
  return std::max(one->blur, other->blur);
}

// The widest full stop that holds two distances with the focus between them; nothing up to T22.
std::optional<FNumber> stop_that_holds(const FocusSplit& split, const View& view, Millimetres circle) {
  const PersonSeen *one = person_in(view, split.one), *other = person_in(view, split.other);
  if (one == nullptr || other == nullptr) return std::nullopt;
  const Metres focus = split_focus(one->distance, other->distance);
  for (const double stop : {2.0, 2.8, 4.0, 5.6, 8.0, 11.0, 16.0, 22.0}) {
    const Millimetres blur = std::max(blur_disc(view.state.focal, FNumber{stop}, focus, one->distance),
                                      blur_disc(view.state.focal, FNumber{stop}, focus, other->distance));
    if (stop > view.state.stop.value && blur <= circle) return FNumber{stop};
  }
  return std::nullopt;
}

void look_at(const Checked& checked, const FocusSplit& split, Reporter& report) {
  const Millimetres circle = checked.plan.settings.sharp_circle;
  const Window window = window_of(checked.playback(), lasts(checked, split));
  const auto soft = [&](const Slice& slice) { return worst_blur(split, slice) > circle; };
  const Slice* when = first(window, soft);
  if (when == nullptr || together(window, soft) < for_at_least) return;
  const auto stop = stop_that_holds(split, *when->view, circle);
  const int beat = beat_at(checked.plan, split.end);
  Finding& finding =
      report.add(split.said_at, {beat, when->begin, {split.one, split.other}},
                 "the focus split between " + quoted(checked, split.one) + " and " + quoted(checked, split.other) +
                     " in " + beat_words(checked, beat) + " leaves them at a blur of " +
                     text_of(worst_blur(split, *when)) + " " + at_words(when->begin) + ", limit " + text_of(circle));
  finding.next_step = stop ? "T" + number(stop->value, 1) + " would hold both, or bring them nearer to one another"
                           : "no stop to T22 holds both: bring them nearer to one another, or take a wider lens";
}

}  // namespace

void split_too_far(const Checked& checked, Reporter& report) {
  for (const FocusSplit& split : checked.plan.focus_splits) look_at(checked, split, report);
}

}  // namespace lensward
