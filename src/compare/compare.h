// Two finished drafts of a scene against each other.
#pragma once

#include "compare/changes.h"
#include "emphasis/tally.h"
#include "emphasis/verdict.h"
#include "findings/finding.h"
#include "plan/plan.h"

namespace lensward {

// What the stages made of one draft.
struct Draft {
  const Plan& plan;
  const Attention& attention;
  const std::vector<Verdict>& verdicts;
  const Findings& findings;
};

// Beats are matched by name; those left over between the same neighbours are one beat renamed when a line stands in
// both. What a beat has from the beat before it is told there, once. Never fails: drafts without beats are compared by
// their findings.
Changes compare(const Draft& before, const Draft& after, const Thresholds& thresholds = {});

}  // namespace lensward
