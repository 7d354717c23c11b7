// The lossless tree, printed.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "source/source_file.h"
#include "syntax/tree.h"

namespace lensward {

// Stable and diffable; "schema" names its version. Printed as text by report/outline.h, or as JSON as it is.
nlohmann::ordered_json dump_tree(const SourceSet& sources, const Tree& tree);

}  // namespace lensward
