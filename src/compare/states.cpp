// What is there, and what state it is in from beat to beat: furniture, props, doors, cameras, lamps.
#include <algorithm>
#include <map>
#include <utility>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "compare/parts.h"
#include "optics/light.h"

namespace lensward {
namespace {

// ---- What is there -------------------------------------------------------------------------------------------------

template <class Thing>
void compare_names(Aspect aspect, const std::vector<Thing>& before, const std::vector<Thing>& after,
                   std::vector<Change>& into) {
  const auto lacks = [](const std::vector<Thing>& things, const Thing& wanted) {
    return std::none_of(things.begin(), things.end(), [&](const Thing& one) { return one.name == wanted.name; });
  };
  for (const Thing& thing : before) {
    if (lacks(after, thing)) into.push_back({aspect, ChangeWay::dropped, thing.name, "", "", "", 0});
  }
  for (const Thing& thing : after) {
    if (lacks(before, thing)) into.push_back({aspect, ChangeWay::added, thing.name, "", "", "", 0});
  }
}

std::string point_words(Vec2 point) { return "(" + number(point.x, 2) + ", " + number(point.y, 2) + ") m"; }
std::string point_words(Vec3 point) {
  return "(" + number(point.x, 2) + ", " + number(point.y, 2) + ", " + number(point.z, 2) + ") m";
}

void compare_furniture(Comparing& comparing) {
  const Stage &old = comparing.before.plan.stage, &now = comparing.after.plan.stage;
  for (const auto& [a, b] : same_names(old.pieces, now.pieces)) {
    const Piece &was = old.pieces[static_cast<std::size_t>(a)], &is = now.pieces[static_cast<std::size_t>(b)];
    comparing.sized(comparing.changes.scene,
                    {Aspect::piece_place, ChangeWay::changed, is.name, point_words(was.at), point_words(is.at), "",
                     length(is.at - was.at)},
                    comparing.limits.place.value, 0.001);
  }
  for (const auto& [a, b] : same_names(old.lamps, now.lamps)) {
    const Lamp &was = old.lamps[static_cast<std::size_t>(a)], &is = now.lamps[static_cast<std::size_t>(b)];
    comparing.sized(
        comparing.changes.scene,
        {Aspect::lamp_intensity, ChangeWay::changed, is.name, number(was.intensity.value, 0) + " cd",
         number(is.intensity.value, 0) + " cd", "", stops_between(is.intensity.value, was.intensity.value).value},
        comparing.limits.light.value, 0.01);
  }
}

// ---- The state at a moment -----------------------------------------------------------------------------------------

// One thing's state: words to be told, and numbers to measure by.
struct State {
  std::string words;
  std::vector<double> values;  // compared by the measure of the aspect
};
using Key = std::pair<Aspect, std::string>;
using States = std::map<Key, State>;

std::string target_words(const Plan& plan, const Target& target) {
  switch (target.kind) {
    case Target::Kind::nothing:
      return "nothing";
    case Target::Kind::lens:
      return "the lens";
    case Target::Kind::point:
      return point_words(target.point);
    default:
      return name_of(plan, target);
  }
}

template <class Value>
Value value_at(const Lane<Value>& lane, Moment moment, Value otherwise) {
  for (const auto& segment : lane) {
    if (segment.begin > moment) break;
    otherwise = segment.to;
  }
  return otherwise;
}

void add_cameras(const Plan& plan, Moment moment, States& states) {
  for (std::size_t i = 0; i < plan.cameras.size(); ++i) {
    const std::string& name = plan.stage.cameras[i].name;
    const CameraState camera = camera_at(plan, CameraId{static_cast<int>(i)}, moment);
    states[{Aspect::camera_place, name}] = {point_words(camera.at), {camera.at.x, camera.at.y, camera.at.z}};
    states[{Aspect::camera_aim, name}] = {text_of(wrapped(camera.pan)) + " and " + text_of(camera.tilt),
                                          {camera.pan.value, camera.tilt.value}};
    states[{Aspect::focal, name}] = {text_of(camera.focal), {camera.focal.value}};
    states[{Aspect::stop, name}] = {"T" + number(camera.stop.value, 1), {camera.stop.value}};
    const Target on = value_at(plan.cameras[i].focus_on, moment, Target{});
    // Focus that stays with somebody changes with every step; who it is counts.
    states[{Aspect::focus, name}] = on.kind == Target::Kind::nothing
                                        ? State{text_of(camera.focus), {camera.focus.value}}
                                        : State{target_words(plan, on), {}};
  }
  if (!plan.cuts.empty()) {
    const int camera = on_air(plan, moment).index;
    states[{Aspect::cut, ""}] = {plan.stage.cameras[static_cast<std::size_t>(camera)].name, {}};
  }
}

void add_lamps(const Plan& plan, Moment moment, States& states) {
  for (std::size_t i = 0; i < plan.lamps.size(); ++i) {
    const std::string& name = plan.stage.lamps[i].name;
    const LampState lamp = lamp_at(plan, LampId{static_cast<int>(i)}, moment);
    states[{Aspect::lamp_level, name}] = {text_of(lamp.level), {lamp.level.value}};
    const Target carried = value_at(plan.lamps[i].carried, moment, Target{});
    states[{Aspect::lamp_place, name}] = carried.kind == Target::Kind::nothing
                                             ? State{point_words(lamp.at), {lamp.at.x, lamp.at.y, lamp.at.z}}
                                             : State{"with " + target_words(plan, carried), {}};
    if (!plan.stage.lamps[i].beam) continue;
    const Target at = value_at(plan.lamps[i].aim_at, moment, Target{});
    states[{Aspect::lamp_aim, name}] = at.kind == Target::Kind::nothing
                                           ? State{point_words(lamp.aim), {lamp.aim.x, lamp.aim.y, lamp.aim.z}}
                                           : State{target_words(plan, at), {}};
  }
}

void add_things(const Plan& plan, Moment moment, States& states) {
  for (std::size_t i = 0; i < plan.props.size(); ++i) {
    const Target rests = value_at(plan.props[i].rests, moment, Target{});
    State state{target_words(plan, rests), {}};
    if (rests.kind == Target::Kind::point) state.values = {rests.point.x, rests.point.y, rests.point.z};
    states[{Aspect::prop_place, plan.stage.props[i].name}] = state;
  }
  const auto open = [](double share) { return State{text_of(Share{share}), {share}}; };
  for (std::size_t i = 0; i < plan.openings.size(); ++i) {
    if (plan.openings[i].open.empty()) continue;
    states[{Aspect::opening_open, plan.stage.openings[i].name}] =
        open(value_at(plan.openings[i].open, moment, Share{0}).value);
  }
  for (std::size_t i = 0; i < plan.pieces.size(); ++i) {
    if (plan.pieces[i].open.empty()) continue;
    states[{Aspect::piece_open, plan.stage.pieces[i].name}] =
        open(value_at(plan.pieces[i].open, moment, Share{0}).value);
  }
}

States states_at(const Plan& plan, Moment moment) {
  States states;
  add_cameras(plan, moment, states);
  add_lamps(plan, moment, states);
  add_things(plan, moment, states);
  return states;
}

// ---- How far two states are apart ----------------------------------------------------------------------------------

struct Measured {
  double amount = 0, limit = 0;
};

double distance(const std::vector<double>& a, const std::vector<double>& b) {
  double squares = 0;
  for (std::size_t i = 0; i < a.size(); ++i) squares += (b[i] - a[i]) * (b[i] - a[i]);
  return std::sqrt(squares);
}

std::vector<double> offset(const std::vector<double>& from, const std::vector<double>& to) {
  std::vector<double> off;
  for (std::size_t i = 0; i < std::min(from.size(), to.size()); ++i) off.push_back(to[i] - from[i]);
  return off;
}

Measured measured(Aspect aspect, const std::vector<double>& before, const std::vector<double>& after,
                  const Thresholds& limits) {
  switch (aspect) {
    case Aspect::camera_aim: {
      const double pan = wrapped(Degrees{after[0] - before[0]}).value, tilt = after[1] - before[1];
      return {std::fabs(pan) >= std::fabs(tilt) ? pan : tilt, limits.turn.value};
    }
    case Aspect::stop:
      return {2 * stops_between(after[0], before[0]).value, limits.light.value};
    case Aspect::lamp_level:
      return {stops_between(after[0], before[0]).value, limits.light.value};
    case Aspect::focal:
      // A twentieth of the focal length changes the picture's width by as much.
      return {after[0] - before[0], before[0] / 20};
    case Aspect::opening_open:
    case Aspect::piece_open:
      return {after[0] - before[0], limits.open.value};
    case Aspect::focus:
      return {after[0] - before[0], limits.place.value};
    default:
      return {distance(before, after), limits.place.value};
  }
}

// What stands different when a beat begins or ends, and what of it was told already.
class StateWatch {
 public:
  explicit StateWatch(Comparing& comparing) : comparing_(comparing) {}

