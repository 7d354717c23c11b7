// Deeds of the body and the eyes: placing, posture, turns and looks.
#include <algorithm>
#include <cmath>
#include <utility>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "optics/pinhole.h"
#include "plan/amounts.h"
#include "plan/deeds.h"
#include "plan/state.h"

namespace lensward {
namespace {

constexpr Seconds eyes_arrive{0.4}, glance_rests{0.2};
constexpr Degrees turn_rate{120}, usual_cheat{20}, turned_away{135};
constexpr double a_step = 0.7;
constexpr double jump_worth_telling = 0.3;

Milliseconds in_ms(Seconds time) { return to_milliseconds(time); }

struct PostureVerb {
  std::string_view verb;
  Posture posture;
};
Posture posture_of(const Performance& performance, std::string_view verb) {
  if (const auto* told = find<PostureClause>(performance.line.clauses)) return told->posture;
  constexpr PostureVerb verbs[] = {
      {"sits", Posture::sitting},  {"lies", Posture::lying},      {"perches", Posture::perching},
      {"leans", Posture::leaning}, {"kneels", Posture::kneeling}, {"crouches", Posture::crouching},
      {"falls", Posture::lying},
  };
  for (const PostureVerb& known : verbs) {
    if (verb.substr(0, known.verb.size()) == known.verb) return known.posture;
  }
  return Posture::standing;
}

bool in_picture(const Building& building, PersonId person, Vec2 at, Moment moment) {
  const CameraState camera = camera_at(building.plan, on_air(building.plan, moment), moment);
  const Vec3 eyes = raised(at, eyes_at(building.plan, person, moment).z);
  const std::optional<Projected> seen = project(pinhole_of(camera), eyes);
  return seen && seen->at.u >= 0 && seen->at.u <= 1 && seen->at.v >= 0 && seen->at.v <= 1;
}

// Somewhere new from one moment to the next: an error in the picture, told out of it.
void tell_jump(const Performance& performance, Vec2 from, Vec2 to) {
  const double far = length(to - from);
  if (performance.opening || performance.building.time_passes || far < jump_worth_telling) return;
  const bool seen = in_picture(performance.building, performance.person, from, performance.begin) ||
                    in_picture(performance.building, performance.person, to, performance.begin);
  report(
      performance.building, seen ? "time.jump" : "jumped-mark", seen ? Severity::error : Severity::remark,
      performance.line.verb_span,
      "`" + performance.name() + "` would jump " + text_of(Metres{far}) + (seen ? " in the picture" : " out of sight"),
      "write `walks to …`, or say that time passes: `later 5 min`")
      .subject.people = {performance.name()};
}

void face_at_first(const Performance& performance, const SettledPlace& place) {
  const Moment begin = performance.begin;
  if (const auto told = facing_told(performance, place.at, begin)) {
    set_facing(performance, *told, begin, begin, Origin::said);
  } else if (place.body) {
    set_facing(performance, {*place.body, {}}, begin, begin, Origin::said);
  } else if (place.faces) {
    set_facing(performance, {*place.faces, {}}, begin, begin, Origin::bound);
  } else {
    set_facing(performance, default_facing(performance.building, performance.person, place.at, begin), begin, begin,
               Origin::assumed);
  }
}

// Places at once. Gives false when no place is told or none is found.
bool place_at_once(const Performance& performance) {
  const bool first = performance.track().feet.empty();
  const Vec2 from = performance.state(performance.begin).at;
  const std::optional<SettledPlace> place = settle_told(
      performance, performance.begin, first ? std::nullopt : std::optional{from}, performance.building.findings);
  if (!place) return false;
  if (!first && performance.state(performance.begin).present) tell_jump(performance, from, place->at);
  set_place(performance, {{place->at}}, performance.begin, performance.begin, place->origin);
  face_at_first(performance, *place);
  add_mark(performance, *place, performance.begin);
  const auto* posture = find<PostureClause>(performance.line.clauses);
  if (posture != nullptr || place->on_piece) {
    const Posture told = posture != nullptr ? posture->posture : Posture::standing;
    set_stance(performance, {told, place->piece}, performance.begin, performance.begin);
  }
  return true;
}

void turn_where_they_are(const Performance& performance, Moment begin, Milliseconds length) {
  const Vec2 at = performance.state(begin).at;
  if (const auto facing = facing_told(performance, at, begin)) {
    set_facing(performance, *facing, begin, begin + length, Origin::said);
  }
}

PieceId piece_told(const Performance& performance) {
  Findings unheard;
  const auto place = settle_told(performance, performance.begin, performance.state(performance.begin).at, unheard);
  return place ? place->piece : PieceId{};
}

// Walks there first when it is more than a step, and says so.
Milliseconds go_there(const Performance& performance) {
  const PersonState state = performance.state(performance.begin);
  Findings unheard;
  const auto place = settle_told(performance, performance.begin, state.at, unheard);
  if (!place) return {};
  Performance going = performance;
  going.told = std::nullopt;
  static const Verb walking{"walks", Verb::Time::takes, 1.2, deed_walks};
  const double far = length(place->at - state.at);
  const Milliseconds took = deed_walks(going, walking);
  if (far > a_step) {
    report(performance.building, "place.walked", Severity::remark, performance.line.verb_span,
           "`" + performance.name() + "` is " + text_of(Metres{far}) + " away and walks there first, " + text_of(took),
           "to time it yourself, write the walk on a line of its own");
  }
  return took;
}

Facing turn_goal(const Performance& performance, const PersonState& state) {
  if (const auto told = facing_told(performance, state.at, performance.begin)) return *told;
  for (const Clause& clause : performance.line.clauses) {
    const auto* where = std::get_if<WhereClause>(&clause.body);
    const auto* to = std::get_if<ToClause>(&clause.body);
    const auto* at = std::get_if<AtClause>(&clause.body);
    const Place* place = where != nullptr             ? &where->place
                         : to != nullptr && to->place ? &*to->place
                         : at != nullptr              ? &at->place
                                                      : nullptr;
    if (place == nullptr) continue;
    const FacingClause facing{place->word == Place::Word::away_from, *place, std::nullopt, std::nullopt};
    const std::vector<PersonState> states = states_at(performance.building, performance.begin);
    const PlaceContext context =
        context_for(performance.building, states, performance.person, performance.begin, {place});
    if (const auto found = facing_of(facing, context, state.at, performance.building.findings)) return *found;
  }
  return {state.facing, {}};
}

Degrees lens_bearing(const Performance& performance, Vec2 at) {
  const CameraState camera =
      camera_at(performance.building.plan, on_air(performance.building.plan, performance.begin), performance.begin);
  const Vec2 way = floor_of(camera.at) - at;
  return length(way) < 1e-6 ? Degrees{} : bearing_of(way);
}

Milliseconds turn_to(const Performance& performance, const Facing& to, bool kept) {
  const PersonState state = performance.state(performance.begin);
  const Milliseconds length = turn_length(performance, state.facing, to, state.at);
  set_facing(performance, to, performance.begin, performance.begin + length, Origin::said);
  take_lane(performance, LaneKind::body, performance.begin + length, kept);
  return length;
}

std::optional<Gaze> gaze_told(const Performance& performance) {
  const std::string& verb = performance.line.verb;
  const auto ends_with = [&](std::string_view word) {
    return verb.size() > word.size() && verb.compare(verb.size() - word.size(), word.size(), word) == 0;
  };
  if (ends_with(" up")) return Gaze{Gaze::Manner::up, {}};
  if (ends_with(" down")) return Gaze{Gaze::Manner::down, {}};
  Building& building = performance.building;
  const PlaceWords words = place_words(building, performance.line.clauses, performance.statement.span);
  if (words.places.empty() && performance.line.objects.empty()) {
    if (ends_with(" away")) return Gaze{Gaze::Manner::away, performance.state(performance.begin).gaze};
    return Gaze{Gaze::Manner::ahead, {}};
  }
  const Place* place = words.places.empty() ? nullptr : words.places.front();
  if (place != nullptr && place->things.empty() && place->word == Place::Word::up) return Gaze{Gaze::Manner::up, {}};
  if (place != nullptr && place->things.empty() && place->word == Place::Word::down) {
    return Gaze{Gaze::Manner::down, {}};
  }
  std::optional<Target> target;
  if (place != nullptr && place->word == Place::Word::away_from && !place->things.empty()) {
    const std::vector<PersonState> states = states_at(building, performance.begin);
    const PlaceContext context = place_context(building, states, performance.person, performance.begin);
    target = target_of(place->things.front(), context, building.findings);
    return target ? std::optional{Gaze{Gaze::Manner::away, *target}} : std::nullopt;
  }
  target = target_told(performance);
  if (!target || target->kind == Target::Kind::nothing) return std::nullopt;
  return Gaze{Gaze::Manner::at_target, *target};
}

bool looks_at_self(const Performance& performance, const Gaze& gaze) {
  return gaze.target.kind == Target::Kind::person && gaze.target.index == performance.person.index;
}

// Somebody sits there already: on this seat, or on as many as there are.
void check_seat(const Performance& performance, PieceId seat, Moment moment) {
  if (!seat.known()) return;
  const Building& building = performance.building;
  const Piece& piece = building.plan.stage.pieces[static_cast<std::size_t>(seat.index)];
  if (piece.seats == 0) return;
  constexpr double one_seat = 0.3;
  const Vec2 at = performance.state(moment).at;
  int sitting = 0;
  std::optional<PersonId> same;
  for (std::size_t i = 0; i < building.plan.people.size(); ++i) {
    const PersonId other{static_cast<int>(i)};
    const PersonState state = person_at(building.plan, other, moment);
    const bool sits = state.posture == Posture::sitting || state.posture == Posture::lying;
    if (other == performance.person || !state.present || state.seat != seat || !sits) continue;
    ++sitting;
    if (length(state.at - at) < one_seat || sitting >= piece.seats) same = other;
  }
  if (!same) return;
  Finding& finding = report(
      performance.building, "time.seat-clash", Severity::error, performance.line.verb_span,
      "`" + performance.name() + "` would sit where `" + name_of(building, *same) + "` sits, on `" + piece.name + "`",
      "let `" + name_of(building, *same) + "` rise first, or name another seat");
  finding.at = moment;
  finding.subject.people = {performance.name(), name_of(building, *same)};
}

}  // namespace

Milliseconds turn_length(const Performance& performance, Degrees from, const Facing& to, Vec2 at) {
  Degrees goal = to.bearing;
  if (to.follows.kind != Target::Kind::nothing) {
    goal = bearing_to(performance.building, at, to.follows, performance.begin).value_or(goal);
  }
  const double seconds = std::max(0.4, abs(wrapped(goal - from)) / turn_rate);
  return performance.length(Seconds{seconds});
}

Facing default_facing(const Building& building, PersonId person, Vec2 at, Moment moment) {
  if (const auto to = addressed_by(building, person)) {
    const Target target{Target::Kind::person, to->index, {}};
    const bool placed = !building.plan.people[static_cast<std::size_t>(to->index)].feet.empty();
    const auto bearing = placed ? bearing_to(building, at, target, moment) : std::nullopt;
    if (bearing) return {*bearing, {}};
  }
  const CameraState camera = camera_at(building.plan, on_air(building.plan, moment), moment);
  const Vec2 way = floor_of(camera.at) - at;
  return {length(way) < 1e-6 ? Degrees{180} : bearing_of(way), {}};
}

void set_facing(const Performance& performance, Facing to, Moment begin, Moment end, Origin origin) {
  const Facing from{performance.state(begin).facing, {}};
  put(performance.track().body, {begin, end, from, to, origin, performance.statement.span});
}

void set_gaze(const Performance& performance, Gaze to, Moment begin, Origin origin) {
  const Segment<Gaze>* before = segment_at(performance.track().eyes, begin);
  const Gaze from = before == nullptr ? Gaze{} : before->to;
  const Milliseconds length = performance.opening ? Milliseconds{} : in_ms(eyes_arrive);
  put(performance.track().eyes, {begin, begin + length, from, to, origin, performance.statement.span});
}

void set_stance(const Performance& performance, Stance to, Moment begin, Moment end) {
  const PersonState state = performance.state(begin);
  put(performance.track().stance,
      {begin, end, Stance{state.posture, state.seat}, to, Origin::said, performance.statement.span});
}

void set_place(const Performance& performance, Walk walk, Moment begin, Moment end, Origin origin) {
  put(performance.track().feet, {begin, end, Walk{}, std::move(walk), origin, performance.statement.span});
}

void set_present(const Performance& performance, bool present, Moment moment) {
  put(performance.track().present, {moment, moment, !present, present, Origin::said, performance.statement.span});
}

void take_lane(const Performance& performance, LaneKind lane, Moment end, bool gives_way) {
  if (performance.opening) return;
  occupy(performance.building, performance.person.index, lane,
         {performance.begin, end, gives_way, performance.statement.span,
          "`" + performance.name() + " " + performance.line.verb + "`"});
}

Milliseconds deed_is(const Performance& performance, const Verb&) {
  set_present(performance, true, performance.begin);
  if (place_at_once(performance)) return {};
  turn_where_they_are(performance, performance.begin, {});
  if (const auto* posture = find<PostureClause>(performance.line.clauses)) {
    const PieceId seat = performance.state(performance.begin).seat;
    set_stance(performance, {posture->posture, seat}, performance.begin, performance.begin);
  }
  return {};
}

Milliseconds deed_is_away(const Performance& performance, const Verb&) {
  set_present(performance, false, performance.begin);
  return {};
}

Milliseconds deed_stands(const Performance& performance, const Verb& verb) {
  if (performance.opening) {
    set_present(performance, true, performance.begin);
    place_at_once(performance);
    return {};
  }
  const PersonState state = performance.state(performance.begin);
  const bool sits = state.posture != Posture::standing;
  const Milliseconds walked = go_there(performance);
  if (walked.count > 0) return walked;
  const Milliseconds length =
      sits ? performance.length(Seconds{verb.number}) : performance.told.value_or(Milliseconds{});
  if (sits) set_stance(performance, {Posture::standing, state.seat}, performance.begin, performance.begin + length);
  turn_where_they_are(performance, performance.begin, std::min(length, in_ms(eyes_arrive)));
  take_lane(performance, LaneKind::body, performance.begin + length, false);
  return length;
}

Milliseconds deed_settles_down(const Performance& performance, const Verb& verb) {
  const Posture posture = posture_of(performance, verb.word);
  if (performance.opening) {
    set_present(performance, true, performance.begin);
    place_at_once(performance);
    const PieceId seat = piece_told(performance);
    set_stance(performance, {posture, seat}, performance.begin, performance.begin);
    check_seat(performance, seat, performance.begin);
    return {};
  }
  const PieceId seat = piece_told(performance);
  const Milliseconds walked = go_there(performance);
  // On the way to a seat it is theirs already, so that reaching it is no collision.
  if (walked.count > 0 && seat.known()) {
    set_stance(performance, {Posture::standing, seat}, performance.begin, performance.begin);
  }
  const Moment begin = performance.begin + walked;
  const Milliseconds length = performance.told && *performance.told > walked
                                  ? *performance.told - walked
                                  : to_milliseconds(Seconds{verb.number} * performance.pace);
  set_stance(performance, {posture, seat}, begin, begin + length);
  check_seat(performance, seat, begin + length);
  if (walked.count == 0) turn_where_they_are(performance, begin, length);
  take_lane(performance, LaneKind::body, begin + length, false);
  return walked + length;
}

Milliseconds deed_rises(const Performance& performance, const Verb& verb) {
  const Milliseconds length = performance.length(Seconds{verb.number});
  // The seat stays theirs while they stand before it.
  const PieceId seat = performance.state(performance.begin).seat;
  set_stance(performance, {Posture::standing, seat}, performance.begin, performance.begin + length);
  turn_where_they_are(performance, performance.begin, length);
  take_lane(performance, LaneKind::body, performance.begin + length, false);
  return length;
}

Milliseconds deed_turns(const Performance& performance, const Verb&) {
  // `turns 30 deg toward Oda`
  const auto* shift = find<ShiftClause>(performance.line.clauses);
  if (shift != nullptr && dimension_of(shift->amount) == Dimension::angle) {
    return deed_cheats(performance, {"turns", Verb::Time::takes, 0.5, deed_cheats});
  }
  return turn_to(performance, turn_goal(performance, performance.state(performance.begin)), false);
}

Milliseconds deed_turns_away(const Performance& performance, const Verb& verb) {
  const PersonState state = performance.state(performance.begin);
  if (!place_words(performance.building, performance.line.clauses, {}).places.empty()) {
    return deed_turns(performance, verb);
  }
  // Nothing is named, so it is the lens they turn from, on over the side they were turned to.
  const Degrees lens = lens_bearing(performance, state.at);
  const double side = wrapped(state.facing - lens).value < 0 ? -1 : 1;
  return turn_to(performance, {wrapped(lens + turned_away * side), {}}, false);
}

Milliseconds deed_faces(const Performance& performance, const Verb&) {
  const std::optional<Target> target = target_told(performance);
  if (!target) return {};
  const PersonState state = performance.state(performance.begin);
  const Degrees now = bearing_to(performance.building, state.at, *target, performance.begin).value_or(state.facing);
  return turn_to(performance, {now, *target}, true);
}

Milliseconds deed_cheats(const Performance& performance, const Verb& verb) {
  const PersonState state = performance.state(performance.begin);
  Degrees angle = usual_cheat;
  Degrees goal = lens_bearing(performance, state.at);
  if (const auto* shift = find<ShiftClause>(performance.line.clauses)) {
    if (const auto told = angle_told(shift->amount, performance.building.findings)) angle = *told;
    const std::vector<PersonState> states = states_at(performance.building, performance.begin);
    const PlaceContext context = place_context(performance.building, states, performance.person, performance.begin);
    std::optional<Target> target;
    if (shift->place && !shift->place->things.empty()) {
      target = target_of(shift->place->things.front(), context, performance.building.findings);
    }
    if (target && target->kind != Target::Kind::nothing) {
      goal = bearing_to(performance.building, state.at, *target, performance.begin).value_or(goal);
    }
  }
  const Degrees way = wrapped(goal - state.facing);
  const double turn = std::copysign(std::min(angle.value, abs(way).value), way.value);
  const Milliseconds length = performance.length(Seconds{verb.number});
  set_facing(performance, {wrapped(state.facing + Degrees{turn}), {}}, performance.begin, performance.begin + length,
             Origin::said);
  take_lane(performance, LaneKind::body, performance.begin + length, false);
  return length;
}

Milliseconds deed_looks(const Performance& performance, const Verb& verb) {
  const std::optional<Gaze> gaze = gaze_told(performance);
  if (!gaze || looks_at_self(performance, *gaze)) return {};
  set_gaze(performance, *gaze, performance.begin, Origin::said);
  const Milliseconds length = performance.told.value_or(in_ms(Seconds{verb.number}));
  take_lane(performance, LaneKind::eyes, performance.begin + length, true);
  return length;
}

Milliseconds deed_glances(const Performance& performance, const Verb& verb) {
  const std::optional<Gaze> gaze = gaze_told(performance);
  if (!gaze || looks_at_self(performance, *gaze)) return {};
  const Segment<Gaze>* before = segment_at(performance.track().eyes, performance.begin);
  const Gaze back = before == nullptr ? Gaze{} : before->to;
  const Origin origin = before == nullptr ? Origin::assumed : before->origin;
  const Milliseconds length = performance.length(Seconds{verb.number});
  const Milliseconds rests = std::max(length - in_ms(eyes_arrive), in_ms(eyes_arrive + glance_rests));
  set_gaze(performance, *gaze, performance.begin, Origin::said);
  set_gaze(performance, back, performance.begin + rests, origin);
  take_lane(performance, LaneKind::eyes, performance.begin + length, true);
  return length;
}

Milliseconds deed_watches(const Performance& performance, const Verb& verb) { return deed_looks(performance, verb); }

}  // namespace lensward
