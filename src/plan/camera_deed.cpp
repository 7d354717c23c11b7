#include "plan/camera_deed.h"

#include "base/angle.h"
#include "plan/state.h"

namespace lensward {

void release(const Performance& performance, Lane<Target>& lane) {
  const Target before = stepped(lane, performance.begin, Target{});
  if (before.kind != Target::Kind::nothing) change(performance, lane, Target{}, Target{}, {});
}

CameraState now(const Performance& performance) {
  return camera_at(performance.building.plan, performance.camera, performance.begin);
}

bool is_on_air(const Performance& performance) {
  return on_air(performance.building.plan, performance.begin) == performance.camera;
}

void occupy_lane(const Performance& performance, LaneKind lane, Milliseconds length, bool gives_way) {
  if (performance.opening) return;
  occupy(
      performance.building, camera_lanes(performance.building, performance.camera), lane,
      {performance.begin, performance.begin + length, gives_way, performance.statement.span,
       "`camera " + performance.building.plan.stage.cameras[static_cast<std::size_t>(performance.camera.index)].name +
           " " + performance.line.verb + "`"});
}

void move_to(const Performance& performance, Vec3 to, Milliseconds length) {
  change(performance, performance.camera_track().place, now(performance).at, to, length);
  release(performance, performance.camera_track().rides);
  occupy_lane(performance, LaneKind::place, length, performance.runs_on);
}

// The lane is kept unwrapped.
void aim_to(const Performance& performance, Degrees pan, Degrees tilt, Milliseconds length) {
  const CameraState state = now(performance);
  const Degrees to = state.pan + wrapped(pan - state.pan);
  CameraTrack& track = performance.camera_track();
  change(performance, track.aim, Vec2{state.pan.value, state.tilt.value}, Vec2{to.value, tilt.value}, length);
  release(performance, track.keeps);
  occupy_lane(performance, LaneKind::aim, length, performance.runs_on);
}

void zoom_to(const Performance& performance, Millimetres focal, Milliseconds length) {
  change(performance, performance.camera_track().focal, now(performance).focal, focal, length);
  release(performance, performance.camera_track().keeps_size);
}

void focus_at(const Performance& performance, Metres distance, Milliseconds length) {
  CameraTrack& track = performance.camera_track();
  change(performance, track.focus, now(performance).focus, distance, length);
  change(performance, track.focus_on, Target{}, Target{}, {});
  occupy_lane(performance, LaneKind::focus, length, true);
}

void focus_with(const Performance& performance, const Target& target, Milliseconds length) {
  CameraTrack& track = performance.camera_track();
  const Segment<Target>* before = segment_at(track.focus_on, performance.begin);
  if (before == nullptr || before->to.kind == Target::Kind::nothing) {
    const Metres focus = now(performance).focus;
    change(performance, track.focus, focus, focus, {});
  }
  change(performance, track.focus_on, before == nullptr ? Target{} : before->to, target, length);
  occupy_lane(performance, LaneKind::focus, length, true);
}

std::optional<Target> target_of_thing(const Performance& performance, const Thing& thing) {
  const std::vector<PersonState> states = states_at(performance.building, performance.begin);
  const PlaceContext context = place_context(performance.building, states, {}, performance.begin);
  return target_of(thing, context, performance.building.findings);
}

std::optional<Target> target_of_place(const Performance& performance, const Place& place) {
  const std::vector<PersonState> states = states_at(performance.building, performance.begin);
  const PlaceContext context = place_context(performance.building, states, {}, performance.begin);
  return aimed_at(place, context, performance.building.findings);
}

const Place* first_place(const Performance& performance) {
  const PlaceWords words = place_words(performance.building, performance.line.clauses, performance.statement.span);
  return words.places.empty() ? nullptr : words.places.front();
}

std::optional<Vec3> point_told(const Performance& performance) {
  std::optional<Target> target;
  if (!performance.line.objects.empty()) {
    target = target_of_thing(performance, performance.line.objects.front());
  } else if (const Place* place = first_place(performance)) {
    target = target_of_place(performance, *place);
  }
  return target ? point_of(performance.building.plan, *target, performance.begin) : std::nullopt;
}

std::optional<Vec2> floor_told(const Performance& performance) {
  PlaceWords words = place_words(performance.building, performance.line.clauses, performance.statement.span);
  words.size.reset();
  words.body = nullptr;
  if (words.places.empty()) return std::nullopt;
  const std::vector<PersonState> states = states_at(performance.building, performance.begin);
  PlaceContext context = context_for(performance.building, states, {}, performance.begin, words.places);
  if (!performance.camera_track().place.empty()) context.coming_from = floor_of(now(performance).at);
  const auto settled = settle(words, context, 0, 1, performance.building.findings);
  return settled ? std::optional{settled->at} : std::nullopt;
}

std::optional<double> measure_told(const Performance& performance, std::string_view word, const Limits& limits) {
  for (const Clause& clause : performance.line.clauses) {
    const auto* measure = std::get_if<MeasureClause>(&clause.body);
    if (measure == nullptr || measure->word != word) continue;
    const auto told = measured(measure->amount, limits, performance.building.findings);
    return told ? std::optional{told->preferred} : std::nullopt;
  }
  return std::nullopt;
}

}  // namespace lensward