  void look(Moment before, Moment after, std::vector<Change>& into) {
    const States old = states_at(comparing_.before.plan, before), now = states_at(comparing_.after.plan, after);
    for (const auto& [key, state] : now) {
      const auto was = old.find(key);
      if (was != old.end()) compare_state(key, was->second, state, into);
    }
  }

 private:
  void compare_state(const Key& key, const State& was, const State& is, std::vector<Change>& into) {
    Change change{key.first, ChangeWay::changed, key.second, was.words, is.words, "", 0};
    Measured size{was.words == is.words ? 0.0 : 1.0, 0.5};
    if (!was.values.empty() && was.values.size() == is.values.size()) {
      size = measured(key.first, was.values, is.values, comparing_.limits);
      change.amount = size.amount;
    }
    Told& told = told_[key];
    if (std::fabs(size.amount) < size.limit - 1e-6) {
      if (std::fabs(size.amount) > size.limit / 100 && told.words.empty()) ++comparing_.changes.small;
      told = {std::fabs(size.amount) > size.limit / 100 ? "small" : "", {}};
      return;
    }
    const std::string words = was.words + " > " + is.words;
    std::vector<double> off = offset(was.values, is.values);
    // A camera that moves as before, a step beside its old way, stands elsewhere once and not at both ends of the move.
    const bool same_off = key.first == Aspect::camera_place && off.size() == told.off.size() && !off.empty() &&
                          distance(off, told.off) < size.limit;
    if (told.words == words || same_off) return;
    told = {words, std::move(off)};
    into.push_back(std::move(change));
  }

