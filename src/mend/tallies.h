// How often things are found: what two playings of a scene are told apart by.
#pragma once

#include <map>
#include <vector>

#include "findings/key.h"
#include "mend/rehearsal.h"

namespace lensward {

using FindingTally = std::map<FindingKey, int>;

// An error or a warning that no line waives.
bool counts(const Finding& finding);

// How many that count there are of each key. Left out is that a wish at one of these lines comes late.
FindingTally tallied(const Findings& findings, const std::vector<Span>& left_out = {});

// Errors and warnings that the first has more of than the second.
int more_in(const FindingTally& tally, const FindingTally& than);

// Findings of any severity with this key that no line waives.
int times(const Findings& findings, const FindingKey& key);

// By finding of the scene: its number (see Trouble), 0 of those that are waived or stand in another file.
std::vector<int> numbers_of(const Rehearsal& scene);

}  // namespace lensward
