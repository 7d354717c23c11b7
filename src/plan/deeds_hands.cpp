// Deeds of the hands: props taken and put, business, and what ends it.
#include <algorithm>

#include "plan/deeds.h"

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

std::vector<PropId> props_of(const Performance& performance) {
  std::vector<PropId> props;
  for (const Thing& thing : performance.line.objects) {
    const std::optional<Named> named = performance.building.names.find(thing.name.text);
    const auto* prop = named ? std::get_if<PropId>(&*named) : nullptr;
    if (prop != nullptr) props.push_back(*prop);
  }
  return props;
}

void check_objects(const Performance& performance) {
  for (const Thing& thing : performance.line.objects) {
    if (thing.kind == Thing::Kind::named && !thing.name.text.empty()) {
      resolve_any(performance.building.names, thing.name, performance.building.findings);
    }
  }
}

void rest_at(const Performance& performance, PropId prop, const Target& where, Moment moment) {
  Lane<Target>& rests = performance.building.plan.props[static_cast<std::size_t>(prop.index)].rests;
  const Segment<Target>* before = segment_at(rests, moment);
  const Target from = before == nullptr ? Target{} : before->to;
  put(rests, {moment, moment, from, where, Origin::said, performance.statement.span});
}

void hold(const Performance& performance, PersonId person, const Target& what, Moment moment) {
  Lane<Target>& holding = performance.building.plan.people[static_cast<std::size_t>(person.index)].holding;
  const Segment<Target>* before = segment_at(holding, moment);
  const Target from = before == nullptr ? Target{} : before->to;
  put(holding, {moment, moment, from, what, Origin::said, performance.statement.span});
}

Target in_hand_of(PersonId person) { return {Target::Kind::person, person.index, {}}; }

// Whoever else held it holds it no more.
void let_go(const Performance& performance, PropId prop, Moment moment) {
  const Target held{Target::Kind::prop, prop.index, {}};
  for (std::size_t i = 0; i < performance.building.plan.people.size(); ++i) {
    const Lane<Target>& holding = performance.building.plan.people[i].holding;
    const Segment<Target>* now = segment_at(holding, moment);
    if (now != nullptr && now->to == held) hold(performance, PersonId{static_cast<int>(i)}, {}, moment);
  }
}

void take_into_hand(const Performance& performance, PropId prop, PersonId by, Moment moment) {
  let_go(performance, prop, moment);
  rest_at(performance, prop, in_hand_of(by), moment);
  hold(performance, by, {Target::Kind::prop, prop.index, {}}, moment);
}

std::optional<Target> first_object(const Performance& performance) {
  if (performance.line.objects.empty()) return std::nullopt;
  return target_told(performance);
}

// Where a prop is put down: on the piece or at the point the line names, else before the one who puts it.
Target put_goal(const Performance& performance) {
  Building& building = performance.building;
  const PlaceWords words = place_words(building, performance.line.clauses, performance.statement.span);
  if (words.places.empty()) {
    const Vec2 at = performance.state(performance.begin).at;
    return {Target::Kind::point, -1, raised(at, 0)};
  }
  const std::vector<PersonState> states = states_at(building, performance.begin);
  const PlaceContext context =
      context_for(building, states, performance.person, performance.begin, {words.places.front()});
  return target_of(*words.places.front(), context, building.findings).value_or(Target{});
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
  for (const PropId prop : props_of(performance)) {
    take_into_hand(performance, prop, performance.person, performance.begin + half(length));
  }
  return length;
}

Milliseconds deed_puts(const Performance& performance, const Verb& verb) {
  const Milliseconds length = business_with(performance, verb, strength_of(performance, hand_strength));
  const Moment moment = performance.begin + half(length);
  const std::vector<PropId> props = props_of(performance);
  if (props.empty()) return length;
  const Target goal = put_goal(performance);
  for (const PropId prop : props) {
    let_go(performance, prop, moment);
    rest_at(performance, prop, goal, moment);
  }
  return length;
}

Milliseconds deed_gives(const Performance& performance, const Verb& verb) {
  const Milliseconds length = business_with(performance, verb, strength_of(performance, hand_strength));
  const auto* to = find<ToClause>(performance.line.clauses);
  if (to == nullptr || !to->place || to->place->things.empty()) {
    report(performance.building, "name.clause-missing", Severity::error, performance.line.verb_span,
           "`" + performance.line.verb + "` needs whom it goes to", "write `gives Letter to Runa`");
    return length;
  }
  const auto taker =
      resolve<PersonId>(performance.building.names, to->place->things.front().name, performance.building.findings);
  if (!taker) return length;
  Performance taking = performance;
  taking.person = *taker;
  add_business(taking, length, "takes" + what_of(performance).substr(performance.line.verb.size()), hand_strength);
  for (const PropId prop : props_of(performance)) {
    take_into_hand(performance, prop, *taker, performance.begin + half(length));
  }
  return length;
}

Milliseconds deed_carries(const Performance& performance, const Verb&) {
  check_objects(performance);
  for (const PropId prop : props_of(performance)) {
    take_into_hand(performance, prop, performance.person, performance.begin);
  }
  const bool goes = find<ToClause>(performance.line.clauses) != nullptr;
  return goes && !performance.opening ? deed_walks(performance, {"walks", Verb::Time::takes, 1.2, deed_walks})
                                      : Milliseconds{};
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
  if (!performance.line.objects.empty()) return deed_carries(performance, verb);
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
