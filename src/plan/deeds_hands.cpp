// Deeds of the hands: props taken and put, business, and what ends it.
#include <algorithm>
#include <utility>

#include "base/angle.h"
#include "plan/deeds.h"
#include "plan/floor.h"
#include "plan/hands.h"

namespace lensward {
namespace {

constexpr double hand_strength = 0.7, business_strength = 0.6;
constexpr Moment no_end_yet{INT64_MAX / 4};

double strength_of(const Performance& performance, double usual) {
  const auto* scale = find<ScaleClause>(performance.line.clauses);
  if (scale == nullptr) return usual;
  switch (scale->scale) {
    case Scale::small:
      return 0.3;
    case Scale::busy:
      return 0.6;
    case Scale::large:
      return 1;
    case Scale::usual:
      break;
  }
  return usual;
}

// "puts Letter": the verb and its object, for the pages.
std::string what_of(const Performance& performance) {
  std::string what = performance.line.verb;
  for (const Thing& thing : performance.line.objects) {
    if (!thing.name.text.empty()) what += " " + thing.name.text;
  }
  return what;
}

Hands hands_told(const Performance& performance) {
  const auto* hands = find<HandsClause>(performance.line.clauses);
  if (hands == nullptr) return performance.line.quoted ? Hands::both : Hands::any;
  if (hands->kind == HandsClause::Kind::both) return Hands::both;
  return hands->kind == HandsClause::Kind::left ? Hands::left : Hands::right;
}

Business& add_business(const Performance& performance, Milliseconds length, std::string what, double strength) {
  end_business(performance.building, performance.person, performance.begin, hands_told(performance));
  Business business;
  business.begin = performance.begin;
  business.end = performance.begin + length;
  business.what = std::move(what);
  business.strength = strength;
  business.said_at = performance.statement.span;
  std::vector<Business>& hands = performance.track().hands;
  const auto after = std::upper_bound(hands.begin(), hands.end(), business.begin,
                                      [](Moment moment, const Business& other) { return moment < other.begin; });
  const auto place = hands.insert(after, std::move(business));
  // Business that still goes on may have moved by one.
  const auto index = static_cast<std::size_t>(place - hands.begin());
  for (OpenBusiness& open : performance.building.open_business) {
    if (open.person == performance.person && open.index >= index) ++open.index;
  }
  return *place;
}

LaneKind hand_told(const Performance& performance) {
  const auto* hands = find<HandsClause>(performance.line.clauses);
  return hands != nullptr && hands->kind == HandsClause::Kind::left ? LaneKind::left_hand : LaneKind::right_hand;
}

void take_hands(const Performance& performance, Moment end, bool gives_way) {
  const auto* hands = find<HandsClause>(performance.line.clauses);
  // Two hands serve two deeds when nobody says which; only hands that are told can clash.
  if (hands == nullptr) return;
  if (hands->kind == HandsClause::Kind::both) {
    take_lane(performance, LaneKind::left_hand, end, gives_way);
    take_lane(performance, LaneKind::right_hand, end, gives_way);
  } else {
    take_lane(performance, hand_told(performance), end, gives_way);
  }
}

void check_objects(const Performance& performance) {
  const std::string& verb = performance.line.verb;
  const char* const handled = verb.starts_with("open") || verb.starts_with("close") ? "door " : "prop ";
  for (const Thing& thing : performance.line.objects) {
    if (thing.kind == Thing::Kind::named && !thing.name.text.empty()) {
      resolve_any(performance.building.names, thing.name, performance.building.findings, handled);
    }
  }
}

std::optional<Target> first_object(const Performance& performance) {
  if (performance.line.objects.empty()) return std::nullopt;
  return target_told(performance);
}

// The piece a thing is put down on, when the line names one and no point of it.
const Piece* piece_under(const Performance& performance, const Place& place) {
  using Word = Place::Word;
  const bool on_it = place.word == Word::on || place.word == Word::thing || place.word == Word::in ||
                     place.word == Word::inside || place.word == Word::over;
  if (!on_it || place.things.size() != 1 || place.things.front().kind != Thing::Kind::named) return nullptr;
  const std::optional<Named> named = performance.building.names.find(place.things.front().name.text);
  const auto* piece = named ? std::get_if<PieceId>(&*named) : nullptr;
  return piece == nullptr ? nullptr : &performance.building.plan.stage.pieces[static_cast<std::size_t>(piece->index)];
}

// The piece that holds a point of the floor up; null for the floor itself.
const Piece* piece_below(const Stage& stage, Vec2 at) {
  const Piece* highest = nullptr;
  for (const Piece& piece : stage.pieces) {
    const bool over = holds(outline_of(box_of(piece)), at, 1e-6);
    if (over && (highest == nullptr || piece.height > highest->height)) highest = &piece;
  }
  return highest;
}

Target resting_on(const Performance& performance, const Piece& piece, Vec3 at) {
  const auto index = static_cast<int>(&piece - performance.building.plan.stage.pieces.data());
  return {Target::Kind::piece, index, at};
}

Target floor_before(const Performance& performance, Moment moment) {
  constexpr double ahead = 0.3;
  const PersonState state = performance.state(moment);
  return {Target::Kind::point, -1, raised(state.at + direction_of(state.facing) * ahead, 0)};
}

// Where a prop is put down: on the piece or at the point the line names, else on what stands before the one who puts
// it, else on the floor there.
Target put_goal(const Performance& performance, Moment moment) {
  Building& building = performance.building;
  const Stage& stage = building.plan.stage;
  const PlaceWords words = place_words(building, performance.line.clauses, performance.statement.span);
  const PersonState state = performance.state(moment);
  if (words.places.empty()) {
    const Piece* nearest = nullptr;
    constexpr double at_hand = 0.5;
    for (const Piece& piece : stage.pieces) {
      if (distance_to(box_of(piece), state.at) <= at_hand && piece.height.value > 0.1) nearest = &piece;
    }
    return nearest != nullptr ? resting_on(performance, *nearest, top_before(*nearest, state.at))
                              : floor_before(performance, moment);
  }
  const Place& place = *words.places.front();
  if (const Piece* piece = piece_under(performance, place)) {
    return resting_on(performance, *piece, top_before(*piece, state.at));
  }
  const std::vector<PersonState> states = states_at(building, moment);
  const PlaceContext context = context_for(building, states, performance.person, moment, {&place});
  const Target goal = target_of(place, context, building.findings).value_or(Target{});
  if (goal.kind != Target::Kind::point) return goal;
  const Vec2 at = floor_of(goal.point);
  const bool below = place.word == Place::Word::under;
  const Piece* piece = below ? nullptr : piece_below(stage, at);
  return piece != nullptr ? resting_on(performance, *piece, raised(at, piece->height.value))
                          : Target{Target::Kind::point, -1, raised(at, 0)};
}

Milliseconds half(Milliseconds length) { return {length.count / 2}; }

Milliseconds business_with(const Performance& performance, const Verb& verb, double strength) {
  check_objects(performance);
  const Milliseconds length = performance.length(Seconds{verb.number});
  Business& business = add_business(performance, length, what_of(performance), strength);
  if (const auto object = first_object(performance)) business.object = *object;
  take_hands(performance, performance.begin + length, false);
  return length;
}

void reach_first_object(const Performance& performance, Moment moment) {
  const std::optional<Target> object = first_object(performance);
  using Kind = Target::Kind;
  if (!object || object->kind == Kind::nothing || object->kind == Kind::lens || object->kind == Kind::point) return;
  check_reach(performance, *object, moment);
}

// Of a goal on a piece the point on its top.
Target point_on(const Target& goal) {
  const bool on_top = goal.kind == Target::Kind::piece && goal.point != Vec3{};
  return on_top ? Target{Target::Kind::point, -1, goal.point} : goal;
}

// The hands told are those of the one who gives.
DeedLine without_hands(DeedLine line) {
  std::erase_if(line.clauses, [](const Clause& clause) { return std::holds_alternative<HandsClause>(clause.body); });
  return line;
}

// `at Oda`, or `from Wren to Oda`: there at once, then over.
void aim_carried(const Performance& performance, LampId lamp, Milliseconds length) {
  Building& building = performance.building;
  Lane<Target>& lane = building.plan.lamps[static_cast<std::size_t>(lamp.index)].aim_at;
  const auto aimed = [&](const Place& place) {
    const std::vector<PersonState> states = states_at(building, performance.begin);
    const PlaceContext context = context_for(building, states, performance.person, performance.begin, {&place});
    return aimed_at(place, context, building.findings);
  };
  Target from{Target::Kind::point, -1, lamp_at(building.plan, lamp, performance.begin).aim};
  std::optional<Target> to;
  const auto* route = find<RouteClause>(performance.line.clauses);
  if (route != nullptr && route->to) {
    if (route->place) from = aimed(*route->place).value_or(from);
    to = aimed(*route->to);
  } else {
    const PlaceWords words = place_words(building, performance.line.clauses, performance.statement.span);
    if (!words.places.empty()) to = aimed(*words.places.front());
  }
  if (!to) return;
  put(lane, {performance.begin, performance.begin + length, from, *to, Origin::said, performance.statement.span});
}

}  // namespace

Milliseconds deed_with_hands(const Performance& performance, const Verb& verb) {
  if (performance.line.objects.empty()) {
    const Milliseconds length = performance.length(Seconds{verb.number});
    Business& business =
        add_business(performance, length, what_of(performance), strength_of(performance, hand_strength));
    if (!place_words(performance.building, performance.line.clauses, {}).places.empty()) {
      if (const auto target = target_told(performance)) business.object = *target;
    }
    take_hands(performance, performance.begin + length, false);
    return length;
  }
  return business_with(performance, verb, strength_of(performance, hand_strength));
}

Milliseconds deed_takes(const Performance& performance, const Verb& verb) {
  // `takes two steps toward lens` is a walk in another word.
  if (performance.line.objects.empty() && find<ShiftClause>(performance.line.clauses) != nullptr) {
    return deed_walks(performance, {"steps", Verb::Time::takes, 1, deed_walks});
  }
  const Milliseconds length = business_with(performance, verb, strength_of(performance, hand_strength));
  const Moment moment = performance.begin + half(length);
  const std::vector<Held> all = held_told(performance);
  if (all.empty()) reach_first_object(performance, moment);
  if (const auto object = first_object(performance)) move_hangings(performance, *object, verb.word, length);
  for (const Held& held : all) {
    check_reach(performance, held.what, moment);
    claim(performance, held, performance.begin + length);
    const auto hands = hands_for(performance, held, moment);
    if (hands) take_into(performance, performance.person, *hands, held.what, moment);
  }
  return length;
}

Milliseconds deed_puts(const Performance& performance, const Verb& verb) {
  const Milliseconds length = business_with(performance, verb, strength_of(performance, hand_strength));
  const Moment moment = performance.begin + half(length);
  const std::vector<Held> all = held_told(performance);
  if (const auto object = first_object(performance)) move_hangings(performance, *object, verb.word, length);
  if (all.empty()) return length;
  const bool drops = verb.word == "drops";
  const bool placed = !place_words(performance.building, performance.line.clauses, {}).places.empty();
  const Target goal = drops && !placed ? floor_before(performance, moment) : put_goal(performance, moment);
  for (const Held& held : all) {
    if (!has_it(performance, held, moment)) continue;
    claim(performance, held, performance.begin + length);
    if (!drops) check_reach(performance, point_on(goal), moment);
    lay_down(performance, held.what, goal, moment);
  }
  return length;
}

// Along the floor or the top it stands on, without being taken in hand.
Milliseconds deed_pulls(const Performance& performance, const Verb& verb) {
  const Milliseconds length = business_with(performance, verb, strength_of(performance, hand_strength));
  const Moment moment = performance.begin + half(length);
  reach_first_object(performance, moment);
  if (const auto object = first_object(performance)) move_hangings(performance, *object, verb.word, length);
  if (place_words(performance.building, performance.line.clauses, {}).places.empty()) return length;
  for (const Held& held : held_told(performance)) {
    claim(performance, held, performance.begin + length);
    lay_down(performance, held.what, put_goal(performance, moment), performance.begin + length);
  }
  return length;
}

Milliseconds deed_touches(const Performance& performance, const Verb& verb) {
  const Milliseconds length = deed_with_hands(performance, verb);
  reach_first_object(performance, performance.begin + half(length));
  return length;
}

// A door, a window, a cupboard; of `own eyes` it is only a look.
Milliseconds deed_opens(const Performance& performance, const Verb& verb) {
  const Milliseconds length = deed_touches(performance, verb);
  if (const auto object = first_object(performance)) {
    set_open(performance, *object, verb.word == "opens", performance.begin, length);
  }
  return length;
}

Milliseconds deed_gives(const Performance& performance, const Verb& verb) {
  const Milliseconds length = business_with(performance, verb, strength_of(performance, hand_strength));
  const auto* to = find<ToClause>(performance.line.clauses);
  if (to == nullptr || !to->place || to->place->things.empty()) return length;
  const auto taker =
      resolve<PersonId>(performance.building.names, to->place->things.front().name, performance.building.findings);
  if (!taker || *taker == performance.person) return length;
  const DeedLine taking_line = without_hands(performance.line);
  const Performance with_any_hand{performance.building,
                                  performance.statement,
                                  taking_line,
                                  performance.begin,
                                  performance.told,
                                  performance.pace,
                                  false,
                                  performance.runs_on,
                                  performance.opening,
                                  *taker,
                                  {},
                                  {}};
  add_business(with_any_hand, length, "takes" + what_of(performance).substr(performance.line.verb.size()),
               hand_strength);
  const Moment moment = performance.begin + half(length);
  check_reach(performance, {Target::Kind::person, taker->index, {}}, moment);
  for (const Held& held : held_told(performance)) {
    if (!has_it(performance, held, moment)) continue;
    claim(performance, held, performance.begin + length);
    const auto hands = hands_for(with_any_hand, held, moment);
    if (hands) take_into(performance, *taker, *hands, held.what, moment);
  }
  return length;
}

Milliseconds deed_carries(const Performance& performance, const Verb&) {
  check_objects(performance);
  for (const Held& held : held_told(performance)) {
    const std::optional<PersonId> holder = holder_of(performance.building, held.what, performance.begin);
    if (holder && *holder != performance.person && !performance.opening) {
      has_it(performance, held, performance.begin);
      continue;
    }
    if (!holder && is_anywhere(performance.building, held.what, performance.begin)) {
      if (held.what.kind == Target::Kind::prop) check_reach(performance, held.what, performance.begin);
    }
    claim(performance, held, performance.begin);
    const auto hands = hands_for(performance, held, performance.begin);
    if (hands) take_into(performance, performance.person, *hands, held.what, performance.begin);
  }
  const bool goes = find<ToClause>(performance.line.clauses) != nullptr;
  return goes && !performance.opening ? deed_walks(performance, {"walks", Verb::Time::takes, 1.2, deed_walks})
                                      : Milliseconds{};
}

Milliseconds deed_wears(const Performance& performance, const Verb&) {
  check_objects(performance);
  for (const Held& held : held_told(performance)) {
    const std::optional<PersonId> holder = holder_of(performance.building, held.what, performance.begin);
    if (holder && *holder != performance.person && !performance.opening) {
      has_it(performance, held, performance.begin);
    } else {
      wear(performance, held.what, performance.begin);
    }
  }
  return {};
}

// A lamp in somebody's hand, turned where the line says; other things are only business.
Milliseconds deed_aims(const Performance& performance, const Verb& verb) {
  const Milliseconds length = business_with(performance, verb, strength_of(performance, hand_strength));
  for (const Held& held : held_told(performance)) {
    if (!has_it(performance, held, performance.begin)) continue;
    if (held.what.kind == Target::Kind::lamp) aim_carried(performance, LampId{held.what.index}, length);
  }
  return length;
}

Milliseconds deed_does(const Performance& performance, const Verb&) {
  const std::string what = performance.line.quoted ? performance.line.quoted->words : performance.line.verb;
  const Milliseconds length = performance.told.value_or(no_end_yet - performance.begin);
  const Business& business = add_business(performance, length, what, strength_of(performance, business_strength));
  if (performance.told) {
    take_hands(performance, performance.begin + length, false);
    return length;
  }
  const auto index = static_cast<std::size_t>(&business - performance.track().hands.data());
  performance.building.open_business.push_back(
      {performance.person, index, performance.runs_on, hands_told(performance)});
  take_hands(performance, no_end_yet, true);
  return {};
}

Milliseconds deed_holds(const Performance& performance, const Verb& verb) {
  if (!performance.line.objects.empty()) {
    deed_carries(performance, verb);
    return performance.told.value_or(Milliseconds{});
  }
  end_business(performance.building, performance.person, performance.begin);
  return performance.told.value_or(Milliseconds{});
}

Milliseconds deed_stops(const Performance& performance, const Verb&) {
  end_business(performance.building, performance.person, performance.begin);
  PersonTrack& track = performance.track();
  const Segment<Walk>* walk = segment_at(track.feet, performance.begin);
  if (walk == nullptr || walk->end <= performance.begin || walk->begin > performance.begin) return {};
  const PersonState state = performance.state(performance.begin);
  put(track.feet,
      {performance.begin, performance.begin, Walk{}, Walk{{state.at}}, Origin::carried, performance.statement.span});
  set_facing(performance, {state.facing, {}}, performance.begin, performance.begin, Origin::carried);
  return {};
}

}  // namespace lensward
