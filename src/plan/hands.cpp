#include "plan/hands.h"

#include <algorithm>
#include <utility>

#include "base/quantity_text.h"
#include "plan/floor.h"

namespace lensward {
namespace {

constexpr double arm_share = 0.45, lean = 0.3;
constexpr double hand_breadth = 0.12;

PersonTrack& track_of(Building& building, PersonId person) {
  return building.plan.people[static_cast<std::size_t>(person.index)];
}

// Of props and carried lamps: where they are with people, on pieces or at points.
Lane<Target>* rests_of(Plan& plan, const Target& what) {
  const auto index = static_cast<std::size_t>(what.index);
  if (what.kind == Target::Kind::prop && index < plan.props.size()) return &plan.props[index].rests;
  if (what.kind == Target::Kind::lamp && index < plan.lamps.size()) return &plan.lamps[index].carried;
  return nullptr;
}

Target rest_at(Building& building, const Target& what, Moment moment) {
  const Lane<Target>* rests = rests_of(building.plan, what);
  return rests == nullptr ? Target{} : stepped(*rests, moment, Target{});
}

void set(Lane<Target>& lane, const Target& to, Moment moment, Origin origin, Span said_at) {
  const Segment<Target>* before = segment_at(lane, moment);
  const bool early = before == nullptr || before->begin > moment;
  put(lane, {moment, moment, early ? Target{} : before->to, to, origin, said_at});
}

void let_go(const Performance& performance, const Target& what, Moment moment) {
  for (PersonTrack& track : performance.building.plan.people) {
    for (Lane<Target>* hand : {&track.left_hand, &track.right_hand}) {
      if (stepped(*hand, moment, Target{}) == what) set(*hand, {}, moment, Origin::said, performance.statement.span);
    }
  }
}

std::string in_ticks(const Building& building, const Target& what) { return "`" + name_of(building.plan, what) + "`"; }

double stature_of(const Building& building, PersonId person) {
  return building.plan.stage.people[static_cast<std::size_t>(person.index)].stature.value;
}

// Never held anything in that hand so far.
bool always_free(const Lane<Target>& hand) {
  return std::all_of(hand.begin(), hand.end(),
                     [](const Segment<Target>& segment) { return segment.to.kind == Target::Kind::nothing; });
}

const char* side_word(Grip grip) { return grip.left && grip.right ? "hands" : grip.left ? "left hand" : "right hand"; }

Finding& complain(const Performance& performance, const char* rule, Span where, std::string message,
                  std::string next_step, Moment moment) {
  Finding& finding =
      report(performance.building, rule, Severity::error, where, std::move(message), std::move(next_step));
  finding.at = moment;
  finding.subject.people = {performance.name()};
  return finding;
}

// A new line above this one, which then waits for it. Only of lines without a cue: those begin when they are told.
void offer_line_above(const Performance& performance, Finding& finding, const std::string& line) {
  if (find<CueClause>(performance.line.clauses) != nullptr) return;
  const Span at{performance.statement.span.file, performance.statement.span.begin, performance.statement.span.begin};
  const std::string then = performance.statement.when == When::unsaid ? "then " : "";
  const std::string first = performance.statement.when == When::then ? "then " : "";
  finding.repairs.push_back(
      {Repair::Kind::choice, "write `" + line + "` above it", {{at, first + line + "\n" + then}}});
}

// What to walk to for it: the piece it lies on, who has it, or itself.
std::string goal_words(Building& building, const Target& what, Moment moment) {
  const bool is_held = what.kind == Target::Kind::prop || what.kind == Target::Kind::lamp;
  const Target rests = is_held ? rest_at(building, what, moment) : what;
  const bool named = rests.kind == Target::Kind::piece || rests.kind == Target::Kind::person;
  const std::string name = name_of(building.plan, named ? rests : what);
  return (rests.kind == Target::Kind::person ? "" : "the ") + name;
}

double distance_to(const Building& building, Vec2 from, const Target& what, Moment moment) {
  if (what.kind == Target::Kind::piece) {
    return distance_to(box_of(building.plan.stage.pieces[static_cast<std::size_t>(what.index)]), from);
  }
  const std::optional<Vec3> point = point_of(building.plan, what, moment);
  return point ? length(floor_of(*point) - from) : 0;
}

// The walk may still end between the legs of a reach, so half a metre short of it is said as it is.
std::string reach_words(double far, double limit) {
  return text_of(Metres{far}) + " away, reach " + text_of(Metres{limit});
}

}  // namespace

std::vector<Held> held_told(const Performance& performance) {
  std::vector<Held> held;
  for (const Thing& thing : performance.line.objects) {
    if (thing.kind != Thing::Kind::named) continue;
    const std::optional<Named> named = performance.building.names.find(thing.name.text);
    if (!named) continue;
    if (const auto* prop = std::get_if<PropId>(&*named))
      held.push_back({{Target::Kind::prop, prop->index, {}}, thing.span});
    if (const auto* lamp = std::get_if<LampId>(&*named))
      held.push_back({{Target::Kind::lamp, lamp->index, {}}, thing.span});
  }
  return held;
}

Grip grip_of(const Building& building, PersonId person, const Target& what, Moment moment) {
  const PersonState state = person_at(building.plan, person, moment);
  return {state.left_hand == what, state.right_hand == what};
}

std::optional<PersonId> holder_of(const Building& building, const Target& what, Moment moment) {
  for (std::size_t i = 0; i < building.plan.people.size(); ++i) {
    const PersonId person{static_cast<int>(i)};
    if (grip_of(building, person, what, moment).any()) return person;
  }
  const Lane<Target>* rests = rests_of(building.plan, what);
  const Target at = rests == nullptr ? Target{} : stepped(*rests, moment, Target{});
  return at.kind == Target::Kind::person ? std::optional{PersonId{at.index}} : std::nullopt;
}

bool is_anywhere(const Building& building, const Target& what, Moment moment) {
  if (what.kind == Target::Kind::lamp) return true;
  const Lane<Target>* rests = rests_of(building.plan, what);
  return rests != nullptr && stepped(*rests, moment, Target{}).kind != Target::Kind::nothing;
}

std::optional<Grip> hands_for(const Performance& performance, const Held& held, Moment moment) {
  const PersonState state = person_at(performance.building.plan, performance.person, moment);
  const auto free = [&](const Target& hand) { return hand.kind == Target::Kind::nothing || hand == held.what; };
  const auto* told = find<HandsClause>(performance.line.clauses);
  using Kind = HandsClause::Kind;
  Grip wanted;
  if (told != nullptr && told->kind != Kind::with) {
    wanted = {told->kind != Kind::right, told->kind != Kind::left};
  } else {
    wanted.right = free(state.right_hand);
    wanted.left = !wanted.right && free(state.left_hand);
  }
  const bool right_busy = (wanted.right || !wanted.any()) && !free(state.right_hand);
  const bool left_busy = (wanted.left || !wanted.any()) && !free(state.left_hand);
  if (!right_busy && !left_busy) return wanted;
  const Building& building = performance.building;
  const Target& in_the_way = right_busy ? state.right_hand : state.left_hand;
  const std::string message =
      wanted.any()
          ? "`" + performance.name() + "`'s " + (right_busy ? "right" : "left") + " hand holds " +
                in_ticks(building, in_the_way) + " and cannot take " + in_ticks(building, held.what)
          : "both of `" + performance.name() + "`'s hands are full, with " + in_ticks(building, state.left_hand) +
                " and " + in_ticks(building, state.right_hand) + ", and cannot take " + in_ticks(building, held.what);
  Finding& finding = complain(performance, "hands-full", held.named_at, message, {}, moment);
  const std::string line = performance.name() + " puts down the " + name_of(building.plan, in_the_way);
  finding.next_step = "write above it `" + line + "`, or use another hand";
  offer_line_above(performance, finding, line);
  return std::nullopt;
}

void take_into(const Performance& performance, PersonId person, Grip grip, const Target& what, Moment moment) {
  let_go(performance, what, moment);
  PersonTrack& track = track_of(performance.building, person);
  const Span said_at = performance.statement.span;
  if (grip.left) set(track.left_hand, what, moment, Origin::said, said_at);
  if (grip.right) set(track.right_hand, what, moment, Origin::said, said_at);
  if (Lane<Target>* rests = rests_of(performance.building.plan, what)) {
    set(*rests, {Target::Kind::person, person.index, {}}, moment, Origin::said, said_at);
  }
}

void wear(const Performance& performance, const Target& what, Moment moment) {
  let_go(performance, what, moment);
  Lane<Target>* rests = rests_of(performance.building.plan, what);
  if (rests == nullptr) return;
  set(*rests, {Target::Kind::person, performance.person.index, {}}, moment, Origin::said, performance.statement.span);
}

void lay_down(const Performance& performance, const Target& what, const Target& where, Moment moment) {
  let_go(performance, what, moment);
  Lane<Target>* rests = rests_of(performance.building.plan, what);
  if (rests != nullptr) set(*rests, where, moment, Origin::said, performance.statement.span);
}

bool has_it(const Performance& performance, const Held& held, Moment moment) {
  Building& building = performance.building;
  const Grip grip = grip_of(building, performance.person, held.what, moment);
  const auto* told = find<HandsClause>(performance.line.clauses);
  if (grip.any()) {
    const bool wrong = told != nullptr && ((told->kind == HandsClause::Kind::left && !grip.left) ||
                                           (told->kind == HandsClause::Kind::right && !grip.right));
    if (!wrong) return true;
    complain(performance, "whose-hands", held.named_at,
             "`" + performance.name() + "` has " + in_ticks(building, held.what) + " in the " + side_word(grip),
             std::string("write `with own ") + side_word(grip) + "`, or leave the hand out", moment);
    return true;
  }
  const std::optional<PersonId> holder = holder_of(building, held.what, moment);
  if (holder == performance.person) return true;
  if (holder) {
    complain(performance, "whose-hands", held.named_at,
             in_ticks(building, held.what) + " is in `" + name_of(building, *holder) + "`'s hands, not `" +
                 performance.name() + "`'s",
             "write above it `" + name_of(building, *holder) + " gives the " + name_of(building.plan, held.what) +
                 " to " + performance.name() + "`",
             moment);
    return false;
  }
  PersonTrack& track = track_of(building, performance.person);
  if (!is_anywhere(building, held.what, moment)) {
    Lane<Target>& hand =
        always_free(track.right_hand) || !always_free(track.left_hand) ? track.right_hand : track.left_hand;
    const std::string name = name_of(building.plan, held.what);
    assume(building, "nobody says where `" + name + "` is at first, so `" + performance.name() + "` has it in hand",
           "prop " + name + ", with " + performance.name(), held.named_at);
    set(hand, held.what, Moment{}, Origin::assumed, {});
    set(*rests_of(building.plan, held.what), {Target::Kind::person, performance.person.index, {}}, Moment{},
        Origin::assumed, {});
    return true;
  }
  const std::string line = performance.name() + " takes the " + name_of(building.plan, held.what);
  Finding& finding = complain(performance, "whose-hands", held.named_at,
                              in_ticks(building, held.what) + " is in nobody's hands when `" + performance.name() +
                                  " " + performance.line.verb + "` it",
                              "write above it `" + line + "`", moment);
  offer_line_above(performance, finding, line);
  return false;
}

void check_reach(const Performance& performance, const Target& what, Moment moment) {
  Building& building = performance.building;
  if (performance.opening) return;
  const PersonState state = person_at(building.plan, performance.person, moment);
  double limit = arm_share * stature_of(building, performance.person) + lean;
  const bool carriable = what.kind == Target::Kind::prop || what.kind == Target::Kind::lamp;
  const std::optional<PersonId> other = what.kind == Target::Kind::person ? std::optional{PersonId{what.index}}
                                        : carriable                       ? holder_of(building, what, moment)
                                                                          : std::nullopt;
  if (other == performance.person) return;
  double far = distance_to(building, state.at, what, moment);
  if (other) {
    limit += arm_share * stature_of(building, *other);
    far = length(person_at(building.plan, *other, moment).at - state.at);
  }
  if (far <= limit + 1e-6) return;
  const std::string line = performance.name() + " walks to " + goal_words(building, what, moment);
  Finding& finding =
      complain(performance, "out-of-reach", performance.line.verb_span,
               in_ticks(building, what) + " is out of `" + performance.name() + "`'s reach: " + reach_words(far, limit),
               "write above it `" + line + "`, and begin this line with `then`", moment);
  offer_line_above(performance, finding, line);
}

void claim(const Performance& performance, const Held& held, Moment end) {
  if (performance.opening) return;
  Building& building = performance.building;
  const auto key = std::pair(held.what.kind == Target::Kind::lamp, held.what.index);
  const auto found = building.claimed.find(key);
  if (found != building.claimed.end()) {
    const Occupant& before = found->second;
    const bool other = before.said_at != performance.statement.span;
    if (other && before.begin <= performance.begin && performance.begin < before.end) {
      Finding& finding = complain(performance, "time.prop-clash", held.named_at,
                                  in_ticks(building, held.what) + " would be in two places: `" + performance.name() +
                                      " " + performance.line.verb + "` it at " + text_of(performance.begin) +
                                      " while " + before.deed + " goes on until " + text_of(before.end),
                                  "begin this line with `then`, so that it waits", performance.begin);
      finding.labels.push_back({before.said_at, text_of(before.begin) + " to " + text_of(before.end)});
    }
  }
  building.claimed.insert_or_assign(key, Occupant{performance.begin, end, false, performance.statement.span,
                                                  "`" + performance.name() + " " + performance.line.verb + "`"});
}

Vec3 top_before(const Piece& piece, Vec2 at) {
  const FloorBox box = box_of(piece);
  const auto within = [](double value, double half) {
    const double limit = std::max(0.0, half - hand_breadth);
    return std::clamp(value, -limit, limit);
  };
  const Vec2 off = at - box.at;
  const Vec2 spot =
      box.point(within(dot(off, box.right), box.half_length), within(dot(off, box.front), box.half_depth));
  return raised(spot, piece.seats > 0 ? std::min(piece.height, piece.seat_height).value : piece.height.value);
}

}  // namespace lensward