  // What differs at present, as it was told last.
  struct Told {
    std::string words;
    std::vector<double> off;  // how far the values are apart, each by itself
  };

  Comparing& comparing_;
  std::map<Key, Told> told_;
};

// Camera moves are counted by their lanes: a move more or less can end where the old one did.
int moves_in(const CameraTrack& track, const Beat& beat) {
  int moves = 0;
  const auto count = [&](const auto& lane) {
    for (const auto& segment : lane) {
      if (segment.begin >= beat.begin && segment.begin < beat.end && segment.end > segment.begin) ++moves;
    }
  };
  count(track.place);
  count(track.aim);
  count(track.focal);
  return moves;
}

void compare_moves(Comparing& comparing, const BeatPair& pair, std::vector<Change>& into) {
  const Plan &old = comparing.before.plan, &now = comparing.after.plan;
  const Beat& was = old.beats[static_cast<std::size_t>(pair.before)];
  const Beat& is = now.beats[static_cast<std::size_t>(pair.after)];
  for (const auto& [a, b] : same_names(old.stage.cameras, now.stage.cameras)) {
    const int before = moves_in(old.cameras[static_cast<std::size_t>(a)], was);
    const int after = moves_in(now.cameras[static_cast<std::size_t>(b)], is);
    if (before == after) continue;
    into.push_back({Aspect::camera_move, ChangeWay::changed, now.stage.cameras[static_cast<std::size_t>(b)].name,
                    std::to_string(before), std::to_string(after), "", static_cast<double>(after - before)});
  }
}

// Just before the end, so that what the next beat begins with is not taken for this one's.
Moment last_of(const Beat& beat) { return beat.end > beat.begin ? beat.end - Milliseconds{1} : beat.begin; }

}  // namespace

void compare_stage(Comparing& comparing) {
  const Stage &old = comparing.before.plan.stage, &now = comparing.after.plan.stage;
  std::vector<Change>& scene = comparing.changes.scene;
  compare_names(Aspect::person, old.people, now.people, scene);
  compare_names(Aspect::piece, old.pieces, now.pieces, scene);
  compare_names(Aspect::prop, old.props, now.props, scene);
  compare_names(Aspect::camera, old.cameras, now.cameras, scene);
  compare_names(Aspect::lamp, old.lamps, now.lamps, scene);
  compare_furniture(comparing);
}

void compare_states(Comparing& comparing) {
  StateWatch watch(comparing);
  for (std::size_t i = 0; i < comparing.beats.size(); ++i) {
    const Beat& was = comparing.before.plan.beats[static_cast<std::size_t>(comparing.beats[i].before)];
    const Beat& is = comparing.after.plan.beats[static_cast<std::size_t>(comparing.beats[i].after)];
    watch.look(was.begin, is.begin, *comparing.found[i]);
    watch.look(last_of(was), last_of(is), *comparing.found[i]);
    compare_moves(comparing, comparing.beats[i], *comparing.found[i]);
  }
}

}  // namespace lensward
