// The part of a vague place in which a verdict holds.
#pragma once

#include <string>

#include "rules/rule.h"

namespace lensward {

// The place that turns a verdict, when one does; null else. The first in the order of the text.
const PlaceTried* turned_by_place(const Checked& checked, int verdict);

// "in the frame right 29 cm of it"; "throughout the deepest 1.2 m of it" when it holds at points elsewhere too; how
// many of the points tried, when less than half of those that hold lie in such a strip. Requires points of both kinds.
std::string safe_part_words(const Checked& checked, const PlaceTried& place);

// The line that pins the mark at its best: where it is, when the verdict holds there, else where the lead is greatest.
std::string pin_words(const Checked& checked, const PlaceTried& place);

}  // namespace lensward
