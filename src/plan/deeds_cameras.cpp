// Deeds of cameras: set-ups, framing, moves, aim, lens and focus.
#include <algorithm>
#include <cmath>
#include <utility>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "figure/proportions.h"
#include "optics/focus.h"
#include "optics/pinhole.h"
#include "plan/camera_deed.h"
#include "plan/frame_for.h"
#include "plan/state.h"

namespace lensward {
namespace {

constexpr double move_speed = 0.5, boom_speed = 0.2;
constexpr Degrees pan_rate{15};
constexpr Limits height_limits{"height of a camera", Dimension::length, 0.02, 30, "height 1.5 m"};
constexpr Limits angle_limits{"angle of a camera", Dimension::angle, -360, 360, "tilt 5 deg"};
constexpr Limits focal_limits{"focal length", Dimension::length, 0.004, 1.5, "lens 35 mm"};
constexpr Limits headroom_limits{"headroom", Dimension::share, 0, 0.9, "headroom 8%"};
constexpr Limits focus_limits{"focus distance", Dimension::length, 0.05, 1000, "focus 2.4 m"};

void set_optics(const Performance& performance, Milliseconds length) {
  Building& building = performance.building;
  CameraTrack& track = performance.camera_track();
  const CameraState state = now(performance);
  if (const auto* lens = find<LensClause>(performance.line.clauses)) {
    std::optional<Millimetres> focal;
    if (lens->focal) {
      if (const auto told = measured(*lens->focal, focal_limits, building.findings))
        focal = to_millimetres(Metres{*told});
    } else if (lens->lens) {
      const auto id = resolve<Id<Lens>>(building.names, *lens->lens, building.findings);
      if (id) focal = building.plan.stage.lenses[static_cast<std::size_t>(id->index)].focal;
    }
    if (focal) zoom_to(performance, *focal, length);
  }
  if (const auto* stop = find<StopClause>(performance.line.clauses); stop != nullptr && !stop->widest) {
    change(performance, track.stop, state.stop, FNumber{stop->number}, length);
  }
  if (const auto* focus = find<FocusClause>(performance.line.clauses)) {
    if (focus->on) {
      if (const auto target = target_of_thing(performance, *focus->on)) focus_with(performance, *target, length);
    } else if (focus->distance) {
      const auto told = measured(*focus->distance, focus_limits, building.findings);
      if (told) focus_at(performance, Metres{told->preferred}, length);
    }
  }
}

// A set-up: place and height, aim, lens, stop, focus, all at once.
Milliseconds camera_is(const Performance& performance, const Verb&) {
  CameraState state = now(performance);
  const double height = measure_told(performance, "height", height_limits)
                            .value_or(performance.camera_track().place.empty() ? 1.5 : state.at.z);
  const std::optional<Vec2> floor = floor_told(performance);
  if (floor || height != state.at.z) {
    state.at = raised(floor.value_or(floor_of(state.at)), height);
    change(performance, performance.camera_track().place, state.at, state.at, {});
  }
  Degrees pan = state.pan, tilt = state.tilt;
  if (const auto* aims = find<AimsClause>(performance.line.clauses)) {
    const auto target = target_of_place(performance, aims->place);
    const auto point = target ? point_of(performance.building.plan, *target, performance.begin) : std::nullopt;
    if (point) {
      // A point of the floor is aimed at level; people and things are aimed at where they are.
      const bool level = target->kind == Target::Kind::point;
      const Aim aim = aim_at(state.at, level ? raised(floor_of(*point), state.at.z) : *point);
      pan = aim.pan;
      tilt = aim.tilt;
    }
  }
  if (const auto told = measure_told(performance, "pan", angle_limits)) pan = Degrees{*told};
  if (const auto told = measure_told(performance, "tilt", angle_limits)) tilt = Degrees{*told};
  if (pan != state.pan || tilt != state.tilt) aim_to(performance, pan, tilt, {});
  set_optics(performance, {});
  return {};
}

std::optional<Share> across_told(const Performance& performance, const Clauses& clauses) {
  const PlaceWords words = place_words(performance.building, clauses, performance.statement.span);
  for (const Place* place : words.places) {
    if (place->word != Place::Word::frame) continue;
    const double side = place->side == Side::right ? -1 : 1;
    const double from = place->side == Side::right ? 1 : 0;
    switch (place->frame_part) {
      case Place::FramePart::area:
        return Share{from + side * 0.25};
      case Place::FramePart::edge:
        return Share{from + side * 0.08};
      case Place::FramePart::quarter:
        return Share{from + side * 0.25};
      case Place::FramePart::third:
        return Share{from + side / 3};
      case Place::FramePart::centre:
        return Share{0.5};
      case Place::FramePart::percent:
        return place->percent ? std::optional{Share{place->percent->number / 100}} : std::nullopt;
      default:
        break;
    }
  }
  return std::nullopt;
}

std::optional<Framed> framed_thing(const Performance& performance, const Thing& thing, Moment moment) {
  Building& building = performance.building;
  const std::optional<Target> target = target_of_thing(performance, thing);
  const std::optional<Vec3> point = target ? point_of(building.plan, *target, moment) : std::nullopt;
  if (!point) return std::nullopt;
  Framed framed;
  framed.eyes = *point;
  framed.stature = Metres{1.7};
  if (target->kind == Target::Kind::person) {
    framed.person = PersonId{target->index};
    framed.stature = building.plan.stage.people[static_cast<std::size_t>(target->index)].stature;
  }
  return framed;
}

void leave_room_above(Framed& one, std::optional<double> headroom) {
  if (!headroom) return;
  if (one.size) one.size->headroom = Share{*headroom};
  if (!one.size) one.headroom = Share{*headroom};
}

// The line's subjects, and those of the `also frames` lines that follow it: one picture.
std::vector<Framed> framed_told(const Performance& performance, Moment moment) {
  std::vector<Framed> framed;
  std::vector<const DeedLine*> lines{&performance.line};
  const auto joined = performance.building.joined.find(&performance.statement);
  if (joined != performance.building.joined.end()) {
    for (const Statement* statement : joined->second) lines.push_back(&std::get<DeedLine>(statement->body));
  }
  const auto headroom = measure_told(performance, "headroom", headroom_limits);
  for (const DeedLine* line : lines) {
    const auto* size = find<SizeClause>(line->clauses);
    for (const Thing& thing : line->objects) {
      std::optional<Framed> one = framed_thing(performance, thing, moment);
      if (!one) continue;
      if (line->objects.size() == 1) one->across = across_told(performance, line->clauses);
      const bool sized = size != nullptr && (size->on.empty() ? &thing == &line->objects.front()
                                                              : size->on.front().text == thing.name.text);
      if (sized) one->size = sizing_of(performance.building.plan.settings, size->size);
      if (line == &performance.line) leave_room_above(*one, headroom);
      framed.push_back(*one);
    }
  }
  return framed;
}

const Support& support_of(const Performance& performance) {
  return performance.building.plan.stage.cameras[static_cast<std::size_t>(performance.camera.index)].support;
}

void take_answer(const Performance& performance, const CameraState& answer, Milliseconds length) {
  const CameraState before = now(performance);
  if (lensward::length(answer.at - before.at) > 1e-6) move_to(performance, answer.at, length);
  if (answer.focal != before.focal) {
    zoom_to(performance, answer.focal, length);
  }
  aim_to(performance, answer.pan, answer.tilt, length);
}

Milliseconds camera_frames(const Performance& performance, const Verb&) {
  // A line with `also` belongs to the framing above, which has taken it in.
  if (performance.line.also && performance.building.joined_lines.count(&performance.statement) > 0) return {};
  const bool live = is_on_air(performance) && !performance.opening;
  const Milliseconds length = live ? performance.length(Seconds{1}) : performance.told.value_or(Milliseconds{});
  set_optics(performance, find<LengthClause>(performance.line.clauses) != nullptr ? length : Milliseconds{});
  const std::vector<Framed> framed = framed_told(performance, performance.begin + length);
  if (framed.empty()) return length;
  CameraState from = camera_at(performance.building.plan, performance.camera, performance.begin + length);
  const Freedom freedom{gives_way(support_of(performance).rig), false};
  take_answer(performance, frame_for(from, framed, freedom).camera, length);
  const bool focused = find<FocusClause>(performance.line.clauses) != nullptr;
  if (!focused && framed.front().person.known()) {
    focus_with(performance, {Target::Kind::person, framed.front().person.index, {}}, length);
  }
  return length;
}

bool goes_by(const Performance& performance, RouteClause::Kind kind) {
  return std::any_of(performance.line.clauses.begin(), performance.line.clauses.end(), [&](const Clause& clause) {
    const auto* route = std::get_if<RouteClause>(&clause.body);
    return route != nullptr && route->kind == kind;
  });
}

// `keeps south of Oda and Tobias` is a promise about the line between them; it moves nothing.
void keep_side(const Performance& performance) {
  const Place* place = first_place(performance);
  if (place == nullptr || place->word != Place::Word::compass_of || !place->compass) return;
  KeptSide side{performance.camera,        {}, *place->compass, performance.begin, performance.begin,
                performance.statement.span};
  for (const Thing& thing : place->things) {
    if (const auto target = target_of_thing(performance, thing)) side.between.push_back(*target);
  }
  performance.building.plan.kept_sides.push_back(std::move(side));
}

// Sideways of the lens, so that a point at this depth stands at `across` of the picture.
Vec3 shifted_to(const CameraState& camera, Vec3 point, Share across) {
  const LensAxes axes = axes_of(pinhole_of(camera));
  const Vec3 way = point - camera.at;
  const double depth = std::max(dot(way, axes.forward), 0.1);
  const double wanted = (across.value - 0.5) * camera.gate_width.value / camera.focal.value * depth;
  return camera.at + axes.right * (dot(way, axes.right) - wanted);
}

// The camera goes where it holds them, then moves as they do.
void ride(const Performance& performance, const Target& target, std::optional<Share> across, Milliseconds length) {
  CameraTrack& track = performance.camera_track();
  const CameraState state = now(performance);
  const Moment there = performance.begin + length;
  const auto point = point_of(performance.building.plan, target, there);
  if (!point) return;
  const Vec3 at = across ? shifted_to(state, *point, *across) : state.at;
  move_to(performance, at, across ? length : Milliseconds{});
  const Vec3 off = at - *point;
  put(track.rides, {there, there, Target{}, target, Origin::said, performance.statement.span});
  put(track.ride_off, {there, there, off, off, Origin::said, performance.statement.span});
}

void keep_size(const Performance& performance, const Target& target) {
  CameraTrack& track = performance.camera_track();
  const CameraState state = now(performance);
  const auto point = point_of(performance.building.plan, target, performance.begin);
  if (!point) return;
  const Millimetres a_metre{state.focal.value / std::max(0.1, lensward::length(*point - state.at))};
  change(performance, track.keeps_size, Target{}, target, {});
  change(performance, track.size_focal, a_metre, a_metre, {});
  occupy_lane(performance, LaneKind::lens, {}, true);
}

void keep_by_panning(const Performance& performance, const Target& target, Share across, Milliseconds length) {
  CameraTrack& track = performance.camera_track();
  const CameraState state = now(performance);
  const Target before = stepped(track.keeps, performance.begin, Target{});
  change(performance, track.aim, Vec2{state.pan.value, state.tilt.value}, Vec2{state.pan.value, state.tilt.value}, {});
  change(performance, track.keeps, before, target, length);
  change(performance, track.keeps_at, across, across, {});
  occupy_lane(performance, LaneKind::aim, length, true);
}

Milliseconds camera_keeps(const Performance& performance, const Verb&) {
  if (performance.line.objects.empty()) {
    keep_side(performance);
    return {};
  }
  const auto target = target_of_thing(performance, performance.line.objects.front());
  if (!target) return {};
  const Milliseconds length = performance.opening ? Milliseconds{} : performance.length(Seconds{1});
  const std::optional<Share> across = across_told(performance, performance.line.clauses);
  using Kind = RouteClause::Kind;
  const bool tracks = goes_by(performance, Kind::by_tracking), zooms = goes_by(performance, Kind::by_zooming);
  if (tracks) ride(performance, *target, across, length);
  if (zooms) keep_size(performance, *target);
  const bool pans = goes_by(performance, Kind::by_panning) || (!tracks && !zooms);
  if (pans) keep_by_panning(performance, *target, across.value_or(Share{0.5}), length);
  return length;
}

Milliseconds moving_time(const Performance& performance, double path, double speed) {
  return performance.length(Seconds{path / speed});
}

// Where the line sends it `via`, in the order written, at the heights of an even rise.
std::vector<Vec3> way_told(const Performance& performance, Vec3 from, Vec3 goal) {
  std::vector<Vec2> floor{floor_of(from)};
  for (const Clause& clause : performance.line.clauses) {
    const auto* route = std::get_if<RouteClause>(&clause.body);
    if (route == nullptr || route->kind != RouteClause::Kind::via || !route->place) continue;
    const auto target = target_of_place(performance, *route->place);
    const auto point = target ? point_of(performance.building.plan, *target, performance.begin) : std::nullopt;
    if (point) floor.push_back(floor_of(*point));
  }
  floor.push_back(floor_of(goal));
  const double whole = Walk{floor}.length().value;
  std::vector<Vec3> way{from};
  double gone = 0;
  for (std::size_t i = 1; i + 1 < floor.size(); ++i) {
    gone += lensward::length(floor[i] - floor[i - 1]);
    way.push_back(raised(floor[i], from.z + (goal.z - from.z) * (whole > 0 ? gone / whole : 1)));
  }
  way.push_back(goal);
  return way;
}

double length_of(const std::vector<Vec3>& way) {
  double sum = 0;
  for (std::size_t i = 1; i < way.size(); ++i) sum += lensward::length(way[i] - way[i - 1]);
  return sum;
}

// At one speed all along.
void move_along(const Performance& performance, const std::vector<Vec3>& way, Milliseconds length) {
  if (way.size() < 3) return move_to(performance, way.back(), length);
  release(performance, performance.camera_track().rides);
  occupy_lane(performance, LaneKind::place, length, performance.runs_on);
  const double whole = std::max(length_of(way), 1e-9);
  double gone = 0;
  Moment from = performance.begin;
  for (std::size_t i = 1; i < way.size(); ++i) {
    gone += lensward::length(way[i] - way[i - 1]);
    const bool last = i + 1 == way.size();
    const Moment to =
        performance.begin + (last ? length : to_milliseconds(Seconds{to_seconds(length).value * gone / whole}));
    put(performance.camera_track().place, {from, to, way[i - 1], way[i], Origin::said, performance.statement.span});
    from = to;
  }
}

Milliseconds camera_moves(const Performance& performance, const Verb&) {
  const CameraState state = now(performance);
  const std::optional<Vec2> to = floor_told(performance);
  if (!to) return performance.told.value_or(Milliseconds{});
  const double height = measure_told(performance, "height", height_limits).value_or(state.at.z);
  const Vec3 goal = raised(*to, height);
  const std::vector<Vec3> way = way_told(performance, state.at, goal);
  const Milliseconds length = moving_time(performance, length_of(way), move_speed);
  move_along(performance, way, length);
  return length;
}

// `pushes in to medium shot on Tobias`: the picture is the goal, the place follows from it.
Milliseconds push_to_size(const Performance& performance, const ToClause& to) {
  Building& building = performance.building;
  const CameraState state = now(performance);
  std::vector<Framed> framed;
  for (const Name& name : to.on) {
    Thing thing;
    thing.name = name;
    thing.span = name.span;
    if (auto one = framed_thing(performance, thing, performance.begin)) framed.push_back(*one);
  }
  if (framed.empty()) return performance.told.value_or(Milliseconds{});
  framed.front().size = sizing_of(performance.building.plan.settings, *to.size);
  const FrameAnswer answer = frame_for(state, framed, {true, false});
  const Milliseconds length = moving_time(performance, lensward::length(answer.camera.at - state.at), move_speed);
  // Whoever is framed may move meanwhile: the picture is made for where they are at the end.
  const auto point =
      point_of(building.plan, {Target::Kind::person, framed.front().person.index, {}}, performance.begin + length);
  if (point) framed.front().eyes = *point;
  take_answer(performance, frame_for(state, framed, {true, false}).camera, length);
  return length;
}

Milliseconds camera_pushes(const Performance& performance, const Verb& verb) {
  Building& building = performance.building;
  const CameraState state = now(performance);
  const auto* to = find<ToClause>(performance.line.clauses);
  if (to != nullptr && to->size) return push_to_size(performance, *to);
  if (to != nullptr && to->place) return camera_moves(performance, verb);
  const auto* shift = find<ShiftClause>(performance.line.clauses);
  std::optional<Metres> far;
  if (shift != nullptr) far = length_told(shift->amount, Metres{0.7}, building.findings);
  if (!far) return performance.told.value_or(Milliseconds{});
  const double way = far->value * (verb.word == "pulls back" ? -1 : 1);
  const Milliseconds length = moving_time(performance, std::fabs(way), move_speed);
  move_to(performance, state.at + raised(direction_of(state.pan) * way, 0), length);
  return length;
}

// What an arc goes round: what the line names, what the camera keeps, else the point it is focused at.
Vec2 middle_of_arc(const Performance& performance) {
  const CameraState state = now(performance);
  for (const Clause& clause : performance.line.clauses) {
    const auto* route = std::get_if<RouteClause>(&clause.body);
    const bool round = route != nullptr && route->place && route->kind == RouteClause::Kind::round;
    if (!round) continue;
    const auto target = target_of_place(performance, *route->place);
    const auto point = target ? point_of(performance.building.plan, *target, performance.begin) : std::nullopt;
    if (point) return floor_of(*point);
  }
  const Target kept = stepped(performance.camera_track().keeps, performance.begin, Target{});
  if (const auto point = point_of(performance.building.plan, kept, performance.begin)) return floor_of(*point);
  return floor_of(state.at) + direction_of(state.pan) * std::max(state.focus.value, 0.5);
}

// How far round: an angle told, positive to the right of the picture as the camera moves, else to the bearing of a
// place.
std::optional<Degrees> turn_of_arc(const Performance& performance, Vec2 middle) {
  const Vec2 from = floor_of(now(performance).at) - middle;
  const auto* shift = find<ShiftClause>(performance.line.clauses);
  if (shift != nullptr && dimension_of(shift->amount) == Dimension::angle) {
    const auto angle = angle_told(shift->amount, performance.building.findings);
    if (!angle) return std::nullopt;
    const bool left = shift->place && shift->place->side == Side::left;
    return left ? *angle : -*angle;
  }
  const std::optional<Vec2> to = floor_told(performance);
  if (!to || length(*to - middle) < 1e-3 || length(from) < 1e-3) return std::nullopt;
  return wrapped(bearing_of(*to - middle) - bearing_of(from));
}

// Round its middle at the distance it has, turned to it all the way: in stretches of 5 degrees at most.
Milliseconds camera_arcs(const Performance& performance, const Verb&) {
  const CameraState state = now(performance);
  const Vec2 middle = middle_of_arc(performance);
  const std::optional<Degrees> turn = turn_of_arc(performance, middle);
  const double radius = length(floor_of(state.at) - middle);
  if (!turn || radius < 0.05) return performance.told.value_or(Milliseconds{});
  constexpr double circle = 2 * pi;
  const double path = radius * circle * abs(*turn).value / 360;
  const Milliseconds took = performance.length(Seconds{path / move_speed});
  occupy_lane(performance, LaneKind::place, took, performance.runs_on);
  occupy_lane(performance, LaneKind::aim, took, performance.runs_on);
  release(performance, performance.camera_track().rides);
  release(performance, performance.camera_track().keeps);
  const int steps = std::max(1, static_cast<int>(std::ceil(abs(*turn).value / 5)));
  const Degrees start = bearing_of(floor_of(state.at) - middle);
  const auto at = [&](int step) {
    return raised(middle + direction_of(start + *turn * (static_cast<double>(step) / steps)) * radius, state.at.z);
  };
  const auto aim = [&](int step) {
    return Vec2{(state.pan + *turn * (static_cast<double>(step) / steps)).value, state.tilt.value};
  };
  const auto moment = [&](int step) { return performance.begin + Milliseconds{took.count * step / steps}; };
  CameraTrack& track = performance.camera_track();
  for (int step = 0; step < steps; ++step) {
    const Moment from = moment(step), to = moment(step + 1);
    put(track.place, {from, to, at(step), at(step + 1), Origin::said, performance.statement.span});
    put(track.aim, {from, to, aim(step), aim(step + 1), Origin::said, performance.statement.span});
  }
  return took;
}

// Sideways, beside somebody as they go, or wherever a place is told.
Milliseconds camera_tracks(const Performance& performance, const Verb& verb) {
  const auto* with = find<HandsClause>(performance.line.clauses);
  if (with != nullptr && !with->with.empty()) {
    Thing thing;
    thing.name = with->with.front();
    thing.span = thing.name.span;
    if (const auto target = target_of_thing(performance, thing)) ride(performance, *target, std::nullopt, {});
    return {};
  }
  const auto* shift = find<ShiftClause>(performance.line.clauses);
  const bool along_picture = shift != nullptr && shift->place && shift->place->word == Place::Word::toward &&
                             shift->place->side && shift->place->things.empty();
  if (!along_picture) return camera_moves(performance, verb);
  const auto far = length_told(shift->amount, Metres{0.7}, performance.building.findings);
  if (!far) return {};
  const CameraState state = now(performance);
  const Vec2 forward = direction_of(state.pan);
  const Vec2 right{forward.y, -forward.x};
  const double side = *shift->place->side == Side::right ? 1 : -1;
  const Milliseconds length = moving_time(performance, std::fabs(far->value), move_speed);
  move_to(performance, state.at + raised(right * (far->value * side), 0), length);
  return length;
}

Milliseconds camera_booms(const Performance& performance, const Verb& verb) {
  const CameraState state = now(performance);
  std::optional<double> height;
  const auto* to = find<ToClause>(performance.line.clauses);
  const auto* shift = find<ShiftClause>(performance.line.clauses);
  if (to != nullptr && to->amount) {
    if (const auto told = measured(*to->amount, height_limits, performance.building.findings)) height = told->preferred;
  } else if (shift != nullptr) {
    const auto told = length_told(shift->amount, Metres{0.7}, performance.building.findings);
    if (told) height = state.at.z + told->value * (verb.word == "booms down" ? -1 : 1);
  }
  if (!height) return performance.told.value_or(Milliseconds{});
  const Milliseconds length = moving_time(performance, std::fabs(*height - state.at.z), boom_speed);
  move_to(performance, raised(floor_of(state.at), *height), length);
  return length;
}

// An angle toward a side of the frame, up or down; else whatever is named is brought to the middle.
std::optional<Aim> aim_told(const Performance& performance, const Verb& verb) {
  const CameraState state = now(performance);
  const auto* shift = find<ShiftClause>(performance.line.clauses);
  const bool by_angle = shift != nullptr && dimension_of(shift->amount) == Dimension::angle;
  if (by_angle) {
    const auto angle = angle_told(shift->amount, performance.building.findings);
    if (!angle) return std::nullopt;
    const bool tilts = verb.word.substr(0, 5) == "tilts";
    const bool down = verb.word == "tilts down" || (shift->place && shift->place->word == Place::Word::down);
    if (tilts) return Aim{state.pan, state.tilt + (down ? -*angle : *angle)};
    const bool left = shift->place && shift->place->side == Side::left;
    return Aim{state.pan + (left ? -*angle : *angle), state.tilt};
  }
  const std::optional<Vec3> point = point_told(performance);
  if (!point) return std::nullopt;
  Aim aim = aim_at(state.at, *point);
  // A pan keeps its tilt, and a tilt its pan; `looks at` takes both.
  if (verb.word == "pans") aim.tilt = state.tilt;
  if (verb.word.substr(0, 5) == "tilts") aim.pan = state.pan;
  return aim;
}

Milliseconds camera_pans(const Performance& performance, const Verb& verb) {
  const CameraState state = now(performance);
  const std::optional<Aim> aim = aim_told(performance, verb);
  if (!aim) return performance.told.value_or(Milliseconds{});
  const Degrees angle = std::max(abs(wrapped(aim->pan - state.pan)), abs(aim->tilt - state.tilt));
  const Milliseconds length = performance.length(Seconds{std::max(1.0, angle / pan_rate)});
  aim_to(performance, aim->pan, aim->tilt, length);
  return length;
}

// From one thing to another: there at once, then over.
Milliseconds camera_sweeps(const Performance& performance, const Verb& verb) {
  const auto* route = find<RouteClause>(performance.line.clauses);
  const Milliseconds length = performance.length(Seconds{verb.number});
  if (route == nullptr || !route->to) return length;
  const auto target = target_of_place(performance, *route->to);
  const auto point = target ? point_of(performance.building.plan, *target, performance.begin) : std::nullopt;
  if (!point) return length;
  const Aim aim = aim_at(now(performance).at, *point);
  aim_to(performance, aim.pan, aim.tilt, length);
  return length;
}

// The lens that gives the size told, from where the camera stands.
std::optional<Millimetres> focal_for(const Performance& performance, const ToClause& to) {
  if (!to.size || to.on.empty()) return std::nullopt;
  Thing thing;
  thing.name = to.on.front();
  thing.span = thing.name.span;
  const auto framed = framed_thing(performance, thing, performance.begin);
  if (!framed) return std::nullopt;
  const CameraState state = now(performance);
  const double depth = std::max(dot(framed->eyes - state.at, axes_of(pinhole_of(state)).forward), 0.1);
  return Millimetres{state.gate_height.value * depth /
                     frame_height_for(sizing_of(performance.building.plan.settings, *to.size), framed->stature).value};
}

Milliseconds camera_zooms(const Performance& performance, const Verb& verb) {
  constexpr double usual_zoom = 1.5;
  const Milliseconds length = performance.length(Seconds{verb.number});
  const auto* to = find<ToClause>(performance.line.clauses);
  const Millimetres before = now(performance).focal;
  std::optional<Millimetres> focal;
  if (to != nullptr && to->amount) {
    const auto told = measured(*to->amount, focal_limits, performance.building.findings);
    if (!told) return length;
    focal = to_millimetres(Metres{told->preferred});
  } else if (to != nullptr) {
    focal = focal_for(performance, *to);
  } else {
    const bool out = verb.word == "zooms out";
    focal = Millimetres{out ? before.value / usual_zoom : before.value * usual_zoom};
    assume(performance.building,
           "no lens told for `" + performance.line.verb + "`, so from " + text_of(before) + " to " + text_of(*focal),
           "to " + text_of(*focal), performance.statement.span);
  }
  if (!focal) return length;
  zoom_to(performance, *focal, length);
  occupy_lane(performance, LaneKind::lens, length, performance.runs_on);
  return length;
}

Milliseconds camera_focuses(const Performance& performance, const Verb& verb) {
  const Milliseconds length = performance.opening ? Milliseconds{} : performance.length(Seconds{verb.number});
  const auto* to = find<ToClause>(performance.line.clauses);
  const Place* place = first_place(performance);
  if (place != nullptr) {
    const auto target = target_of_place(performance, *place);
    if (target) focus_with(performance, *target, length);
  } else if (to != nullptr && to->amount) {
    const auto told = measured(*to->amount, focus_limits, performance.building.findings);
    if (told) focus_at(performance, Metres{told->preferred}, length);
  } else if (!performance.line.objects.empty()) {
    const auto target = target_of_thing(performance, performance.line.objects.front());
    if (target) focus_with(performance, *target, length);
  }
  return length;
}

Milliseconds camera_splits(const Performance& performance, const Verb& verb) {
  const Milliseconds length = performance.length(Seconds{verb.number});
  const Place* place = first_place(performance);
  if (place == nullptr || place->things.size() < 2) return length;
  const CameraState state = now(performance);
  const Vec3 forward = axes_of(pinhole_of(state)).forward;
  std::vector<Metres> depths;
  std::vector<Target> targets;
  for (const Thing& thing : place->things) {
    const auto target = target_of_thing(performance, thing);
    if (target) targets.push_back(*target);
    const auto point = target ? sharp_point_of(performance.building.plan, *target, performance.begin) : std::nullopt;
    const double depth = point ? dot(*point - state.at, forward) : 0;
    // Nobody behind the lens can be split to.
    if (depth > 0.1) depths.push_back(Metres{depth});
  }
  if (depths.size() == 2) focus_at(performance, split_focus(depths[0], depths[1]), length);
  if (depths.size() == 2 && targets.size() == 2) {
    performance.building.plan.focus_splits.push_back(
        {performance.camera, targets[0], targets[1], performance.begin + length, performance.statement.span});
  }
  if (depths.size() == 1) focus_at(performance, depths[0], length);
  return length;
}

Milliseconds camera_stops(const Performance& performance, const Verb&) {
  const CameraState state = now(performance);
  CameraTrack& track = performance.camera_track();
  change(performance, track.place, state.at, state.at, {});
  aim_to(performance, state.pan, state.tilt, {});
  change(performance, track.focal, state.focal, state.focal, {});
  return {};
}

Milliseconds camera_holds(const Performance& performance, const Verb&) {
  return performance.told.value_or(Milliseconds{});
}

}  // namespace

void end_of_cameras(Building& building, Span said_at, Moment begin, Moment end) {
  const auto runs = [&](const Lane<Target>& lane) {
    const Segment<Target>* segment = segment_at(lane, end);
    return segment != nullptr && segment->said_at == said_at && segment->begin >= begin &&
           segment->to.kind != Target::Kind::nothing;
  };
  for (std::size_t i = 0; i < building.plan.cameras.size(); ++i) {
    CameraTrack& track = building.plan.cameras[i];
    const CameraState state = camera_at(building.plan, CameraId{static_cast<int>(i)}, end);
    const auto rest = [&](auto& lane, auto value) { put(lane, {end, end, value, value, Origin::carried, said_at}); };
    if (runs(track.rides)) {
      rest(track.place, state.at);
      rest(track.rides, Target{});
    }
    if (runs(track.keeps)) {
      rest(track.aim, Vec2{state.pan.value, state.tilt.value});
      rest(track.keeps, Target{});
    }
    if (runs(track.keeps_size)) {
      rest(track.focal, state.focal);
      rest(track.keeps_size, Target{});
    }
    if (runs(track.focus_on)) {
      rest(track.focus, state.focus);
      rest(track.focus_on, Target{});
    }
  }
  for (KeptSide& side : building.plan.kept_sides) {
    if (side.said_at == said_at) side.end = end;
  }
}

const std::vector<Verb>& camera_verbs() {
  using Time = Verb::Time;
  static const std::vector<Verb> verbs{
      {"is", Time::instant, 0, camera_is},
      {"frames", Time::takes, 1, camera_frames},
      {"keeps", Time::endless, 1, camera_keeps},
      {"follows", Time::endless, 1, camera_keeps},
      {"moves", Time::takes, 0, camera_moves},
      {"pushes in", Time::takes, 0, camera_pushes},
      {"pulls back", Time::takes, 0, camera_pushes},
      {"tracks", Time::takes, 0, camera_tracks},
      {"arcs", Time::takes, 0, camera_arcs},
      {"booms", Time::takes, 0, camera_booms},
      {"booms up", Time::takes, 0, camera_booms},
      {"booms down", Time::takes, 0, camera_booms},
      {"pans", Time::takes, 1, camera_pans},
      {"tilts", Time::takes, 1, camera_pans},
      {"tilts up", Time::takes, 1, camera_pans},
      {"tilts down", Time::takes, 1, camera_pans},
      {"looks", Time::endless, 1, camera_pans},
      {"aims", Time::takes, 0.6, camera_pans},
      {"sweeps", Time::takes, 2, camera_sweeps},
      {"zooms", Time::takes, 2, camera_zooms},
      {"zooms in", Time::takes, 2, camera_zooms},
      {"zooms out", Time::takes, 2, camera_zooms},
      {"focuses", Time::endless, 0.6, camera_focuses},
      {"racks focus", Time::endless, 0.6, camera_focuses},
      {"pulls focus", Time::endless, 0.6, camera_focuses},
      {"follows focus", Time::endless, 0.6, camera_focuses},
      {"splits focus", Time::takes, 0.6, camera_splits},
      {"holds", Time::endless, 0, camera_holds},
      {"holds focus", Time::endless, 0, camera_holds},
      {"stops", Time::instant, 0, camera_stops},
  };
  return verbs;
}

}  // namespace lensward
