// Script -> plan: names, places and times.
#pragma once

#include "findings/finding.h"
#include "plan/plan.h"
#include "source/source_file.h"
#include "syntax/script.h"

namespace lensward {

// Builds the plan of one scene file. Always returns a plan: what could not be understood is left out of it and stands
// in the findings, and a beat that holds such a line is not judged. A script without a scene gives an empty plan.
Plan make_plan(const SourceSet& sources, const Script& script, Findings& findings);

}  // namespace lensward
