// Apart: the odd one out, and the one with space or contrast around them.
//
// Kind: trade, with evidence for the odd one out.
// Formula: the largest of: clear space to the nearest outline, 1 at a fifth of the frame's width; tone against what is
//   behind, 1 at 1.5 stops either way; the only one of at least three in frame that stands among seated (and so on for
//   every posture), moves among still, is still among moving, or faces the lens among those turned from it.
// Source: Einhäuser et al. 2006 (difference from the surroundings counts, also dark among bright, O-38); Treisman &
//   Gelade 1980 and Theeuwes 1992 (a lone odd one, lost again among many kinds, O-43). Clear space is common practice,
//   no source.
// Weakness: counts outlines only; a wall or a beam of light can isolate too.
#include <algorithm>
#include <cmath>

#include "emphasis/cues.h"

namespace lensward {
namespace {

constexpr double clear_space = 0.2;
constexpr double clear_stops = 1.5;

bool moving(const PersonState& state) { return length(state.velocity) > 0.05; }

// The others in frame all have one and the same value of a trait, and this one has another. `trait` maps a person's
// index to an int.
template <class Trait>
bool odd_one_out(const CueInput& in, Trait trait) {
  const int own = trait(in.target.index);
  std::optional<int> theirs;
  int others = 0;
  for (const PersonSeen& other : in.now.view.people) {
    if (other.person.index == in.target.index || !other.in_front || other.head_visible.value < 0.1) continue;
    const int value = trait(other.person.index);
    if (value == own || (theirs && *theirs != value)) return false;
    theirs = value;
    ++others;
  }
  return others >= 2;
}

bool odd(const CueInput& in) {
  const auto state = [&in](int person) -> const PersonState& {
    return in.now.people[static_cast<std::size_t>(person)];
  };
  const auto seen = [&in](int person) { return in.now.seen[static_cast<std::size_t>(person)]; };
  return odd_one_out(in, [&](int person) { return static_cast<int>(state(person).posture); }) ||
         odd_one_out(in, [&](int person) { return moving(state(person)) ? 1 : 0; }) ||
         odd_one_out(in, [&](int person) { return std::fabs(seen(person)->body_angle.value) < 68 ? 1 : 0; });
}

}  // namespace

double apart(const CueInput& in) {
  if (in.person == nullptr || !in.person->in_front) return 0;
  if (odd(in)) return 1;
  const double space = std::clamp(in.person->gap / clear_space, 0.0, 1.0);
  const double tone = std::clamp(std::fabs(in.person->against_behind.value) / clear_stops, 0.0, 1.0);
  return std::max(space, tone);
}

}  // namespace lensward
