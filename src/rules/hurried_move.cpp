#include <algorithm>
#include <cmath>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "plan/lane.h"
#include "rules/next_step.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage hurried_move_page{
    .sees =
        "A pan or tilt of a camera on air by a quarter of the frame or more, in which what stands still crosses the "
        "frame's width in under 3 s. A camera that keeps somebody is let be, and so is a move told `briskly`, which "
        "means a whip, unless "
        "it is given so long that it is none: a second for the frame's width.",
    .why = "The background strobes and nobody can look at it, so the move says hurry where nobody meant to.",
    .example = "camera A pans to Pell, over 0.5 s",
    .better = "camera A pans to Pell, over 2.5 s",
    .source =
        "3 s is common practice, no source; at 24 frames a second and 180 degrees strobing begins to show under 7 s "
        "(American Cinematographer Manual, panning speeds; from memory).",
};

namespace {

constexpr double slow_enough = 3, no_whip = 1, worth_looking_at = 0.25;

// Frame widths that what stands still goes by.
double widths_panned(const CameraState& before, const CameraState& after) {
  const Pinhole lens = pinhole_of(before);
  const double turned = arc_cosine(dot(axes_of(lens).forward, axes_of(pinhole_of(after)).forward)).value;
  return turned / angle_of_view(before.gate_width, before.focal).value;
}

bool is_a_whip(const Checked& checked, Span said_at, Seconds crossing) {
  const BeatLine* line = line_told_at(checked.plan, said_at);
  return line != nullptr && line->text.find("briskly") != std::string::npos &&
         (!line->length_told || crossing.value < no_whip);
}

void look_at(const Checked& checked, CameraId camera, const Segment<Vec2>& aim, Reporter& report) {
  if (aim.end <= aim.begin || aim.said_at.empty() || on_air(checked.plan, aim.begin) != camera) return;
  const CameraTrack& track = checked.plan.cameras[static_cast<std::size_t>(camera.index)];
  const auto* keeps = segment_at(track.keeps, aim.begin);
  if (keeps != nullptr && keeps->begin <= aim.begin && keeps->to.kind != Target::Kind::nothing) return;
  const double widths =
      widths_panned(camera_at(checked.plan, camera, aim.begin), camera_at(checked.plan, camera, aim.end));
  const Seconds took = to_seconds(aim.end - aim.begin);
  const Seconds crossing{widths > 0 ? took.value / widths : slow_enough};
  if (widths < worth_looking_at || crossing.value >= slow_enough || is_a_whip(checked, aim.said_at, crossing)) return;
  const int beat = beat_at(checked.plan, aim.begin);
  const Milliseconds enough{static_cast<std::int64_t>(std::ceil(slow_enough * widths * 10)) * 100};
  Finding& finding = report.add(aim.said_at, {beat, aim.begin, {}},
                                camera_words(checked, camera) + " turns by " + number(widths * 100, 0) +
                                    " % of the frame's width in " + text_of(aim.end - aim.begin) + " in " +
                                    beat_words(checked, beat) + ": what stands still is across the frame in " +
                                    text_of(Milliseconds{std::llround(crossing.value * 1000)}) + ", limit 3 s");
  give_it_time(checked, aim.said_at, enough, finding);
  finding.next_step += "; or write `briskly` when a whip is meant";
}

}  // namespace

void hurried_move(const Checked& checked, Reporter& report) {
  for (std::size_t i = 0; i < checked.plan.cameras.size(); ++i)
    for (const Segment<Vec2>& aim : checked.plan.cameras[i].aim)
      look_at(checked, CameraId{static_cast<int>(i)}, aim, report);
}

}  // namespace lensward
