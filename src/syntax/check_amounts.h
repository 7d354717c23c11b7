// Inside of syntax: what is wrong with the numbers of a line that the grammar could read.
#pragma once

#include <optional>

#include "findings/finding.h"
#include "syntax/node_view.h"

namespace lensward {

// The first of: a number without its unit, two units that cannot be written together, more digits than a number may
// have. Looks at the node and all below it.
std::optional<Finding> check_amounts(const NodeView& line);

}  // namespace lensward
