#include <algorithm>
#include <cmath>

#include "base/quantity_text.h"
#include "crew/trades.h"
#include "optics/focus.h"
#include "optics/pinhole.h"
#include "plan/called.h"
#include "plan/lane.h"
#include "plan/state.h"

namespace lensward {
namespace {

// What is sharp where the lens is focused now. Nothing when it is focused nearer than lenses are.
std::optional<SharpRange> range_at(const Plan& plan, const CameraState& state) {
  if (to_millimetres(state.focus) <= state.focal || state.stop.value <= 0) return std::nullopt;
  return sharp_range(state.focal, state.stop, plan.settings.sharp_circle, state.focus);
}

Entry far_entry(const std::optional<SharpRange>& range) {
  if (!range) return {};
  return range->far ? Entry{*range->far} : Entry{std::string("infinity")};
}

CrewTable set_of(const Plan& plan) {
  CrewTable table{"set",
                  "As the scene opens",
                  "",
                  {{"camera", "camera", 14},
                   {"gate", "gate", 30},
                   {"focal_mm", "lens", 16},
                   {"stop_t", "stop", 12},
                   {"support", "support", 22},
                   {"height_m", "lens height", 24},
                   {"iso", "ISO", 12},
                   {"shutter_deg", "shutter", 16},
                   {"frame_rate", "frames a second", 16}},
                  {}};
  for (std::size_t i = 0; i < plan.stage.cameras.size(); ++i) {
    const CameraId camera{static_cast<int>(i)};
    const CameraState state = camera_at(plan, camera, {});
    table.rows.push_back({plan.stage.cameras[i].name, text_of(state.gate_width) + " by " + text_of(state.gate_height),
                          state.focal, "T" + number(state.stop.value, 1), support_words(plan, camera),
                          Metres{state.at.z}, number(plan.settings.sensitivity, 0), plan.settings.shutter,
                          number(plan.settings.frame_rate, 3)});
  }
  return table;
}

// The distance along the lens axis, which is what the focus ring and the depth of field are about.
std::optional<Metres> distance_of(const Plan& plan, const CameraState& state, const Target& target, Moment moment) {
  const std::optional<Vec3> point = sharp_point_of(plan, target, moment);
  if (!point) return std::nullopt;
  const double depth = dot(*point - state.at, axes_of(pinhole_of(state)).forward);
  return depth > 0 ? std::optional(Metres{depth}) : std::nullopt;
}

void add_pull(const Plan& plan, int index, Span said_at, Moment begin, Moment end, const Target& on, CrewTable& table) {
  const CameraId camera{index};
  const CameraState before = camera_at(plan, camera, begin), after = camera_at(plan, camera, end);
  if (said_at == Span{} || std::abs(after.focus.value - before.focus.value) < 0.02) return;
  const auto range = range_at(plan, after);
  const double seconds = to_seconds(end - begin).value;
  const double dioptres = std::abs(1 / before.focus.value - 1 / after.focus.value);
  table.rows.push_back({OnTheClock{begin}, plan.stage.cameras[static_cast<std::size_t>(index)].name,
                        cue_words(plan, begin), on.kind == Target::Kind::nothing ? std::string() : called(plan, on),
                        before.focus, after.focus, end > begin ? Entry{end - begin} : Entry{},
                        seconds > 0 ? Entry{number(dioptres / seconds, 2)} : Entry{},
                        range ? Entry{Metres{after.focus.value - range->near.value}} : Entry{},
                        range && range->far ? Entry{Metres{range->far->value - after.focus.value}} : Entry{}});
}

CrewTable pulls(const Plan& plan) {
  CrewTable table{"pulls",
                  "Pulls",
                  "Distances along the lens axis from the entrance pupil: add what lies between it and the focal-plane "
                  "mark. The last two say how far they may be off, toward the lens and away from it, and stay sharp.",
                  {{"at_s", "at", 12},
                   {"camera", "camera", 14},
                   {"cue", "called on", 38},
                   {"to", "to", 18},
                   {"from_m", "from", 17},
                   {"to_m", "to", 17},
                   {"over_s", "over", 11},
                   {"dioptres_per_s", "D/s", 9},
                   {"forgives_near_m", "forgives near", 16},
                   {"forgives_far_m", "and far", 15}},
                  {}};
  for (std::size_t i = 0; i < plan.cameras.size(); ++i) {
    const int index = static_cast<int>(i);
    for (const Segment<Target>& on : plan.cameras[i].focus_on)
      if (on.to.kind != Target::Kind::nothing) add_pull(plan, index, on.said_at, on.begin, on.end, on.to, table);
    for (const Segment<Metres>& focus : plan.cameras[i].focus)
      if (stepped(plan.cameras[i].focus_on, focus.end, Target{}).kind == Target::Kind::nothing)
        add_pull(plan, index, focus.said_at, focus.begin, focus.end, {}, table);
  }
  std::ranges::stable_sort(table.rows, {},
                           [](const std::vector<Entry>& row) { return std::get<OnTheClock>(row.front()).moment; });
  return table;
}

CrewTable distances(const Plan& plan) {
  CrewTable table{"distances",
                  "Distances at every mark",
                  "To the eyes, as they come to rest, through the camera on air.",
                  {{"at_s", "at", 12},
                   {"mark", "mark", 12},
                   {"person", "who", 26},
                   {"distance_m", "distance", 24},
                   {"focus_m", "focus then", 24},
                   {"near_m", "sharp from", 24},
                   {"far_m", "to", 24},
                   {"sharp", "", 14}},
                  {}};
  std::vector<const Mark*> marks;
  for (const Mark& mark : plan.marks)
    if (!mark.name.empty()) marks.push_back(&mark);
  std::ranges::stable_sort(marks, {}, [](const Mark* mark) { return mark->reached; });
  for (const Mark* mark : marks) {
    const CameraState state = camera_at(plan, on_air(plan, mark->reached), mark->reached);
    const auto distance = distance_of(plan, state, {Target::Kind::person, mark->person.index, {}}, mark->reached);
    const auto range = range_at(plan, state);
    if (!distance || !range) continue;
    const bool sharp = *distance >= range->near && (!range->far || *distance <= *range->far);
    table.rows.push_back({OnTheClock{mark->reached}, mark->name, called(plan, mark->person), *distance, state.focus,
                          range->near, far_entry(range), std::string(sharp ? "sharp" : "soft")});
  }
  return table;
}

}  // namespace

CrewSheet camera_sheet(const Plan& plan) {
  CrewSheet sheet{CrewSheet::For::camera, "Camera and focus", {}, {}, {}};
  if (plan.cameras.empty()) return sheet;
  add(set_of(plan), sheet);
  add(pulls(plan), sheet);
  add(distances(plan), sheet);
  add_notes(plan, {"camera", "focus"}, sheet);
  return sheet;
}

}  // namespace lensward
