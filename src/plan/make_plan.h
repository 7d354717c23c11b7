// Script -> plan: names, places and times.
#pragma once

#include <optional>

#include "findings/finding.h"
#include "plan/plan.h"
#include "plan/scene_text.h"
#include "source/source_file.h"
#include "syntax/script.h"

namespace lensward {

// What a scene is planned for besides itself.
struct PlanFor {
  std::optional<WayChoice> way = {};  // stands in for the way chosen for that beat
  const Plan* before = nullptr;       // the scene its opening follows; not looked at unless the opening says so
};

// Builds the plan of one scene file. Always returns a plan: what could not be understood is left out of it and stands
// in the findings, and a beat that holds such a line is not judged. A script without a scene gives an empty plan.
Plan make_plan(const SourceSet& sources, const Script& script, Findings& findings, const PlanFor& planned_for = {});

}  // namespace lensward
