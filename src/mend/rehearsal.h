// What mending works with: a scene as it is played, and the way to play it with another text.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "emphasis/tally.h"
#include "emphasis/verdict.h"
#include "findings/finding.h"
#include "plan/plan.h"
#include "source/source_file.h"

namespace lensward {

// A text of the scene's own file, and what the stages made of it.
struct Rehearsal {
  SourceSet sources;
  std::int32_t file = 0;  // the scene's own, in sources
  Plan plan;
  Attention attention;
  std::vector<Verdict> verdicts;
  Findings findings;

  std::string_view text() const { return sources.file(file).bytes(); }
};

// How far a text is played: to the plan, to the findings with everybody at their marks, or to those as well that rest
// on vague places and small slips.
enum class Depth { plan, marks, places };

// Plays the scene with its own file replaced by this text, all other files as they are. May be called from several
// threads at once.
using Rehearse = std::function<Rehearsal(const std::string& text, Depth depth)>;

}  // namespace lensward
