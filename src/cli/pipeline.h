// All stages in a line, over one file.
#pragma once

#include <string>
#include <vector>

#include "emphasis/tally.h"
#include "emphasis/verdict.h"
#include "findings/finding.h"
#include "pages/lay_out.h"
#include "plan/plan.h"
#include "source/source_file.h"
#include "syntax/script.h"
#include "syntax/tree.h"

namespace lensward {

// What the stages made. Sources and findings add up over several files; the rest is of the last one.
struct Run {
  SourceSet sources;
  Findings findings;
  Tree tree;
  Script script;
  Plan plan;
  Attention attention;
  std::vector<Verdict> verdicts;

  Results results() const { return {sources, plan, attention, verdicts, findings}; }
  // False for a file without a scene in it, whatever else it holds.
  bool has_scene() const { return !plan.facts.name.empty() || !plan.beats.empty(); }
};

// How far to go: a dump of an early stage must not depend on the later ones.
enum class Until { syntax, plan, rules };

// Runs the stages over one file's bytes. Never fails: what is wrong with the file stands in the findings, sorted.
void compile(std::string name, std::string bytes, Until until, Run& run);

}  // namespace lensward
