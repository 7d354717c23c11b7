#include <algorithm>
#include <cmath>

#include "base/quantity_text.h"
#include "crew/trades.h"
#include "lens/light.h"
#include "optics/focus.h"
#include "optics/light.h"
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

// Whom the focus is on then, as ordered; empty when it is at a distance told.
std::string held_words(const Plan& plan, CameraId camera, Moment moment) {
  const Target on = stepped(plan.cameras[static_cast<std::size_t>(camera.index)].focus_on, moment, Target{});
  return on.kind == Target::Kind::nothing ? "" : called(plan, on);
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
                   {"frame_rate", "frames a second", 16},
                   {"focus_on", "focus on", 18},
                   {"focus_m", "at", 18}},
                  {}};
  for (std::size_t i = 0; i < plan.stage.cameras.size(); ++i) {
    const CameraId camera{static_cast<int>(i)};
    const CameraState state = camera_at(plan, camera, {});
    table.rows.push_back({plan.stage.cameras[i].name, text_of(state.gate_width) + " by " + text_of(state.gate_height),
                          state.focal, "T" + number(state.stop.value, 1), support_words(plan, camera),
                          Metres{state.at.z}, number(plan.settings.sensitivity, 0), plan.settings.shutter,
                          number(plan.settings.frame_rate, 3), held_words(plan, camera, {}), state.focus});
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

// How far behind the focus it is still sharp.
Entry forgiven_far(const std::optional<SharpRange>& range, Metres focus) {
  if (!range) return {};
  return range->far ? Entry{Metres{range->far->value - focus.value}} : Entry{std::string("infinity")};
}

void add_pull(const Plan& plan, int index, Span said_at, Moment begin, Moment end, const Target& on, CrewTable& table) {
  const CameraId camera{index};
  // At an instant the lens has been changed already: what it was is a moment before.
  const CameraState before = camera_at(plan, camera, end > begin ? begin : begin - Milliseconds{1}),
                    after = camera_at(plan, camera, end);
  const bool opens = end == begin && begin <= Moment{};
  if (opens || said_at == Span{} || std::abs(after.focus.value - before.focus.value) < 0.02) return;
  const auto range = range_at(plan, after);
  const double seconds = to_seconds(end - begin).value;
  const double dioptres = std::abs(1 / before.focus.value - 1 / after.focus.value);
  table.rows.push_back(
      {OnTheClock{begin}, plan.stage.cameras[static_cast<std::size_t>(index)].name, cue_words(plan, begin),
       on.kind == Target::Kind::nothing ? std::string() : called(plan, on), before.focus, after.focus,
       end > begin ? Entry{end - begin} : Entry{}, seconds > 0 ? Entry{number(dioptres / seconds, 2)} : Entry{},
       range ? Entry{Metres{after.focus.value - range->near.value}} : Entry{}, forgiven_far(range, after.focus)});
}

CrewTable pulls(const Plan& plan) {
  CrewTable table{"pulls",
                  "Pulls",
                  "Each begins at its time, on its cue. Distances run along the lens axis from the entrance pupil: add "
                  "what lies between it and the focal-plane mark. The last two say how far they may be off, toward the "
                  "lens and away from it, and stay sharp. D/s: dioptres a second.",
                  {{"at_s", "at", 12},
                   {"camera", "camera", 14},
                   {"cue", "cue", 40},
                   {"to", "onto", 18},
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
  put_in_time(table);
  return table;
}

// On somebody by order, and no pull under way.
bool stays_with_them(const CameraTrack& track, Moment moment) {
  const auto pulled = [&](const auto& lane) {
    const auto* now = segment_at(lane, moment);
    return now != nullptr && now->begin <= moment && moment < now->end;
  };
  return stepped(track.focus_on, moment, Target{}).kind != Target::Kind::nothing && !pulled(track.focus_on) &&
         !pulled(track.focus);
}

// Stretches between pulls in which the focus moves because somebody it is on does, or the camera.
std::vector<LensMove> followed(const Plan& plan, CameraId camera) {
  constexpr Milliseconds step{40};
  constexpr double still = 0.002;
  const CameraTrack& track = plan.cameras[static_cast<std::size_t>(camera.index)];
  const std::vector<Moment> jumps = set_up_anew(plan, camera);
  std::vector<LensMove> stretches;
  for (Moment now{}; now + step < plan.duration(); now += step) {
    const Moment next = now + step;
    const bool same = held_words(plan, camera, now) == held_words(plan, camera, next);
    const bool set_up = std::ranges::any_of(jumps, [&](Moment jump) { return now < jump && jump <= next; });
    if (set_up || !same || !stays_with_them(track, now) || !stays_with_them(track, next)) continue;
    const double gone = camera_at(plan, camera, next).focus.value - camera_at(plan, camera, now).focus.value;
    if (std::abs(gone) <= still) continue;
    if (!stretches.empty() && stretches.back().end == now)
      stretches.back().end = next;
    else
      stretches.push_back({now, next});
  }
  return stretches;
}

void add_follows(const Plan& plan, CameraId camera, CrewTable& table) {
  constexpr double worth_telling = 0.05;
  for (const LensMove& stretch : followed(plan, camera)) {
    const Metres from = camera_at(plan, camera, stretch.begin).focus, to = camera_at(plan, camera, stretch.end).focus;
    if (std::abs(to.value - from.value) < worth_telling) continue;
    const double dioptres = std::abs(1 / from.value - 1 / to.value);
    table.rows.push_back({OnTheClock{stretch.begin}, plan.stage.cameras[static_cast<std::size_t>(camera.index)].name,
                          held_words(plan, camera, stretch.begin), from, to, stretch.end - stretch.begin,
                          number(dioptres / to_seconds(stretch.end - stretch.begin).value, 2)});
  }
}

// Zooms, stop pulls, and what a new set-up has on.
CrewTable lens_changes(const Plan& plan) {
  CrewTable table{"lens_changes",
                  "Lens and stop later on",
                  "",
                  {{"at_s", "at", 14},
                   {"camera", "camera", 16},
                   {"cue", "cue", 60},
                   {"from_mm", "lens from", 20},
                   {"to_mm", "to", 20},
                   {"from_t", "stop from", 20},
                   {"to_t", "to", 20},
                   {"over_s", "over", 16}},
                  {}};
  for (std::size_t i = 0; i < plan.cameras.size(); ++i) {
    const CameraId camera{static_cast<int>(i)};
    const auto add_change = [&](Moment begin, Moment end) {
      if (begin <= Moment{}) return;
      const CameraState before = camera_at(plan, camera, begin - Milliseconds{1}), after = camera_at(plan, camera, end);
      if (std::abs((after.focal - before.focal).value) < 0.05 && std::abs(after.stop.value - before.stop.value) < 0.05)
        return;
      std::vector<Entry> row{OnTheClock{begin},
                             plan.stage.cameras[i].name,
                             cue_words(plan, begin),
                             before.focal,
                             after.focal,
                             "T" + number(before.stop.value, 1),
                             "T" + number(after.stop.value, 1),
                             end > begin ? Entry{end - begin} : Entry{}};
      const auto told = [&](const std::vector<Entry>& other) {
        return std::get<OnTheClock>(other[0]).moment == begin &&
               std::get<std::string>(other[1]) == plan.stage.cameras[i].name;
      };
      if (std::ranges::none_of(table.rows, told)) table.rows.push_back(std::move(row));
    };
    for (const Segment<Millimetres>& focal : plan.cameras[i].focal) add_change(focal.begin, focal.end);
    for (const Segment<FNumber>& stop : plan.cameras[i].stop) add_change(stop.begin, stop.end);
  }
  put_in_time(table);
  return table;
}

CrewTable follows(const Plan& plan) {
  CrewTable table{"follows",
                  "Between pulls the focus stays with them",
                  "Where that moves it by 5 cm or more: they move, or the camera does.",
                  {{"at_s", "at", 14},
                   {"camera", "camera", 16},
                   {"with", "with", 40},
                   {"from_m", "from", 26},
                   {"to_m", "to", 26},
                   {"over_s", "over", 20},
                   {"dioptres_per_s", "D/s", 16}},
                  {}};
  for (std::size_t i = 0; i < plan.cameras.size(); ++i) add_follows(plan, CameraId{static_cast<int>(i)}, table);
  put_in_time(table);
  return table;
}

// With what lies between the entrance pupil and the focal plane, where a lens of this focal length tells it.
Entry from_plane(const Plan& plan, const CameraState& state, Metres distance) {
  const auto& lenses = plan.stage.lenses;
  const auto lens = std::ranges::find_if(
      lenses, [&](const Lens& one) { return one.pupil && abs(one.focal - state.focal).value < 0.05; });
  return lens == lenses.end() ? Entry{} : Entry{distance + *lens->pupil};
}

CrewTable distances(const Plan& plan) {
  CrewTable table{
      "distances",
      "Distances at every mark",
      "To the eyes, as they come to rest, along the lens axis of the camera on air; from its entrance pupil, and from "
      "the focal plane where the lens's `pupil` is told. Sharp is a blur under " +
          text_of(plan.settings.sharp_circle) + " on the gate.",
      {{"at_s", "at", 12},
       {"mark", "mark", 12},
       {"person", "who", 26},
       {"distance_m", "distance", 22},
       {"from_plane_m", "from the plane", 26},
       {"focus_m", "focus then", 22},
       {"near_m", "sharp from", 22},
       {"far_m", "to", 22},
       {"sharp", "then", 14}},
      {}};
  for (const Mark* mark : marks_in_order(plan)) {
    const CameraState state = camera_at(plan, on_air(plan, mark->reached), mark->reached);
    const auto distance = distance_of(plan, state, {Target::Kind::person, mark->person.index, {}}, mark->reached);
    const auto range = range_at(plan, state);
    if (!distance || !range) continue;
    const bool sharp = *distance >= range->near && (!range->far || *distance <= *range->far);
    table.rows.push_back({OnTheClock{mark->reached}, mark->name, called(plan, mark->person), *distance,
                          from_plane(plan, state, *distance), state.focus, range->near, far_entry(range),
                          std::string(sharp ? "sharp" : "soft")});
  }
  return table;
}

// Whole stops taken off, in densities of 0.3 a stop (log10 2 = 0.301); what is less than a stop over is let be.
std::string density(Stops over) {
  const int stops = static_cast<int>(std::floor(over.value + 1e-9));
  if (stops < 1) return "none";
  return "ND " + number(0.3 * stops, 1) + " (" + text_of(Stops{static_cast<double>(stops)}) + ")";
}

// As each beat begins, of whom the focus is on.
CrewTable exposure(const Plan& plan) {
  CrewTable table{"exposure",
                  "Light and neutral density",
                  "The light on the face that the focus is on as the beat begins, against what the stop asks for; the "
                  "density that takes whole stops off, where it is over.",
                  {{"at_s", "at", 16},
                   {"beat", "beat", 30},
                   {"camera", "camera", 16},
                   {"person", "face of", 26},
                   {"lux", "light", 20},
                   {"stops", "over or under", 24},
                   {"nd", "density", 34}},
                  {}};
  const Settings& settings = plan.settings;
  for (const Beat& beat : plan.beats) {
    const CameraId camera = on_air(plan, beat.begin);
    const Target on = stepped(plan.cameras[static_cast<std::size_t>(camera.index)].focus_on, beat.begin, Target{}, 0.0);
    if (on.kind != Target::Kind::person || !person_at(plan, PersonId{on.index}, beat.begin).present) continue;
    const Lux light = face_light(plan, PersonId{on.index}, beat.begin).sum();
    const Lux asks = asked_for(camera_at(plan, camera, beat.begin).stop, settings.sensitivity,
                               exposure_time(settings.shutter, settings.frame_rate));
    const Stops over = stops_between(light.value, asks.value);
    table.rows.push_back({OnTheClock{beat.begin}, beat.name,
                          plan.stage.cameras[static_cast<std::size_t>(camera.index)].name, called(plan, on), light,
                          over, density(over)});
  }
  return table;
}

}  // namespace

CrewSheet camera_sheet(const Plan& plan) {
  CrewSheet sheet{CrewSheet::For::camera, "Camera and focus", {}, {}, {}};
  if (plan.cameras.empty()) return sheet;
  add(set_of(plan), sheet);
  add(lens_changes(plan), sheet);
  add(pulls(plan), sheet);
  add(follows(plan), sheet);
  add(distances(plan), sheet);
  add(camera_moves(plan), sheet);
  add(exposure(plan), sheet);
  add_notes(plan, sheet);
  return sheet;
}

}  // namespace lensward
