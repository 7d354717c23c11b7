#include "compare/compare.h"

#include <algorithm>
#include <set>

#include "compare/match.h"
#include "compare/parts.h"

namespace lensward {
namespace {

const Beat& beat_of(const Draft& draft, int beat) { return draft.plan.beats[static_cast<std::size_t>(beat)]; }

bool share_a_line(const Beat& a, const Beat& b) {
  if (a.lines.empty() && b.lines.empty()) return true;
  return std::any_of(a.lines.begin(), a.lines.end(), [&](const BeatLine& line) {
    return std::any_of(b.lines.begin(), b.lines.end(), [&](const BeatLine& other) { return other.text == line.text; });
  });
}

// Beats alone on both sides under one name stand elsewhere now.
void join_moved(const Draft& before, const Draft& after, std::vector<Pair>& pairs, std::set<int>& moved) {
  for (Pair& pair : pairs) {
    if (pair.before >= 0 || pair.after < 0) continue;
    const auto other = std::find_if(pairs.begin(), pairs.end(), [&](const Pair& old) {
      return old.after < 0 && old.before >= 0 && beat_of(before, old.before).name == beat_of(after, pair.after).name;
    });
    if (other == pairs.end()) continue;
    pair.before = other->before;
    other->before = -1;
    moved.insert(pair.after);
  }
}

bool has_beat(const std::vector<Beat>& beats, const std::string& name) {
  return std::any_of(beats.begin(), beats.end(), [&](const Beat& beat) { return beat.name == name; });
}

std::vector<Pair> beat_pairs(const Draft& before, const Draft& after, std::set<int>& moved) {
  const auto same = [&](int a, int b) { return beat_of(before, a).name == beat_of(after, b).name; };
  // A beat whose name stands anywhere in the other draft is not renamed.
  const auto renamed = [&](int a, int b) {
    return !has_beat(after.plan.beats, beat_of(before, a).name) &&
           !has_beat(before.plan.beats, beat_of(after, b).name) && share_a_line(beat_of(before, a), beat_of(after, b));
  };
  std::vector<Pair> pairs =
      paired(static_cast<int>(before.plan.beats.size()), static_cast<int>(after.plan.beats.size()), same, renamed);
  join_moved(before, after, pairs, moved);
  std::stable_partition(pairs.begin(), pairs.end(), [](const Pair& pair) { return pair.after >= 0; });
  return pairs;
}

BeatChanges heading_of(const Draft& before, const Draft& after, const Pair& pair) {
  using Fate = BeatChanges::Fate;
  BeatChanges beat;
  if (pair.before >= 0) beat.before = beat_of(before, pair.before).name;
  if (pair.after >= 0) beat.after = beat_of(after, pair.after).name;
  if (pair.before < 0) {
    beat.fate = Fate::added;
  } else if (pair.after < 0) {
    beat.fate = Fate::dropped;
  } else if (beat.before != beat.after) {
    beat.fate = Fate::renamed;
  }
  return beat;
}

void open_beats(Comparing& comparing) {
  std::set<int> moved;
  std::vector<std::size_t> places;
  for (const Pair& pair : beat_pairs(comparing.before, comparing.after, moved)) {
    if (pair.before < 0 && pair.after < 0) continue;
    comparing.changes.beats.push_back(heading_of(comparing.before, comparing.after, pair));
    comparing.changes.beats.back().moved = moved.count(pair.after) > 0;
    if (pair.before < 0 || pair.after < 0) continue;
    comparing.beats.push_back({pair.before, pair.after});
    places.push_back(comparing.changes.beats.size() - 1);
  }
  for (std::size_t place : places) comparing.found.push_back(&comparing.changes.beats[place].changes);
}

void put_in_order(std::vector<Change>& changes) {
  std::stable_sort(changes.begin(), changes.end(),
                   [](const Change& a, const Change& b) { return a.aspect < b.aspect; });
}

}  // namespace

void Comparing::sized(std::vector<Change>& into, Change change, double limit, double nothing) {
  const double size = std::fabs(change.amount);
  // The last bit may not decide what is listed.
  if (size >= limit - 1e-6) {
    into.push_back(std::move(change));
  } else if (size > nothing) {
    ++changes.small;
  }
}

Changes::Counts Changes::counts() const {
  Counts counts;
  const auto add = [&](const std::vector<Change>& changes) {
    for (const Change& change : changes) {
      if (change.aspect != Aspect::finding) continue;
      const int times = static_cast<int>(std::lround(std::fabs(change.amount)));
      const bool error = change.note == lensward::name_of(Severity::error);
      (change.way == ChangeWay::dropped ? counts.gone : error ? counts.new_errors : counts.new_warnings) += times;
    }
  };
  add(scene);
  for (const BeatChanges& beat : beats) add(beat.changes);
  return counts;
}

bool Changes::any() const {
  return scene_before != scene_after || !scene.empty() ||
         std::any_of(beats.begin(), beats.end(), [](const BeatChanges& beat) { return beat.any(); });
}

Changes compare(const Draft& before, const Draft& after, const Thresholds& thresholds) {
  Comparing comparing{before, after, thresholds, {}};
  comparing.changes.scene_before = before.plan.facts.name;
  comparing.changes.scene_after = after.plan.facts.name;
  open_beats(comparing);
  compare_findings(comparing);
  compare_verdicts(comparing);
  compare_eye(comparing);
  compare_people(comparing);
  compare_lines(comparing);
  compare_stage(comparing);
  compare_states(comparing);
  put_in_order(comparing.changes.scene);
  for (BeatChanges& beat : comparing.changes.beats) put_in_order(beat.changes);
  return std::move(comparing.changes);
}

}  // namespace lensward
