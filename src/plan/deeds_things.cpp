// Deeds of doors, furniture and props, and what hands do to doors and furniture: open, shut, lifted, fallen.
#include <algorithm>

#include "plan/deeds.h"
#include "plan/floor.h"

namespace lensward {
namespace {

Lane<Share>* open_lane(Plan& plan, const Target& what) {
  const auto index = static_cast<std::size_t>(what.index);
  if (what.kind == Target::Kind::opening && index < plan.openings.size()) return &plan.openings[index].open;
  if (what.kind == Target::Kind::piece && index < plan.pieces.size()) return &plan.pieces[index].open;
  return nullptr;
}

bool hangs(const Plan& plan, const Target& what) {
  if (what.kind != Target::Kind::piece) return false;
  const PieceKind kind = plan.stage.pieces[static_cast<std::size_t>(what.index)].kind;
  return kind == PieceKind::cloth || kind == PieceKind::curtain;
}

// A prop that falls comes down below where it was.
void drop(const Performance& performance, Milliseconds length) {
  Plan& plan = performance.building.plan;
  const std::optional<Vec3> from = point_of(plan, performance.thing, performance.begin);
  if (!from) return;
  const Target floor{Target::Kind::point, -1, raised(floor_of(*from), 0)};
  Lane<Target>& rests = plan.props[static_cast<std::size_t>(performance.thing.index)].rests;
  const Target before = stepped(rests, performance.begin, Target{});
  const Moment end = performance.begin + length;
  put(rests, {end, end, before, floor, Origin::said, performance.statement.span});
}

Milliseconds thing_opens(const Performance& performance, const Verb& verb) {
  const Milliseconds length = performance.opening ? Milliseconds{} : performance.length(Seconds{verb.number});
  set_open(performance, performance.thing, verb.word == "opens", performance.begin, length);
  return length;
}

Milliseconds thing_falls(const Performance& performance, const Verb& verb) {
  const Milliseconds length = performance.length(Seconds{verb.number});
  Plan& plan = performance.building.plan;
  if (performance.thing.kind == Target::Kind::prop) drop(performance, length);
  if (performance.thing.kind == Target::Kind::piece) {
    put(plan.pieces[static_cast<std::size_t>(performance.thing.index)].fallen,
        {performance.begin, performance.begin + length, false, true, Origin::said, performance.statement.span});
  }
  return length;
}

Milliseconds thing_is(const Performance& performance, const Verb&) {
  for (const Clause& clause : performance.line.clauses) {
    const auto* trait = std::get_if<TraitClause>(&clause.body);
    const bool open = trait != nullptr && trait->word == "open", shut = trait != nullptr && trait->word == "shut";
    if (open || shut) set_open(performance, performance.thing, open, performance.begin, {});
  }
  return {};
}

Milliseconds thing_stops(const Performance&, const Verb&) { return {}; }

}  // namespace

void set_open(const Performance& performance, const Target& what, bool open, Moment begin, Milliseconds length) {
  Lane<Share>* lane = open_lane(performance.building.plan, what);
  if (lane == nullptr) return;
  const Share before = stepped(*lane, begin, Share{open ? 0.0 : 1.0});
  put(*lane, {begin, begin + length, before, Share{open ? 1.0 : 0.0}, Origin::said, performance.statement.span});
}

void move_hangings(const Performance& performance, const Target& what, std::string_view verb, Milliseconds length) {
  Plan& plan = performance.building.plan;
  if (!hangs(plan, what)) return;
  const Lane<Share>& lane = plan.pieces[static_cast<std::size_t>(what.index)].open;
  const bool is_open = stepped(lane, performance.begin, Share{0}).value > 0.5;
  const bool lifts = verb == "lifts" || verb == "opens" || verb == "takes";
  const bool turns = verb == "pulls" || verb == "pushes";
  const bool open = lifts || (turns && !is_open);
  set_open(performance, what, open, performance.begin, length);
}

const std::vector<Verb>& thing_verbs() {
  using Time = Verb::Time;
  static const std::vector<Verb> verbs{
      {"is", Time::instant, 0, thing_is},        {"opens", Time::takes, 1.5, thing_opens},
      {"closes", Time::takes, 1.5, thing_opens}, {"falls", Time::takes, 0.5, thing_falls},
      {"stops", Time::instant, 0, thing_stops},
  };
  return verbs;
}

}  // namespace lensward
