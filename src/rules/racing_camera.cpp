#include <algorithm>

#include "base/quantity_text.h"
#include "rules/cuts.h"
#include "rules/next_step.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage racing_camera_page{
    .sees =
        "A camera on air that goes faster than what it is told to stand on is worked: slider 1 m/s; dolly, jib and "
        "crane 2 m/s; shoulder and stabiliser 2.5 m/s; and one told `on sticks` or `on tripod` that goes at all. What "
        "nobody told is let be.",
    .why = "It will arrive late or shake, and somebody runs with a heavy thing beside people who look elsewhere.",
    .example =
        "camera A, on dolly, at (3, -1) m\n"
        "camera A moves to (3, -4) m, over 1 s",
    .better =
        "camera A, on dolly, at (3, -1) m\n"
        "camera A moves to (3, -4) m, over 4 s",
    .source = "common practice, no source: a dolly is pushed at 0.3 to 1 m/s and at 2 m/s at most.",
};

namespace {

double limit_of(Rig rig) {
  switch (rig) {
    case Rig::sticks:
    case Rig::tripod:
      return 0.02;  // what a height told anew may be taken for
    case Rig::slider:
      return 1;
    case Rig::dolly:
    case Rig::jib:
    case Rig::crane:
      return 2;
    case Rig::shoulder:
    case Rig::stabiliser:
      return 2.5;
  }
  return 2.5;
}

struct Fastest {
  double speed = 0;
  Moment at;
};

// Between two pictures of one camera; 0 when it was placed anew in an instant, and so has not gone anywhere.
double speed_between(const View& before, const View& view, CameraId camera) {
  constexpr double an_instant = 0.02;
  const double seconds = to_seconds(view.moment - before.moment).value;
  if (before.camera != camera || view.camera != camera || seconds <= an_instant) return 0;
  return length(view.state.at - before.state.at) / seconds;
}

// While on air.
Fastest fastest_of(const Checked& checked, CameraId camera, Stretch stretch) {
  Fastest fastest;
  const std::vector<View>& views = checked.attention.views;
  for (std::size_t i = 1; i < views.size(); ++i) {
    if (views[i - 1].moment < stretch.begin || views[i].moment > stretch.end) continue;
    const double speed = speed_between(views[i - 1], views[i], camera);
    if (speed > fastest.speed) fastest = {speed, views[i - 1].moment};
  }
  return fastest;
}

void look_at(const Checked& checked, CameraId camera, const Segment<Vec3>& move, Reporter& report) {
  const Support& support = checked.plan.stage.cameras[static_cast<std::size_t>(camera.index)].support;
  if (move.end <= move.begin || support.origin == Origin::assumed) return;
  const Fastest fastest = fastest_of(checked, camera, {move.begin, move.end});
  const double limit = limit_of(support.rig);
  if (fastest.speed <= limit) return;
  const int beat = beat_at(checked.plan, move.begin);
  const bool stands = !gives_way(support.rig) && limit < 0.1;
  const Milliseconds enough{
      static_cast<std::int64_t>(static_cast<double>((move.end - move.begin).count) * fastest.speed / limit / 100 + 1) *
      100};
  Finding& finding = report.add(
      move.said_at, {beat, fastest.at, {}},
      camera_words(checked, camera) + (stands ? " stands on " : " goes at " + number(fastest.speed, 1) + " m/s on ") +
          spelling(support.rig) + " " + (stands ? "and goes from its place " : "") + at_words(fastest.at) + " in " +
          beat_words(checked, beat) + (stands ? "" : ", limit " + number(limit, 1) + " m/s"));
  if (stands)
    finding.next_step = "write what it rides on, such as `on dolly`, or leave it where it is";
  else
    give_it_time(checked, move.said_at, enough, finding);
}

}  // namespace

void racing_camera(const Checked& checked, Reporter& report) {
  for (std::size_t i = 0; i < checked.plan.cameras.size(); ++i)
    for (const Segment<Vec3>& move : checked.plan.cameras[i].place)
      if (!move.said_at.empty()) look_at(checked, CameraId{static_cast<int>(i)}, move, report);
}

}  // namespace lensward
