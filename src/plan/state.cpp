#include "plan/state.h"

#include <cmath>

#include "base/angle.h"
#include "figure/proportions.h"
#include "plan/lane.h"

namespace lensward {
namespace {

// How far ahead the eyes rest when nothing is looked at, and how far up, down or aside a look goes that names nothing.
constexpr double rest_distance = 10;
constexpr Degrees raised_look{35}, lowered_look{-40}, averted_look{60};

const PersonTrack* track_of(const Plan& plan, PersonId person) {
  const auto index = static_cast<std::size_t>(person.index);
  return index < plan.people.size() ? &plan.people[index] : nullptr;
}

struct Footing {
  Vec2 at;
  Vec2 velocity;
  Origin origin = Origin::said;
};

Vec2 along(const Walk& walk, double share) { return walk.path.empty() ? Vec2{} : walk.at(share); }

Footing footing_of(const PersonTrack& track, Moment moment) {
  const Segment<Walk>* segment = segment_at(track.feet, moment);
  if (segment == nullptr) return {};
  const double share = progress(*segment, moment);
  Footing footing{along(segment->to, share), {}, segment->origin};
  if (moment < segment->begin || moment >= segment->end || segment->to.path.size() < 2) return footing;
  const double seconds = to_seconds(segment->end - segment->begin).value;
  const double small_step = 1e-4;
  const Vec2 way = along(segment->to, share + small_step) - along(segment->to, share - small_step);
  footing.velocity = unit(way) * (segment->to.length().value / seconds);
  return footing;
}

Stance stance_of(const PersonTrack& track, Moment moment) { return stepped(track.stance, moment, Stance{}, 0.5); }

Vec3 eyes_of(const Plan& plan, PersonId person, const Footing& footing, const Stance& stance) {
  const Metres seat = seat_height(plan.stage, stance.seat);
  const Metres stature = plan.stage.people[static_cast<std::size_t>(person.index)].stature;
  return raised(footing.at, eye_height(stature, stance.posture, seat).value);
}

// Whoever holds the thing stands for it: their hand depends on how they are turned, and they may be turned to it.
Target holder_or(const Plan& plan, const Target& target, Moment moment) {
  const auto index = static_cast<std::size_t>(target.index);
  Target rests;
  if (target.kind == Target::Kind::prop && index < plan.props.size()) {
    rests = stepped(plan.props[index].rests, moment, Target{});
  } else if (target.kind == Target::Kind::lamp && index < plan.lamps.size()) {
    rests = stepped(plan.lamps[index].carried, moment, Target{});
  }
  return rests.kind == Target::Kind::person ? rests : target;
}

Degrees bearing_at(const Plan& plan, const Facing& facing, Vec2 from, Moment moment) {
  if (facing.follows.kind == Target::Kind::nothing) return facing.bearing;
  const std::optional<Vec3> point = point_of(plan, holder_or(plan, facing.follows, moment), moment);
  if (!point || length(floor_of(*point) - from) < 1e-6) return facing.bearing;
  return bearing_of(floor_of(*point) - from);
}

struct Turn {
  Degrees bearing, rate;
};

Turn turn_of(const Plan& plan, const PersonTrack& track, Vec2 at, Moment moment) {
  const Segment<Facing>* segment = segment_at(track.body, moment);
  if (segment == nullptr) return {};
  const Degrees to = bearing_at(plan, segment->to, at, moment);
  const double share = progress(*segment, moment);
  if (share >= 1) return {to, {}};
  const Degrees from = bearing_at(plan, segment->from, at, moment);
  const Degrees way = wrapped(to - from);
  const double seconds = to_seconds(segment->end - segment->begin).value;
  const bool moving = moment >= segment->begin && seconds > 0;
  return {wrapped(from + way * share), moving ? way / seconds : Degrees{}};
}

Vec3 out_from(Vec3 eyes, Degrees bearing, Degrees elevation) {
  const Vec2 level = direction_of(bearing) * (rest_distance * cosine(elevation));
  return eyes + raised(level, rest_distance * sine(elevation));
}

// Averted means away from the target when one is told, else to their own right.
Vec3 averted(const Plan& plan, const Target& from, Vec3 eyes, Degrees facing, Moment moment) {
  const std::optional<Vec3> point = point_of(plan, from, moment);
  if (!point) return out_from(eyes, facing + averted_look, {});
  const Degrees side = wrapped(bearing_of(floor_of(*point) - floor_of(eyes)) - facing);
  return out_from(eyes, facing + (side.value > 0 ? -averted_look : averted_look), {});
}

Vec3 gaze_point(const Plan& plan, const Gaze& gaze, Vec3 eyes, Degrees facing, Moment moment) {
  switch (gaze.manner) {
    case Gaze::Manner::at_target:
      return point_of(plan, gaze.target, moment).value_or(out_from(eyes, facing, {}));
    case Gaze::Manner::ahead:
      return out_from(eyes, facing, {});
    case Gaze::Manner::up:
      return out_from(eyes, facing, raised_look);
    case Gaze::Manner::down:
      return out_from(eyes, facing, lowered_look);
    case Gaze::Manner::away:
      return averted(plan, gaze.target, eyes, facing, moment);
  }
  return out_from(eyes, facing, {});
}

void add_gaze(const Plan& plan, const PersonTrack& track, Vec3 eyes, Moment moment, PersonState& state) {
  const Segment<Gaze>* segment = segment_at(track.eyes, moment);
  if (segment == nullptr) {
    state.looks_at = out_from(eyes, state.facing, {});
    return;
  }
  const double share = progress(*segment, moment);
  const Vec3 to = gaze_point(plan, segment->to, eyes, state.facing, moment);
  if (share >= 1) {
    state.looks_at = to;
    state.gaze = segment->to.target;
  } else {
    state.looks_at = mix(gaze_point(plan, segment->from, eyes, state.facing, moment), to, share);
    state.gaze = segment->from.target;
  }
  state.gaze_told = segment->origin != Origin::assumed;
}

void add_hands(const PersonTrack& track, Moment moment, PersonState& state) {
  for (const Business& business : track.hands) {
    if (moment < business.begin || moment >= business.end || business.strength <= state.hands_moving) continue;
    state.hands_moving = business.strength;
    state.hands_since = business.begin;
  }
  state.left_hand = stepped(track.left_hand, moment, Target{});
  state.right_hand = stepped(track.right_hand, moment, Target{});
  const Segment<Target>* left = segment_at(track.left_hand, moment);
  const Segment<Target>* right = segment_at(track.right_hand, moment);
  const bool right_free = state.right_hand.kind == Target::Kind::nothing;
  const bool left_later = left != nullptr && right != nullptr && left->begin > right->begin;
  const bool left_counts = state.left_hand.kind != Target::Kind::nothing && (right_free || left_later);
  state.holding = left_counts ? state.left_hand : state.right_hand;
}

// Bearing of the lens axis that puts a point at `across` of the picture's width.
Degrees pan_holding(Vec3 point, Share across, const CameraState& camera) {
  const Degrees to_point = bearing_of(floor_of(point) - floor_of(camera.at));
  return to_point - arc_tangent((across.value - 0.5) * camera.gate_width.value, camera.focal.value);
}

double mixed_at(const Lane<Share>& lane, Moment moment, double otherwise) {
  const auto* segment = segment_at(lane, moment);
  return segment == nullptr ? otherwise : mix(segment->from.value, segment->to.value, progress(*segment, moment));
}

template <class Value>
Value mixed_value(const Lane<Value>& lane, Moment moment, Value otherwise) {
  const auto* segment = segment_at(lane, moment);
  if (segment == nullptr) return otherwise;
  return Value{mix(segment->from.value, segment->to.value, progress(*segment, moment))};
}

Vec3 mixed_point(const Lane<Vec3>& lane, Moment moment) {
  const auto* segment = segment_at(lane, moment);
  return segment == nullptr ? Vec3{} : mix(segment->from, segment->to, progress(*segment, moment));
}

// Rides and kept sizes follow what moves; they give way to a later move or zoom.
void add_ride(const Plan& plan, const CameraTrack& track, Moment moment, CameraState& state) {
  const Segment<Target>* rides = segment_at(track.rides, moment);
  const Segment<Vec3>* off = segment_at(track.ride_off, moment);
  if (rides == nullptr || off == nullptr || moment < rides->begin) return;
  // Along the floor: who sits down does not take the lens down with them.
  if (const auto point = point_of(plan, rides->to, moment)) state.at = raised(floor_of(*point + off->to), state.at.z);
}

void add_kept_size(const Plan& plan, const CameraTrack& track, Moment moment, CameraState& state) {
  const Segment<Target>* kept = segment_at(track.keeps_size, moment);
  const Segment<Millimetres>* focal = segment_at(track.size_focal, moment);
  if (kept == nullptr || focal == nullptr || moment < kept->begin) return;
  const auto point = point_of(plan, kept->to, moment);
  constexpr double shortest = 4, longest = 1500;
  if (!point) return;
  state.focal = Millimetres{std::clamp(focal->to.value * length(*point - state.at), shortest, longest)};
}

void add_aim(const Plan& plan, const CameraTrack& track, Moment moment, CameraState& state) {
  if (const Segment<Vec2>* segment = segment_at(track.aim, moment)) {
    const Vec2 aim = mix(segment->from, segment->to, progress(*segment, moment));
    state.pan = Degrees{aim.x};
    state.tilt = Degrees{aim.y};
  }
  const Segment<Target>* keeps = segment_at(track.keeps, moment);
  if (keeps == nullptr) return;
  const Share across{mixed_at(track.keeps_at, moment, 0.5)};
  const auto held_pan = [&](const Target& target) {
    const std::optional<Vec3> point = point_of(plan, target, moment);
    return point ? pan_holding(*point, across, state) : state.pan;
  };
  // Once it has come there, nothing depends on where it came from.
  const double share = progress(*keeps, moment);
  const Degrees to = held_pan(keeps->to);
  const Degrees from = share < 1 ? held_pan(keeps->from) : to;
  state.pan = share < 1 ? from + wrapped(to - from) * share : to;
}

// Focus is counted along the lens axis, and never nearer than a hand's breadth.
Metres focus_on(const Plan& plan, const CameraState& camera, const Target& target, Metres otherwise, Moment moment) {
  const std::optional<Vec3> point = sharp_point_of(plan, target, moment);
  if (!point) return otherwise;
  const double depth = dot(*point - camera.at, axes_of(pinhole_of(camera)).forward);
  return Metres{std::max(depth, 0.1)};
}

// A pull is even in dioptres, which is nearer to how the ring turns than even in metres.
Metres mixed_focus(Metres from, Metres to, double share) {
  if (share >= 1) return to;
  return Metres{1 / mix(1 / std::max(from.value, 0.1), 1 / std::max(to.value, 0.1), share)};
}

void add_focus(const Plan& plan, const CameraTrack& track, Moment moment, CameraState& state) {
  if (const Segment<Metres>* segment = segment_at(track.focus, moment)) {
    state.focus = mixed_focus(segment->from, segment->to, progress(*segment, moment));
  }
  const Segment<Target>* follows = segment_at(track.focus_on, moment);
  if (follows == nullptr) return;
  const Metres from = focus_on(plan, state, follows->from, state.focus, moment);
  const Metres to = focus_on(plan, state, follows->to, state.focus, moment);
  state.focus = mixed_focus(from, to, progress(*follows, moment));
}

}  // namespace

Metres Walk::length() const {
  double sum = 0;
  for (std::size_t i = 1; i < path.size(); ++i) sum += lensward::length(path[i] - path[i - 1]);
  return Metres{sum};
}

Vec2 Walk::at(double share) const {
  double left = std::clamp(share, 0.0, 1.0) * length().value;
  for (std::size_t i = 1; i < path.size(); ++i) {
    const double leg = lensward::length(path[i] - path[i - 1]);
    if (left < leg) return mix(path[i - 1], path[i], left / leg);
    left -= leg;
  }
  return path.back();
}

Metres seat_height(const Stage& stage, PieceId seat) {
  if (!seat.known()) return Metres{0};
  const Piece& piece = stage.pieces[static_cast<std::size_t>(seat.index)];
  return piece.seats > 0 ? piece.seat_height : piece.height;
}

Vec3 eyes_at(const Plan& plan, PersonId person, Moment moment) {
  const PersonTrack* track = track_of(plan, person);
  if (track == nullptr) return {};
  return eyes_of(plan, person, footing_of(*track, moment), stance_of(*track, moment));
}

Pose bare_pose(const Plan& plan, PersonId person, const PersonState& state) {
  Pose pose;
  pose.stature = plan.stage.people[static_cast<std::size_t>(person.index)].stature;
  pose.posture = state.posture;
  pose.at = state.at;
  pose.seat = seat_height(plan.stage, state.seat);
  pose.facing = state.facing;
  pose.looks_at = state.looks_at;
  pose.walking = state.posture == Posture::standing && length(state.velocity) > 0.15;
  return pose;
}

std::optional<Vec3> sharp_point_of(const Plan& plan, const Target& target, Moment moment) {
  const PersonId person{target.kind == Target::Kind::person ? target.index : -1};
  if (track_of(plan, person) == nullptr) return point_of(plan, target, moment);
  const Pose pose = bare_pose(plan, person, person_at(plan, person, moment));
  return pose.stature.value > 0 ? eyes_of(pose) : eyes_at(plan, person, moment);
}

const char* spelling(Gaze::Manner manner) {
  switch (manner) {
    case Gaze::Manner::at_target:
      return "at";
    case Gaze::Manner::ahead:
      return "ahead";
    case Gaze::Manner::up:
      return "up";
    case Gaze::Manner::down:
      return "down";
    case Gaze::Manner::away:
      return "away";
  }
  return "";
}

Degrees facing_at(const Plan& plan, PersonId person, Moment moment) {
  const PersonTrack* track = track_of(plan, person);
  if (track == nullptr) return {};
  return turn_of(plan, *track, footing_of(*track, moment).at, moment).bearing;
}

Sizing sizing_of(const Settings& settings, ShotSize size) {
  const auto told = settings.sizings.find(size);
  return told == settings.sizings.end() ? sizing_of(size) : told->second;
}

PersonState person_at(const Plan& plan, PersonId person, Moment moment) {
  PersonState state;
  const PersonTrack* track = track_of(plan, person);
  if (track == nullptr) return state;
  const Footing footing = footing_of(*track, moment);
  const Stance stance = stance_of(*track, moment);
  const Turn turn = turn_of(plan, *track, footing.at, moment);
  state.present = stepped(track->present, moment, false);
  state.at = footing.at;
  state.velocity = footing.velocity;
  state.place_origin = footing.origin;
  state.facing = turn.bearing;
  state.turning = turn.rate;
  state.posture = stance.posture;
  state.seat = stance.seat;
  add_gaze(plan, *track, eyes_of(plan, person, footing, stance), moment, state);
  add_hands(*track, moment, state);
  return state;
}

bool holds(const PersonState& state, const Target& what) {
  return what.kind != Target::Kind::nothing && (state.left_hand == what || state.right_hand == what);
}

CameraState camera_at(const Plan& plan, CameraId camera, Moment moment) {
  CameraState state;
  const auto index = static_cast<std::size_t>(camera.index);
  if (index >= plan.stage.cameras.size() || index >= plan.cameras.size()) return state;
  const CameraTrack& track = plan.cameras[index];
  state.gate_width = plan.stage.cameras[index].gate_width;
  state.gate_height = plan.stage.cameras[index].gate_height;
  state.at = mixed_point(track.place, moment);
  state.focal = mixed_value(track.focal, moment, state.focal);
  state.stop = mixed_value(track.stop, moment, state.stop);
  add_ride(plan, track, moment, state);
  add_kept_size(plan, track, moment, state);
  add_aim(plan, track, moment, state);
  add_focus(plan, track, moment, state);
  return state;
}

Pinhole pinhole_of(const CameraState& camera) {
  return {camera.at, camera.pan, camera.tilt, camera.roll, camera.focal, camera.gate_width, camera.gate_height};
}

Vec3 lamp_place(const Plan& plan, LampId lamp, Moment moment) {
  const auto index = static_cast<std::size_t>(lamp.index);
  if (index >= plan.lamps.size()) return {};
  const Target holder = stepped(plan.lamps[index].carried, moment, Target{});
  if (holder.kind == Target::Kind::person && track_of(plan, PersonId{holder.index}) != nullptr) {
    return carried_at(plan, PersonId{holder.index}, {Target::Kind::lamp, lamp.index, {}}, moment);
  }
  return holder.kind == Target::Kind::point ? holder.point : mixed_point(plan.lamps[index].place, moment);
}

LampState lamp_at(const Plan& plan, LampId lamp, Moment moment) {
  const auto index = static_cast<std::size_t>(lamp.index);
  if (index >= plan.lamps.size()) return {};
  const LampTrack& track = plan.lamps[index];
  LampState state{lamp_place(plan, lamp, moment), mixed_point(track.aim, moment),
                  Share{mixed_at(track.level, moment, 1)}};
  const Target holder = stepped(track.carried, moment, Target{});
  // Carried and aimed at nothing, it points where the body does.
  constexpr double ahead = 3;
  if (holder.kind == Target::Kind::person) {
    const PersonId person{holder.index};
    state.aim = state.at + raised(direction_of(facing_at(plan, person, moment)) * ahead, 0);
  }
  const Segment<Target>* aimed = segment_at(track.aim_at, moment);
  if (aimed == nullptr || moment < aimed->begin) return state;
  const Vec3 from = point_of(plan, aimed->from, moment).value_or(state.aim);
  state.aim = mix(from, point_of(plan, aimed->to, moment).value_or(state.aim), progress(*aimed, moment));
  return state;
}

CameraId on_air(const Plan& plan, Moment moment) {
  CameraId camera{plan.stage.cameras.empty() ? -1 : 0};
  for (const CutTo& cut : plan.cuts) {
    if (cut.at > moment && cut.at > Moment{}) break;
    camera = cut.camera;
  }
  return camera;
}

int beat_at(const Plan& plan, Moment moment) {
  int found = plan.beats.empty() ? -1 : 0;
  for (std::size_t i = 0; i < plan.beats.size() && plan.beats[i].begin <= moment; ++i) found = static_cast<int>(i);
  return found;
}

}  // namespace lensward
