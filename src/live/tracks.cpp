#include <algorithm>
#include <cmath>
#include <optional>

#include "base/angle.h"
#include "lens/seen_motion.h"
#include "live/show.h"
#include "optics/pinhole.h"
#include "pages/overhead_parts.h"
#include "plan/lane.h"
#include "plan/state.h"

namespace lensward {
namespace {

constexpr double floor_off = 0.005, look_off = 0.03, across_off = 0.005;
constexpr double least_seen = 0.02;
constexpr Degrees turn_off{0.5};
constexpr std::int64_t look_every = 80;  // ms
constexpr std::size_t longest_leap = 250;

// Twelve times a second, at every turning point, and just before it: what jumps then has not jumped yet.
std::vector<Moment> moments_of(const Plan& plan) {
  const Moment end = plan.duration();
  std::vector<Moment> moments{end};
  for (std::int64_t at = 0; at < end.count; at += look_every) moments.push_back({at});
  for (const Moment turn : turning_points(plan))
    for (const Moment at : {turn, turn - 1_ms})
      if (Moment{} <= at && at <= end) moments.push_back(at);
  std::ranges::sort(moments);
  moments.erase(std::unique(moments.begin(), moments.end()), moments.end());
  return moments;
}

double part_of(Moment from, Moment to, Moment at) {
  return to == from ? 0 : static_cast<double>((at - from).count) / static_cast<double>((to - from).count);
}

double between(double from, double to, double part) { return from + (to - from) * part; }
bool near(Vec2 a, Vec2 b, double off) { return length(a - b) <= off; }
bool near(Degrees a, Degrees b) { return std::fabs((a - b).value) <= turn_off.value; }
Degrees between(Degrees from, Degrees to, double part) { return Degrees{between(from.value, to.value, part)}; }

// Whether going evenly from one to another comes by a third; and whether the two differ in what cannot go evenly.
bool comes_by(const ShownPlace& from, const ShownPlace& to, const ShownPlace& third) {
  if (!third.present) return true;
  const double part = part_of(from.at, to.at, third.at);
  return near(mix(from.floor, to.floor, part), third.floor, floor_off) &&
         near(between(from.facing, to.facing, part), third.facing) &&
         near(between(from.head, to.head, part), third.head) &&
         near(mix(from.look, to.look, part), third.look, look_off) &&
         std::fabs(between(from.across, to.across, part) - third.across) <= across_off;
}
bool stays(const ShownPlace& a, const ShownPlace& b) {
  return a.floor == b.floor && a.facing == b.facing && a.head == b.head && a.look == b.look && a.across == b.across;
}
bool same_kind(const ShownPlace& a, const ShownPlace& b) {
  return a.present == b.present && a.posture == b.posture && a.looks == b.looks && a.framed == b.framed;
}

bool comes_by(const ShownCamera& from, const ShownCamera& to, const ShownCamera& third) {
  const double part = part_of(from.at, to.at, third.at);
  return near(mix(from.floor, to.floor, part), third.floor, floor_off) &&
         near(between(from.pan, to.pan, part), third.pan) &&
         near(between(from.half_angle, to.half_angle, part), third.half_angle) &&
         std::fabs(between(from.focus.value, to.focus.value, part) - third.focus.value) <= 2 * floor_off;
}
bool stays(const ShownCamera& a, const ShownCamera& b) {
  return a.floor == b.floor && a.pan == b.pan && a.half_angle == b.half_angle && a.focus == b.focus;
}
bool same_kind(const ShownCamera& a, const ShownCamera& b) { return a.camera == b.camera; }

bool comes_by(const ShownProp::Place& from, const ShownProp::Place& to, const ShownProp::Place& third) {
  return near(mix(from.floor, to.floor, part_of(from.at, to.at, third.at)), third.floor, look_off);
}
bool stays(const ShownProp::Place& a, const ShownProp::Place& b) { return a.floor == b.floor; }
bool same_kind(const ShownProp::Place& a, const ShownProp::Place& b) { return a.there == b.there; }

// Those without which the rest could not be told. The first and the last stay.
template <class Place>
std::vector<Place> thinned(const std::vector<Place>& all) {
  std::vector<Place> kept;
  for (std::size_t from = 0; from < all.size();) {
    kept.push_back(all[from]);
    // Up to which nothing has changed at all: most of a scene, for most people.
    std::size_t to = from + 1, still = from;
    const auto reaches = [&](std::size_t end) {
      if (end >= all.size() || !same_kind(all[from], all[end])) return false;
      while (still < end && same_kind(all[from], all[still + 1]) && stays(all[from], all[still + 1])) ++still;
      if (still == end) return true;
      for (std::size_t i = from + 1; i < end; ++i)
        if (!comes_by(all[from], all[end], all[i])) return false;
      return true;
    };
    while (to - from < longest_leap && reaches(to + 1)) ++to;
    from = to;
  }
  return kept;
}

// The bearing that points the same way and is within half a turn of the one before.
Degrees unwrapped(Degrees before, Degrees bearing) { return before + wrapped(bearing - before); }

const PersonSeen* seen_in(const Results& results, PersonId person, Moment moment) {
  const auto& views = results.attention.views;
  const auto later = std::ranges::upper_bound(views, moment, {}, &View::moment);
  if (later == views.begin()) return nullptr;
  const auto found = std::ranges::find((later - 1)->people, person, &PersonSeen::person);
  return found == (later - 1)->people.end() ? nullptr : &*found;
}

// Where a person's eyes are in the picture, also between two views.
std::optional<double> across_at(const Plan& plan, PersonId person, Moment moment) {
  const auto eyes = sharp_point_of(plan, {Target::Kind::person, person.index, {}}, moment);
  const auto at = eyes ? project(usable_lens(camera_at(plan, on_air(plan, moment), moment)), *eyes) : std::nullopt;
  return at ? std::optional(at->at.u) : std::nullopt;
}

ShownPlace place_of(const Results& results, PersonId person, Moment moment, const ShownPlace& before) {
  const PersonState state = person_at(results.plan, person, moment);
  ShownPlace place;
  place.at = moment;
  place.present = state.present;
  if (!state.present) return place;
  place.floor = state.at;
  place.facing = unwrapped(before.facing, state.facing);
  place.head = unwrapped(before.head, head_bearing(state));
  place.posture = state.posture;
  place.looks = state.gaze.kind != Target::Kind::nothing;
  place.look = place.looks ? floor_of(state.looks_at) : place.floor;
  const PersonSeen* seen = seen_in(results, person, moment);
  place.framed = seen != nullptr && seen->in_front && seen->body_visible.value > least_seen;
  place.across = place.framed ? across_at(results.plan, person, moment).value_or(seen->eyes.u) : 0;
  return place;
}

ShownCamera camera_seen(const Plan& plan, Moment moment, Degrees before) {
  ShownCamera shown;
  shown.at = moment;
  shown.camera = on_air(plan, moment);
  const CameraState state = camera_at(plan, shown.camera, moment);
  shown.floor = floor_of(state.at);
  shown.pan = unwrapped(before, state.pan);
  shown.half_angle = angle_of_view(state.gate_width, state.focal) / 2;
  shown.focus = state.focus;
  return shown;
}

// In hand it is where the hand is; with somebody who is away it is not there.
ShownProp::Place prop_seen(const Plan& plan, std::size_t index, Moment moment) {
  const Target rests = stepped(plan.props[index].rests, moment, Target{});
  const bool away = rests.kind == Target::Kind::person && !person_at(plan, PersonId{rests.index}, moment).present;
  const auto point = point_of(plan, {Target::Kind::prop, static_cast<int>(index), {}}, moment);
  if (rests.kind == Target::Kind::nothing || away || !point) return {moment, false, {}};
  return {moment, true, floor_of(*point)};
}

}  // namespace

std::vector<ShownPerson> shown_people(const Results& results) {
  const Plan& plan = results.plan;
  const std::vector<Moment> moments = moments_of(plan);
  std::vector<ShownPerson> people(plan.stage.people.size());
  for (std::size_t i = 0; i < people.size(); ++i) {
    std::vector<ShownPlace> all;
    for (const Moment moment : moments)
      all.push_back(place_of(results, PersonId{static_cast<int>(i)}, moment, all.empty() ? ShownPlace{} : all.back()));
    people[i].track = thinned(all);
  }
  return people;
}

std::vector<ShownCamera> shown_camera(const Plan& plan) {
  std::vector<ShownCamera> all;
  if (plan.stage.cameras.empty()) return all;
  for (const Moment moment : moments_of(plan))
    all.push_back(camera_seen(plan, moment, all.empty() ? Degrees{} : all.back().pan));
  return thinned(all);
}

std::vector<ShownProp> shown_props(const Plan& plan) {
  const std::vector<Moment> moments = moments_of(plan);
  std::vector<ShownProp> props;
  for (std::size_t i = 0; i < std::min(plan.props.size(), plan.stage.props.size()); ++i) {
    std::vector<ShownProp::Place> all;
    for (const Moment moment : moments) all.push_back(prop_seen(plan, i, moment));
    props.push_back({plan.stage.props[i].name, thinned(all)});
  }
  return props;
}

}  // namespace lensward
