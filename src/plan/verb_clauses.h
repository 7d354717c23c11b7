// Which clauses each verb needs and may take (docs/language.md, "verbs").
#pragma once

#include "plan/deeds.h"

namespace lensward {

// False, and `name.clause-missing`, when the line lacks what its verb needs; a clause the verb does not take is
// `name.clause-misfit` and leaves the line as it is otherwise. Requires the facts of this line.
bool clauses_fit(Building& building, const DeedLine& line, const DeedFacts& facts);

}  // namespace lensward
