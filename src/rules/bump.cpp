#include "base/angle.h"
#include "base/quantity_text.h"
#include "plan/free_floor.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage bump_page{
    .sees =
        "Two bodies whose middles are nearer than 0.45 m, or a body whose middle is inside a piece of "
        "furniture it neither sits, lies nor leans on.",
    .why = "They would be in one another, and somebody will be hurt finding out.",
    .example =
        "Oda is at (3, 2) m\n"
        "Jun is at (3.2, 2) m",
    .better =
        "Oda is at (3, 2) m\n"
        "Jun is at (3.7, 2) m",
    .source =
        "common practice, no source; shoulders are about 0.45 m broad (ANSUR II: bideltoid 0.277 to 0.291 of "
        "stature).",
};

namespace {

constexpr double room_for_two = 0.45;

struct Clash {
  Target a, b;
  int beat;
  Moment at;
  Metres apart;
  Span said_at;
};

Span feet_line(const Plan& plan, int person, Moment moment) {
  Span line;
  for (const auto& walk : plan.people[static_cast<std::size_t>(person)].feet) {
    if (walk.begin <= moment && !walk.said_at.empty()) line = walk.said_at;
  }
  return line;
}

// The later line of the two: it is the one that brought them together.
Span later(Span a, Span b) { return a < b ? b : a; }

bool inside(const Piece& piece, Vec2 at) {
  const Vec2 ahead = direction_of(piece.front), aside = left_of(ahead);
  const Vec2 off = at - piece.at;
  return std::fabs(dot(off, aside)) < piece.length.value / 2 && std::fabs(dot(off, ahead)) < piece.depth.value / 2;
}

bool can_be_in(const Piece& piece, const PersonState& state) {
  const bool low =
      state.posture == Posture::crouching || state.posture == Posture::lying || state.posture == Posture::kneeling;
  const bool flat = piece.height.value < 0.1;
  const bool cloth = piece.kind == PieceKind::cloth || piece.kind == PieceKind::curtain;
  const bool on_it = state.posture != Posture::standing && piece.seats > 0;
  return flat || cloth || on_it || piece.see_through || (piece.open_underneath && low);
}

void add_pieces(const Plan& plan, int person, const PersonState& state, Moment moment, std::vector<Clash>& clashes) {
  for (std::size_t i = 0; i < plan.stage.pieces.size(); ++i) {
    const Piece& piece = plan.stage.pieces[i];
    if (state.seat.index == static_cast<int>(i) || can_be_in(piece, state) || !inside(piece, state.at)) continue;
    clashes.push_back({{Target::Kind::person, person, {}},
                       {Target::Kind::piece, static_cast<int>(i), {}},
                       beat_at(plan, moment),
                       moment,
                       Metres{length(state.at - piece.at)},
                       feet_line(plan, person, moment)});
  }
}

std::vector<Clash> clashes_at(const Plan& plan, Moment moment) {
  std::vector<Clash> clashes;
  std::vector<PersonState> states;
  for (std::size_t i = 0; i < plan.people.size(); ++i)
    states.push_back(person_at(plan, PersonId{static_cast<int>(i)}, moment));
  for (std::size_t i = 0; i < states.size(); ++i) {
    if (!states[i].present) continue;
    const int a = static_cast<int>(i);
    add_pieces(plan, a, states[i], moment, clashes);
    for (std::size_t j = i + 1; j < states.size(); ++j) {
      const Metres apart{length(states[i].at - states[j].at)};
      if (!states[j].present || apart.value >= room_for_two - 1e-6) continue;
      const int b = static_cast<int>(j);
      clashes.push_back({{Target::Kind::person, a, {}},
                         {Target::Kind::person, b, {}},
                         beat_at(plan, moment),
                         moment,
                         apart,
                         later(feet_line(plan, a, moment), feet_line(plan, b, moment))});
    }
  }
  return clashes;
}

constexpr double clear_of_another = 0.6;

// Free floor at that distance from the other, straight away from them if it can be; nothing when walls, furniture and
// people leave none.
std::optional<Vec2> clear_point(const Checked& checked, Moment moment, int mover, int other) {
  const Plan& plan = checked.plan;
  const FreeFloor floor(plan.stage, {});
  const Vec2 from = person_at(plan, PersonId{other}, moment).at, at = person_at(plan, PersonId{mover}, moment).at;
  const Vec2 away = length(at - from) > 1e-3 ? unit(at - from) : Vec2{1, 0}, aside = left_of(away);
  constexpr double diagonal = 0.7071;
  const Vec2 ways[] = {away, (away + aside) * diagonal, (away - aside) * diagonal, aside, aside * -1, away * -1};
  for (const Vec2& way : ways) {
    const Vec2 point = from + way * clear_of_another;
    bool free = floor.allows(point);
    for (std::size_t i = 0; free && i < plan.people.size(); ++i) {
      const PersonState state = person_at(plan, PersonId{static_cast<int>(i)}, moment);
      if (static_cast<int>(i) != mover && state.present) free = length(state.at - point) >= room_for_two;
    }
    if (free) return point;
  }
  return std::nullopt;
}

const Mark* mark_of(const Plan& plan, int person, Moment moment, Span line) {
  const Mark* last = nullptr;
  for (const Mark& mark : plan.marks) {
    if (mark.person.index == person && mark.reached <= moment && mark.said_at == line) last = &mark;
  }
  return last;
}

// The mark of the one whose line brought them together, moved to where there is room.
std::string spread(const Checked& checked, const Clash& clash) {
  if (clash.b.kind != Target::Kind::person)
    return "move " + quoted(checked, clash.a) + " clear of " + quoted(checked, clash.b);
  const bool b_came = feet_line(checked.plan, clash.b.index, clash.at) == clash.said_at;
  const Target &mover = b_came ? clash.b : clash.a, &other = b_came ? clash.a : clash.b;
  const Mark* mark = mark_of(checked.plan, mover.index, clash.at, clash.said_at);
  const bool seated = person_at(checked.plan, PersonId{mover.index}, clash.at).seat.known();
  const auto clear = clear_point(checked, clash.at, mover.index, other.index);
  if (mark == nullptr || seated || !clear) {
    return "give " + quoted(checked, mover) + " a place clear of " + quoted(checked, other);
  }
  return "write under the line of the place: `mark " + mark->name + " at (" + number(clear->x, 2) + ", " +
         number(clear->y, 2) + ") m`";
}

}  // namespace

void bump(const Checked& checked, Reporter& report) {
  std::vector<Clash> told;
  for (const Sample& sample : checked.attention.samples) {
    for (const Clash& clash : clashes_at(checked.plan, sample.moment)) {
      const auto same = std::find_if(told.begin(), told.end(), [&](const Clash& one) {
        return one.beat == clash.beat && one.a == clash.a && one.b == clash.b;
      });
      if (same == told.end())
        told.push_back(clash);
      else if (clash.apart < same->apart)
        *same = clash;
    }
  }
  for (const Clash& clash : told) {
    std::string message = quoted(checked, clash.a) + " and " + quoted(checked, clash.b) + " are in one place " +
                          at_words(clash.at) + " in " + beat_words(checked, clash.beat);
    if (clash.b.kind == Target::Kind::person) message += ": " + text_of(clash.apart) + " apart, limit 0.45 m";
    Finding& finding = report.add(clash.said_at, {clash.beat, clash.at, {clash.a, clash.b}}, message);
    finding.next_step = spread(checked, clash);
  }
}

}  // namespace lensward
