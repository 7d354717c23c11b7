#include "coverage/coverage.h"

#include <algorithm>
#include <cmath>

#include "base/angle.h"
#include "coverage/set_ups.h"

namespace lensward {
namespace {

constexpr std::size_t insurance_at_most = 3;
// A wish that is close counts half; a minute that need not be played again counts half of one that is rescued (choices
// of ours, no source).
constexpr double close_counts = 0.5, join_counts = 0.5;

template <class Value>
int orders_in(const Lane<Value>& lane) {
  return static_cast<int>(std::ranges::count_if(
      lane, [](const Segment<Value>& one) { return one.begin > Moment{} && !one.said_at.empty(); }));
}

HeldTake held_take(const Plan& plan, const std::vector<Verdict>& verdicts) {
  HeldTake held;
  std::vector<int> cameras;
  for (const CutTo& cut : plan.cuts)
    if (std::ranges::find(cameras, cut.camera.index) == cameras.end()) cameras.push_back(cut.camera.index);
  held.set_ups = std::max<int>(static_cast<int>(cameras.size()), plan.cameras.empty() ? 0 : 1);
  held.length = plan.duration();
  held.lines = static_cast<int>(plan.speeches.size());
  for (const PersonTrack& track : plan.people) {
    held.moves_of_people += orders_in(track.feet) + orders_in(track.stance) + orders_in(track.body);
    held.looks += orders_in(track.eyes);
  }
  for (const CameraTrack& track : plan.cameras) {
    held.pulls += orders_in(track.focus_on) + orders_in(track.focus);
    held.moves_of_camera += orders_in(track.place);
  }
  for (const LampTrack& track : plan.lamps) held.changes_of_light += orders_in(track.level);
  for (const Verdict& verdict : verdicts) {
    held.failing += verdict.result == Verdict::Result::fails ? 1 : 0;
    held.close += verdict.result == Verdict::Result::close ? 1 : 0;
  }
  return held;
}

bool shows(const SetUp& set_up, const Target& target) {
  if (target.kind == Target::Kind::person) return set_up.of.index == target.index;
  return target.kind != Target::Kind::nothing && set_up.thing == target;
}

// How much of what is wanted and not had this set-up would show; 0 of a master, which shows no one more than another.
double seconds_rescued(const SetUp& set_up, const std::vector<Verdict>& verdicts) {
  double seconds = 0;
  for (const Verdict& verdict : verdicts) {
    const bool wanted = verdict.result == Verdict::Result::fails || verdict.result == Verdict::Result::close;
    if (!wanted || !shows(set_up, verdict.favoured)) continue;
    if (std::ranges::find(set_up.beats, verdict.beat) == set_up.beats.end()) continue;
    const double counts = verdict.result == Verdict::Result::fails ? 1 : close_counts;
    seconds += counts * to_seconds(verdict.end - verdict.begin).value;
  }
  return seconds;
}

// How much of the scene need not be played again once two takes can be joined there: the shorter part of the stretch
// between the joins that are there already.
double seconds_saved(Moment at, const std::vector<Moment>& joins) {
  const auto after = std::ranges::lower_bound(joins, at);
  if (after == joins.begin() || after == joins.end()) return 0;
  return to_seconds(std::min(at - *(after - 1), *after - at)).value;
}

Moment best_join(const SetUp& set_up, const std::vector<Moment>& joins) {
  const auto less = [&](Moment a, Moment b) { return seconds_saved(a, joins) < seconds_saved(b, joins); };
  return set_up.moments.empty() ? Moment{} : *std::ranges::max_element(set_up.moments, less);
}

std::vector<Insurance> insurance_of(const Plan& plan, const std::vector<SetUp>& set_ups,
                                    const std::vector<Verdict>& verdicts) {
  std::vector<Insurance> chosen;
  std::vector<Moment> joins{Moment{}, plan.duration()};
  std::vector<Target> rescued;
  while (chosen.size() < insurance_at_most) {
    Insurance best;
    double most = 0;
    for (std::size_t i = 1; i < set_ups.size(); ++i) {
      const SetUp& one = set_ups[i];
      const bool had = std::ranges::any_of(chosen, [&](const Insurance& other) {
        const SetUp& taken = set_ups[static_cast<std::size_t>(other.set_up)];
        return taken.of == one.of && taken.thing == one.thing;
      });
      if (had) continue;
      const Moment join = best_join(one, joins);
      const double rescues = seconds_rescued(one, verdicts);
      const double worth = rescues + join_counts * seconds_saved(join, joins);
      if (worth <= most) continue;
      most = worth;
      best = {static_cast<int>(i), Milliseconds{std::llround(rescues * 1000)}, join};
    }
    if (best.set_up < 0) break;
    joins.insert(std::ranges::lower_bound(joins, best.joins), best.joins);
    chosen.push_back(best);
  }
  return chosen;
}

}  // namespace

HoursRange hours_for(int set_ups) {
  constexpr double simple = 20, laborious = 45, minutes = 60;
  return {set_ups * simple / minutes, set_ups * laborious / minutes};
}

Coverage coverage_of(const Plan& plan, const std::vector<Verdict>& verdicts) {
  Coverage coverage;
  coverage.held = held_take(plan, verdicts);
  if (plan.beats.empty() || plan.cameras.empty()) return coverage;
  coverage.set_ups = set_ups_of(plan, exchanges_of(plan, coverage.crossed));
  coverage.insurance = insurance_of(plan, coverage.set_ups, verdicts);
  return coverage;
}

}  // namespace lensward
