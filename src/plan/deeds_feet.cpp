// Deeds of the feet: walking, entering, leaving, and the mark where they end.
#include <algorithm>
#include <utility>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "figure/proportions.h"
#include "plan/amounts.h"
#include "plan/deeds.h"
#include "plan/floor.h"

namespace lensward {
namespace {

constexpr double walking_speed = 1.2, hurrying_speed = 2.2;
constexpr Seconds rising{1.2}, turn_at_corner{0.4}, turn_on_arrival{0.6};
// Beyond a door or the frame's edge a body is out of sight.
constexpr double beyond_door = 0.6, beyond_edge = 0.4;
constexpr int arrival_rounds = 4;
// A goal that moves is followed for so long at most.
constexpr Milliseconds arrival_step{100}, longest_chase{60000};
constexpr Milliseconds through_a_door{700};

struct Journey {
  SettledPlace goal;
  std::vector<Vec2> path;
  Milliseconds length;
};

void append_way(const Performance& performance, Vec2 to, std::vector<Vec2>& path) {
  const Stage& stage = performance.building.plan.stage;
  const Metres clearance = body_radius(stage.people[static_cast<std::size_t>(performance.person.index)].stature);
  const Way way = way_between(stage, path.back(), to, clearance);
  if (way.blocked) {
    report(performance.building, "place.blocked-path", Severity::error, performance.statement.span,
           "`" + performance.name() + "` finds no way there round what stands between",
           "leave 0.5 m between the pieces, or name another way with `via …`");
  }
  path.insert(path.end(), way.path.begin() + 1, way.path.end());
}

// The points a route goes by, in the order written.
std::vector<Vec2> route_points(const Performance& performance, Vec2 from, Moment moment) {
  Building& building = performance.building;
  std::vector<Vec2> points;
  for (const Clause& clause : performance.line.clauses) {
    const auto* route = std::get_if<RouteClause>(&clause.body);
    if (route == nullptr || !route->place || route->kind == RouteClause::Kind::from) continue;
    PlaceWords words;
    words.places = {&*route->place};
    words.span = clause.span;
    const std::vector<PersonState> states = states_at(building, moment);
    PlaceContext context = context_for(building, states, performance.person, moment, words.places);
    context.coming_from = points.empty() ? from : points.back();
    if (const auto point = settle(words, context, 0, 1, building.findings)) points.push_back(point->at);
  }
  return points;
}

double usual_speed(const Performance& performance) {
  return figure_told(performance.building, "walking-pace", walking_speed);
}

Milliseconds walking_time(const Performance& performance, double path, double speed) {
  if (performance.told) return *performance.told;
  const double metres_a_second = performance.hurrying ? hurrying_speed : speed;
  return to_milliseconds(Seconds{path / metres_a_second} * performance.pace);
}

std::vector<Vec2> path_to(const Performance& performance, Vec2 from, const std::vector<Vec2>& by, Vec2 to) {
  std::vector<Vec2> path{from};
  for (const Vec2 point : by) append_way(performance, point, path);
  append_way(performance, to, path);
  return path;
}

// A walk binds on arrival, which depends on how far the walk is.
class Journeying {
 public:
  Journeying(const Performance& performance, Vec2 from, Moment begin, double speed)
      : performance_(performance),
        from_(from),
        begin_(begin),
        speed_(speed),
        by_(route_points(performance, from, begin)) {}

  std::optional<Journey> find() {
    std::optional<Journey> found = to_where_it_is(begin_);
    if (!found || !names_people(performance_.building, performance_.line.clauses)) return told(found);
    const Vec2 first_goal = found->goal.at;
    found = on_arrival(*found);
    if (found && length(first_goal - found->goal.at) > 0.3) tell_moving(begin_ + found->length);
    return told(found);
  }

 private:
  std::optional<Journey> to_where_it_is(Moment moment) {
    findings_ = {};
    const std::optional<SettledPlace> goal = settle_told(performance_, moment, from_, findings_);
    if (!goal) return std::nullopt;
    std::vector<Vec2> path = path_to(performance_, from_, by_, goal->at);
    const Milliseconds took = walking_time(performance_, Walk{path}.length().value, speed_);
    return Journey{*goal, std::move(path), took};
  }

