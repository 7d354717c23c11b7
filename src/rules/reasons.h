// Why one has more points than another, and what would change it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "rules/rule.h"

namespace lensward {

// One single change and what it is worth: giving the one behind the strength, or the gate, of the one ahead.
struct Reason {
  enum class Kind { cue, hidden, small, dark };
  Kind kind = Kind::cue;
  CueKind cue = CueKind::voice;
  Points worth;  // the points the one behind would gain
};

// Worth half a point or more, the greatest first; equals in the order of the cues.
std::vector<Reason> reasons_between(const std::array<Points, cue_count>& weights, const Sample& sample,
                                    const Target& ahead, const Target& behind);

// Adds to a finding why `ahead` has more than `behind` at a moment: reasons, a label on the line that gives them the
// eye, and the next step that would move it back.
void add_reasons(const Checked& checked, Moment moment, const Target& ahead, const Target& behind, Finding& finding);

// A finding that rests on a default alone: when giving the one behind all that defaults took from them would bring the
// lead asked for, the severity becomes a warning, the default is named and its pin is the next step.
void excuse_default(const Checked& checked, const Verdict& verdict, const Target& ahead, const Target& behind,
                    Finding& finding);

}  // namespace lensward
