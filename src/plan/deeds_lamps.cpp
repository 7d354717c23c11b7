// Deeds of lamps: level, place and aim.
#include <algorithm>

#include "base/angle.h"
#include "optics/pinhole.h"
#include "plan/amounts.h"
#include "plan/deeds.h"
#include "plan/measures.h"

namespace lensward {
namespace {

constexpr Milliseconds flicker_half{125};
constexpr Share flicker_low{0.3};
constexpr double move_speed = 0.5;
constexpr Limits stop_limits{"change of light", Dimension::stops, -12, 12, "1 stop"};
constexpr Limits height_limits{"height of a light", Dimension::length, 0, 30, "height 2 m"};

LampState now(const Performance& performance) {
  return lamp_at(performance.building.plan, performance.lamp, performance.begin);
}

template <class Value>
void change(const Performance& performance, Lane<Value>& lane, Value from, Value to, Moment begin,
            Milliseconds length) {
  put(lane, {begin, begin + length, from, to, Origin::said, performance.statement.span});
}

void take_level(const Performance& performance, Milliseconds length) {
  if (performance.opening) return;
  occupy(performance.building, lamp_lanes(performance.building, performance.lamp), LaneKind::level,
         {performance.begin, performance.begin + length, performance.runs_on, performance.statement.span,
          "`light " + performance.building.plan.stage.lamps[static_cast<std::size_t>(performance.lamp.index)].name +
              " " + performance.line.verb + "`"});
}

void set_level(const Performance& performance, Share level, Milliseconds length) {
  change(performance, performance.lamp_track().level, now(performance).level, level, performance.begin, length);
  take_level(performance, length);
}

Share dimmed(Share level, double stops) { return Share{std::clamp(level.value * power(2, -stops), 0.0, 1.0)}; }

// `level 60%`, `dimmed 1 stop`.
std::optional<Share> level_told(const Performance& performance) {
  Findings& findings = performance.building.findings;
  for (const Clause& clause : performance.line.clauses) {
    const auto* measure = std::get_if<MeasureClause>(&clause.body);
    if (measure == nullptr) continue;
    if (measure->word == "level") return share_told(measure->amount, findings);
    if (measure->word != "dimmed") continue;
    const auto stops = measured(measure->amount, stop_limits, findings);
    return stops ? std::optional{dimmed(Share{1}, stops->preferred)} : std::nullopt;
  }
  return std::nullopt;
}

// The goal of `to 40%`, or of `1 stop` down or up from now.
std::optional<Share> goal_told(const Performance& performance, bool down) {
  Findings& findings = performance.building.findings;
  const auto* to = find<ToClause>(performance.line.clauses);
  if (to != nullptr && to->amount) return share_told(*to->amount, findings);
  const auto* shift = find<ShiftClause>(performance.line.clauses);
  if (shift == nullptr) return std::nullopt;
  const Share level = now(performance).level;
  if (dimension_of(shift->amount) == Dimension::share) {
    const auto by = share_told(shift->amount, findings);
    if (!by) return std::nullopt;
    return Share{std::clamp(level.value + (down ? -by->value : by->value), 0.0, 1.0)};
  }
  const auto stops = measured(shift->amount, stop_limits, findings);
  return stops ? std::optional{dimmed(level, down ? stops->preferred : -stops->preferred)} : std::nullopt;
}

std::optional<Vec3> point_aimed_at(const Performance& performance, const Place& place) {
  const std::vector<PersonState> states = states_at(performance.building, performance.begin);
  const PlaceContext context = place_context(performance.building, states, {}, performance.begin);
  const auto target = target_of(place, context, performance.building.findings);
  return target ? point_of(performance.building.plan, *target, performance.begin) : std::nullopt;
}

void aim_lamp(const Performance& performance, const Place& place, Milliseconds length) {
  const auto point = point_aimed_at(performance, place);
  if (point) {
    change(performance, performance.lamp_track().aim, now(performance).aim, *point, performance.begin, length);
  }
}

// Where the line puts the lamp, at the height told, else at the height it has.
std::optional<Vec3> place_told(const Performance& performance) {
  Building& building = performance.building;
  PlaceWords words = place_words(building, performance.line.clauses, performance.statement.span);
  const LampState state = now(performance);
  std::optional<double> height;
  for (const Clause& clause : performance.line.clauses) {
    const auto* measure = std::get_if<MeasureClause>(&clause.body);
    if (measure == nullptr || measure->word != "height") continue;
    if (const auto told = measured(measure->amount, height_limits, building.findings)) height = told->preferred;
  }
  if (words.places.empty()) {
    return height ? std::optional{raised(floor_of(state.at), *height)} : std::nullopt;
  }
  const std::vector<PersonState> states = states_at(building, performance.begin);
  const PlaceContext context = context_for(building, states, {}, performance.begin, words.places);
  const auto settled = settle(words, context, 0, 1, building.findings);
  if (!settled) return std::nullopt;
  const double usual = performance.lamp_track().place.empty() ? 2 : state.at.z;
  return raised(settled->at, height.value_or(usual));
}

Milliseconds lamp_is(const Performance& performance, const Verb&) {
  if (const auto place = place_told(performance)) {
    change(performance, performance.lamp_track().place, *place, *place, performance.begin, {});
  }
  if (const auto* aims = find<AimsClause>(performance.line.clauses)) aim_lamp(performance, aims->place, {});
  if (const auto level = level_told(performance)) set_level(performance, *level, {});
  return {};
}

Milliseconds lamp_comes_on(const Performance& performance, const Verb&) {
  const Milliseconds length = performance.told.value_or(Milliseconds{});
  set_level(performance, level_told(performance).value_or(Share{1}), length);
  return length;
}

Milliseconds lamp_goes_out(const Performance& performance, const Verb&) {
  const Milliseconds length = performance.told.value_or(Milliseconds{});
  set_level(performance, Share{0}, length);
  return length;
}

Milliseconds lamp_changes(const Performance& performance, const Verb& verb) {
  const Milliseconds length =
      verb.number > 0 ? performance.length(Seconds{verb.number}) : performance.told.value_or(Milliseconds{});
  const auto* to = find<ToClause>(performance.line.clauses);
  const auto goal = goal_told(performance, verb.word != "brightens");
  if (goal) {
    set_level(performance, *goal, length);
  } else if (to != nullptr && !to->amount) {
    // A figure out of bounds, or none at all, is told already.
    report(performance.building, "name.clause-missing", Severity::error, performance.line.verb_span,
           "`" + performance.line.verb + "` needs how far, as a figure", "write `fades to 40%`, or `dims 1 stop`");
  }
  return length;
}

Milliseconds lamp_flickers(const Performance& performance, const Verb& verb) {
  const Milliseconds length = performance.length(Seconds{verb.number});
  const Share level = now(performance).level;
  const Moment end = performance.begin + length;
  take_level(performance, length);
  Lane<Share>& lane = performance.lamp_track().level;
  for (Moment at = performance.begin; at < end; at += flicker_half + flicker_half) {
    const Share low{level.value * flicker_low.value};
    change(performance, lane, level, low, at, {});
    change(performance, lane, low, level, std::min(at + flicker_half, end), {});
  }
  return length;
}

Milliseconds lamp_aims(const Performance& performance, const Verb& verb) {
  const Milliseconds length = performance.length(Seconds{verb.number});
  const PlaceWords words = place_words(performance.building, performance.line.clauses, performance.statement.span);
  if (!words.places.empty()) aim_lamp(performance, *words.places.front(), length);
  const auto* route = find<RouteClause>(performance.line.clauses);
  if (route != nullptr && route->to) aim_lamp(performance, *route->to, length);
  return length;
}

Milliseconds lamp_moves(const Performance& performance, const Verb&) {
  const auto place = place_told(performance);
  if (!place) return performance.told.value_or(Milliseconds{});
  const Vec3 from = now(performance).at;
  const Milliseconds took = performance.length(Seconds{length(*place - from) / move_speed});
  change(performance, performance.lamp_track().place, from, *place, performance.begin, took);
  return took;
}

Milliseconds lamp_stops(const Performance& performance, const Verb&) {
  const LampState state = now(performance);
  LampTrack& track = performance.lamp_track();
  change(performance, track.place, state.at, state.at, performance.begin, {});
  change(performance, track.aim, state.aim, state.aim, performance.begin, {});
  change(performance, track.level, state.level, state.level, performance.begin, {});
  return {};
}

}  // namespace

const std::vector<Verb>& lamp_verbs() {
  using Time = Verb::Time;
  static const std::vector<Verb> verbs{
      {"is", Time::instant, 0, lamp_is},
      {"is on", Time::instant, 0, lamp_comes_on},
      {"is out", Time::instant, 0, lamp_goes_out},
      {"comes on", Time::instant, 0, lamp_comes_on},
      {"goes out", Time::instant, 0, lamp_goes_out},
      {"dims", Time::instant, 0, lamp_changes},
      {"brightens", Time::instant, 0, lamp_changes},
      {"fades", Time::takes, 2, lamp_changes},
      {"flickers", Time::takes, 1, lamp_flickers},
      {"aims", Time::takes, 0.6, lamp_aims},
      {"sweeps", Time::takes, 2, lamp_aims},
      {"moves", Time::takes, 0, lamp_moves},
      {"stops", Time::instant, 0, lamp_stops},
  };
  return verbs;
}

}  // namespace lensward