  // The earliest moment by which the walker can be where the goal is then.
  std::optional<Journey> on_arrival(const Journey& at_first) {
    std::optional<Journey> found = at_first;
    Milliseconds early, late;
    for (int round = 0; found && round < arrival_rounds; ++round) {
      late = found->length;
      found = to_where_it_is(begin_ + late);
      if (found && found->length == late) return found;
    }
    early = late;
    while (found && late < longest_chase && found->length > late) {
      early = late;
      late += arrival_step;
      found = to_where_it_is(begin_ + late);
    }
    while (found && (late - early).count > 1) {
      const Milliseconds middle{(early.count + late.count) / 2};
      const std::optional<Journey> there = to_where_it_is(begin_ + middle);
      if (!there) break;
      (there->length > middle ? early : late) = middle;
    }
    return to_where_it_is(begin_ + late);
  }

  std::optional<Journey> told(const std::optional<Journey>& found) {
    for (const Finding& finding : findings_.all()) performance_.building.findings.add(finding);
    return found;
  }

  void tell_moving(Moment arrival) {
    report(performance_.building, "place.moving-target", Severity::remark, performance_.statement.span,
           "`" + performance_.name() + "` goes to where that is at " + text_of(arrival) + ", not where it was at " +
               text_of(begin_),
           "to meet it where it was, begin this walk later or name the place");
  }

