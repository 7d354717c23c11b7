// What was made of one line of the writer's file.
#pragma once

#include <string>

#include "cli/pipeline.h"

namespace lensward {

// Times, marks, defaults and findings that come from a line of the scene's own file, with the origin of each. Requires
// 1 <= line <= the number of its lines.
std::string line_text(const Run& run, int line);

}  // namespace lensward
