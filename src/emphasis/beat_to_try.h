// The beats that are played again with somebody elsewhere, each on its own.
#pragma once

#include <vector>

#include "emphasis/beats_known.h"
#include "emphasis/tally.h"
#include "emphasis/verdict.h"
#include "plan/plan.h"

namespace lensward {

struct BeatToTry {
  TriedFrom from;           // all that decides how the trials come out
  std::vector<View> views;  // at its moments
  // The indices in the scene: of each verdict asked, and of each mark of its plan.
  std::vector<int> verdict_of, marks;

  const Plan& plan() const { return from.seen.plan; }
};

// Those that are filmed, could be read and have a verdict on a wish or a story, in order. They are looked at four times
// a second, a long beat 32 times in all.
std::vector<BeatToTry> beats_to_try(const Plan& plan, const Attention& attention, const std::vector<Verdict>& verdicts);

}  // namespace lensward