  const Performance& performance_;
  Vec2 from_;
  Moment begin_;
  double speed_;
  std::vector<Vec2> by_;
  Findings findings_;
};

std::optional<Journey> journey(const Performance& performance, Vec2 from, Moment begin, double speed) {
  return Journeying(performance, from, begin, speed).find();
}

// The body follows the path, corner by corner.
void turn_along(const Performance& performance, const Walk& walk, Moment begin, Moment end) {
  const double whole = walk.length().value;
  if (whole <= 0) return;
  const auto moment_at = [&](double share) { return begin + to_milliseconds(to_seconds(end - begin) * share); };
  double gone = 0;
  for (std::size_t i = 1; i < walk.path.size(); ++i) {
    const Vec2 leg = walk.path[i] - walk.path[i - 1];
    if (length(leg) < 1e-6) continue;
    const Moment from = moment_at(gone / whole);
    gone += length(leg);
    const Moment to = std::min(from + to_milliseconds(turn_at_corner), moment_at(gone / whole));
    set_facing(performance, {bearing_of(leg), {}}, from, to, Origin::carried);
  }
}

// Told, else what the place faces, else whom they speak to; else they stay as they came.
std::optional<Facing> facing_on_arrival(const Performance& performance, const SettledPlace& goal, Moment arrival) {
  if (const auto told = facing_told(performance, goal.at, arrival)) return told;
  if (goal.body) return Facing{*goal.body, {}};
  if (goal.faces) return Facing{*goal.faces, {}};
  const std::optional<PersonId> to = addressed_by(performance.building, performance.person);
  if (!to) return std::nullopt;
  const auto bearing = bearing_to(performance.building, goal.at, {Target::Kind::person, to->index, {}}, arrival);
  return bearing ? std::optional{Facing{*bearing, {}}} : std::nullopt;
}

void arrive(const Performance& performance, const Journey& way, Moment begin, bool turns_body) {
  const Moment arrival = begin + way.length;
  if (turns_body) turn_along(performance, {way.path}, begin, arrival);
  const bool told =
      find<FacingClause>(performance.line.clauses) != nullptr || find<BodyClause>(performance.line.clauses) != nullptr;
  const std::optional<Facing> facing = facing_on_arrival(performance, way.goal, arrival);
  if (facing && (turns_body || told)) {
    const Milliseconds turn = std::min(to_milliseconds(turn_on_arrival), Milliseconds{way.length.count / 2});
    set_facing(performance, *facing, arrival - turn, arrival, told ? Origin::said : Origin::assumed);
  }
  add_mark(performance, way.goal, arrival);
}

// Whoever sits has to rise first.
Milliseconds rise_first(const Performance& performance) {
  const PersonState state = performance.state(performance.begin);
  if (state.posture == Posture::standing) {
    if (state.seat.known()) set_stance(performance, {}, performance.begin, performance.begin + to_milliseconds(rising));
    return {};
  }
  if (performance.line.verb.rfind("crawl", 0) == 0) return {};
  const Milliseconds length = to_milliseconds(rising);
  set_stance(performance, {Posture::standing, {}}, performance.begin, performance.begin + length);
  return length;
}

Milliseconds walk_from(const Performance& performance, Vec2 from, Moment begin, double speed, bool turns_body) {
  const std::optional<Journey> way = journey(performance, from, begin, speed);
  if (!way) return {};
  set_place(performance, {way->path}, begin, begin + way->length, way->goal.origin);
  arrive(performance, *way, begin, turns_body);
  return way->length;
}

const Opening* door_told(const Performance& performance) {
  const Stage& stage = performance.building.plan.stage;
  for (const Clause& clause : performance.line.clauses) {
    const auto* where = std::get_if<WhereClause>(&clause.body);
    if (where == nullptr || where->place.things.empty()) continue;
    const auto named = performance.building.names.find(where->place.things.front().name.text);
    const auto* opening = named ? std::get_if<OpeningId>(&*named) : nullptr;
    if (opening != nullptr) return &stage.openings[static_cast<std::size_t>(opening->index)];
  }
  return nullptr;
}

const Place* frame_place(const Clauses& clauses) {
  for (const Clause& clause : clauses) {
    const auto* where = std::get_if<WhereClause>(&clause.body);
    if (where != nullptr && where->place.word == Place::Word::frame) return &where->place;
    const auto* at = std::get_if<AtClause>(&clause.body);
    if (at != nullptr && at->place.word == Place::Word::frame) return &at->place;
  }
  return nullptr;
}

const Opening* nearest_door(const Stage& stage, Vec2 to) {
  const Opening* nearest = nullptr;
  for (const Opening& opening : stage.openings) {
    if (opening.kind != Opening::Kind::door) continue;
    if (nearest == nullptr || length(opening.middle - to) < length(nearest->middle - to)) nearest = &opening;
  }
  return nearest;
}

CameraState camera_for(const Performance& performance, const Place* place) {
  const std::vector<PersonState> nobody;
  std::vector<const Place*> places;
  if (place != nullptr) places.push_back(place);
  return context_for(performance.building, nobody, {}, performance.begin, places).camera;
}

// Out of the picture at the same depth as `at`, on the side told, within the room.
Vec2 beyond_frame(const Performance& performance, const CameraState& camera, Side side, Vec2 at) {
  const Vec2 forward = direction_of(camera.pan);
  const Vec2 right{forward.y, -forward.x};
  const double depth = std::max(dot(at - floor_of(camera.at), forward), 0.5);
  const double half = depth * camera.gate_width.value / camera.focal.value / 2;
  const double across = (half + beyond_edge) * (side == Side::right ? 1 : -1);
  const Vec2 wanted = floor_of(camera.at) + forward * depth + right * across;
  const Stage& stage = performance.building.plan.stage;
  const Clearance clearance;
  if (within_room(stage, clearance, wanted) || !within_room(stage, clearance, at)) return wanted;
  double inside = 0, outside = 1;
  for (int i = 0; i < 20; ++i) {
    const double middle = (inside + outside) / 2;
    (within_room(stage, clearance, mix(at, wanted, middle)) ? inside : outside) = middle;
  }
  return mix(at, wanted, inside);
}

// A door lets one through at a time.
Performance one_after_another(const Performance& together) {
  Performance performance = together;
  performance.begin += Milliseconds{through_a_door.count * together.index};
  return performance;
}

// A door that was told shut is opened for whoever goes through, and shut behind them.
void go_through(const Performance& performance, const Opening& door, Moment begin, Moment end) {
  const Stage& stage = performance.building.plan.stage;
  const auto index = static_cast<std::size_t>(&door - stage.openings.data());
  const Lane<Share>& lane = performance.building.plan.openings[index].open;
  const bool told_shut = !lane.empty() && stepped(lane, begin, Share{1}).value < 0.5;
  if (!told_shut) return;
  const Target what{Target::Kind::opening, static_cast<int>(index), {}};
  set_open(performance, what, true, begin, {});
  set_open(performance, what, false, end, {});
}

Milliseconds enter_by(const Performance& performance, const Opening& door, double opening_time) {
  Building& building = performance.building;
  const Vec2 outside = door.middle - door.into_room * beyond_door;
  const Vec2 inside = door.middle + door.into_room * beyond_door;
  const Milliseconds opens = performance.told ? Milliseconds{} : performance.length(Seconds{opening_time});
  const Moment begin = performance.begin + opens;
  set_present(performance, true, performance.begin);
  set_place(performance, {{outside}}, performance.begin, performance.begin, Origin::said);
  set_facing(performance, {bearing_of(door.into_room), {}}, performance.begin, performance.begin, Origin::bound);
  Findings findings;
  // `by the Yard-Door` names the door and no place, so only what else is told counts as where to.
  const bool goes_on =
      find<ToClause>(performance.line.clauses) != nullptr || find<AtClause>(performance.line.clauses) != nullptr;
  std::optional<SettledPlace> goal;
  if (goes_on) {
    PlaceWords words = place_words(building, performance.line.clauses, performance.statement.span);
    std::erase_if(words.places, [](const Place* place) { return place->word == Place::Word::by; });
    const std::vector<PersonState> states = states_at(building, begin);
    PlaceContext context = context_for(building, states, performance.person, begin, words.places);
    context.coming_from = inside;
    goal = settle(words, context, performance.index, performance.count, building.findings);
  }
  if (!goal) {
    goal = SettledPlace{inside, Origin::bound, {}, {}, {}, false, {}, "just inside `" + door.name + "`"};
  }
  std::vector<Vec2> path{outside, inside};
  if (length(goal->at - inside) > 1e-6) append_way(performance, goal->at, path);
  const Milliseconds took = walking_time(performance, Walk{path}.length().value, usual_speed(performance));
  set_place(performance, {path}, begin, begin + took, goal->origin);
  arrive(performance, {*goal, path, took}, begin, true);
  go_through(performance, door, performance.begin, begin + took);
  return opens + took;
}

Milliseconds enter_frame(const Performance& performance, const Place* edge) {
  Building& building = performance.building;
  const CameraState camera = camera_for(performance, edge);
  std::optional<SettledPlace> goal = settle_told(performance, performance.begin, std::nullopt, building.findings);
  if (!goal) return {};
  const Side side = edge != nullptr && edge->side ? *edge->side : Side::right;
  const Vec2 from = beyond_frame(performance, camera, side, goal->at);
  std::vector<Vec2> path{from};
  append_way(performance, goal->at, path);
  const Milliseconds took = walking_time(performance, Walk{path}.length().value, usual_speed(performance));
  set_present(performance, true, performance.begin);
  set_place(performance, {path}, performance.begin, performance.begin + took, goal->origin);
  arrive(performance, {*goal, path, took}, performance.begin, true);
  return took;
}

Milliseconds go_out(const Performance& performance, Vec2 to, std::optional<Vec2> by, double opening_time) {
  const Milliseconds rises = rise_first(performance);
  const Moment begin = performance.begin + rises;
  std::vector<Vec2> path{performance.state(begin).at};
  append_way(performance, by.value_or(to), path);
  if (by) path.push_back(to);
  const Milliseconds opens = performance.told ? Milliseconds{} : to_milliseconds(Seconds{opening_time});
  const Milliseconds took = walking_time(performance, Walk{path}.length().value, usual_speed(performance)) + opens;
  set_place(performance, {path}, begin, begin + took, Origin::bound);
  turn_along(performance, {path}, begin, begin + took);
  set_present(performance, false, begin + took);
  take_lane(performance, LaneKind::feet, begin + took, false);
  return rises + took;
}

}  // namespace

Milliseconds deed_walks(const Performance& performance, const Verb& verb) {
  const bool turns_body = verb.word != "steps" && verb.word != "backs";
  const Milliseconds rises = rise_first(performance);
  const Moment begin = performance.begin + rises;
  const Vec2 from = performance.state(begin).at;
  const bool walks = verb.word == "walks" || verb.word == "crosses";
  const double speed = walks ? usual_speed(performance) : verb.number;
  const Milliseconds took = walk_from(performance, from, begin, speed, turns_body);
  take_lane(performance, LaneKind::feet, begin + took, performance.runs_on);
  return rises + took;
}

Milliseconds deed_follows(const Performance& performance, const Verb& verb) {
  const std::optional<Target> target = target_told(performance);
  const Vec2 from = performance.state(performance.begin).at;
  if (!target) return {};
  // Goes where the one followed will have come to, at the distance they had.
  Moment end = performance.begin;
  if (target->kind == Target::Kind::person) {
    for (const auto& walk : performance.building.plan.people[static_cast<std::size_t>(target->index)].feet) {
      if (walk.begin <= performance.begin && walk.end > end) end = walk.end;
    }
  }
  const std::optional<Vec3> goal = point_of(performance.building.plan, *target, end);
  if (!goal || end == performance.begin) return {};
  const Vec2 way = floor_of(*goal) - from;
  const Vec2 to = floor_of(*goal) - unit(way) * std::min(0.9, length(way));
  std::vector<Vec2> path{from};
  append_way(performance, to, path);
  const Milliseconds took = walking_time(performance, Walk{path}.length().value, verb.number);
  set_place(performance, {path}, performance.begin, performance.begin + took, Origin::bound);
  turn_along(performance, {path}, performance.begin, performance.begin + took);
  take_lane(performance, LaneKind::feet, performance.begin + took, true);
  return took;
}

Milliseconds deed_keeps(const Performance& performance, const Verb&) {
  const PersonState state = performance.state(performance.begin);
  const auto* facing = find<FacingClause>(performance.line.clauses);
  if (facing == nullptr) return {};
  const std::optional<Facing> to = facing_told(performance, state.at, performance.begin);
  if (!to) return {};
  Facing kept = *to;
  if (kept.follows.kind == Target::Kind::nothing && facing->at) {
    const std::vector<PersonState> states = states_at(performance.building, performance.begin);
    const PlaceContext context = place_context(performance.building, states, performance.person, performance.begin);
    if (const auto target = target_of(*facing->at, context, performance.building.findings)) kept.follows = *target;
  }
  const Milliseconds length = turn_length(performance, state.facing, kept, state.at);
  set_facing(performance, kept, performance.begin, performance.begin + length, Origin::said);
  take_lane(performance, LaneKind::body, performance.begin + length, true);
  return length;
}

// Who waits outside the walls may come in; who stands within them cannot.
void tell_if_already_here(const Performance& performance) {
  const PersonState state = performance.state(performance.begin);
  const Outline& walls = performance.building.plan.stage.room.outline;
  if (!state.present || walls.empty() || !encloses(walls, state.at)) return;
  report(performance.building, "already-here", Severity::warning, performance.statement.span,
         "`" + performance.name() + "` enters but is in the room already, at (" + number(state.at.x, 2) + ", " +
             number(state.at.y, 2) + ") m",
         "let them leave before, as in `" + performance.name() + " exits`, or write `walks to` for `enters`")
      .subject.people = {performance.name()};
}

Milliseconds deed_enters(const Performance& together, const Verb& verb) {
  const Performance performance = one_after_another(together);
  tell_if_already_here(performance);
  if (const Opening* door = door_told(performance)) {
    return performance.begin - together.begin + enter_by(performance, *door, verb.number);
  }
  const Place* edge = frame_place(performance.line.clauses);
  const bool placed = !place_words(performance.building, performance.line.clauses, {}).places.empty();
  if (edge != nullptr || performance.building.plan.stage.openings.empty()) {
    if (placed) return enter_frame(performance, edge);
    assume(performance.building,
           "`" + performance.name() + "` enters by no door and past no edge of the frame, so stays where they are",
           "enters frame right", performance.statement.span);
    set_present(performance, true, performance.begin);
    return {};
  }
  const Opening* door = nearest_door(performance.building.plan.stage, {});
  if (door == nullptr) return {};
  assume(performance.building, "`" + performance.name() + "` enters by `" + door->name + "`, since no door is told",
         "by the " + door->name, performance.statement.span);
  return enter_by(performance, *door, verb.number);
}

Milliseconds deed_exits(const Performance& together, const Verb& verb) {
  const Performance performance = one_after_another(together);
  const Vec2 at = performance.state(performance.begin).at;
  const Opening* door = door_told(performance);
  const Place* edge = frame_place(performance.line.clauses);
  if (door == nullptr && edge == nullptr) {
    door = nearest_door(performance.building.plan.stage, at);
    if (door != nullptr) {
      assume(performance.building,
             "`" + performance.name() + "` leaves by `" + door->name + "`, the nearest, since no door is told",
             "by the " + door->name, performance.statement.span);
    }
  }
  if (door != nullptr) {
    const Milliseconds took = go_out(performance, door->middle - door->into_room * beyond_door,
                                     door->middle + door->into_room * beyond_door, verb.number);
    go_through(performance, *door, performance.begin, performance.begin + took);
    return performance.begin - together.begin + took;
  }
  const CameraState camera = camera_for(performance, edge);
  const Vec2 forward = direction_of(camera.pan);
  const Vec2 right{forward.y, -forward.x};
  const Side nearer = dot(at - floor_of(camera.at), right) < 0 ? Side::left : Side::right;
  const Side side = edge != nullptr && edge->side ? *edge->side : nearer;
  return go_out(performance, beyond_frame(performance, camera, side, at), std::nullopt, 0);
}

}  // namespace lensward
