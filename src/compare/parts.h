// The parts of a comparison, one a file: what is compared, and where the differences go.
#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "compare/compare.h"

namespace lensward {

// One beat of both drafts.
struct BeatPair {
  int before = -1, after = -1;  // indices into the plans' beats
};

// What is compared, and what was found so far.
struct Comparing {
  const Draft& before;
  const Draft& after;
  const Thresholds& limits;
  std::vector<BeatPair> beats;  // those that both drafts have, in the order of the new one
  Changes changes = {};
  std::vector<std::vector<Change>*> found = {};  // by pair: where its changes go

  // Notes a difference that has a size: listed from the limit on, else counted when it is more than nothing. `nothing`
  // is what counts as none at all.
  void sized(std::vector<Change>& into, Change change, double limit, double nothing);
};

// What begins as the scene ends belongs to its last beat.
inline bool within(const Plan& plan, const Beat& beat, Moment moment) {
  if (moment < beat.begin) return false;
  return moment < beat.end || (moment == beat.end && beat.end == plan.duration());
}

// Notes what differs in findings, by key; those of no beat go to the scene.
void compare_findings(Comparing& comparing);
// Intents and how they came out.
void compare_verdicts(Comparing& comparing);
// Who has the eye, and the cue that changed most.
void compare_eye(Comparing& comparing);
// Marks, entrances, exits, postures, turns, looks, hands; where people stand as a beat begins.
void compare_people(Comparing& comparing);
// Lines spoken, and when; the length of beats.
void compare_lines(Comparing& comparing);
// What is there: company, furniture, props, cameras, lamps.
void compare_stage(Comparing& comparing);
// What state it is in as each beat begins and ends, people apart.
void compare_states(Comparing& comparing);

// Of the things with names in two lists, by index, the pairs with one name.
template <class Thing>
std::vector<std::pair<int, int>> same_names(const std::vector<Thing>& before, const std::vector<Thing>& after) {
  std::vector<std::pair<int, int>> pairs;
  for (std::size_t a = 0; a < before.size(); ++a) {
    for (std::size_t b = 0; b < after.size(); ++b) {
      if (before[a].name != after[b].name) continue;
      pairs.emplace_back(static_cast<int>(a), static_cast<int>(b));
      break;
    }
  }
  return pairs;
}

}  // namespace lensward
