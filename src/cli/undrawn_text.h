// What cannot be drawn on pages that were made, in words.
#pragma once

#include <string>
#include <vector>

#include "cli/pipeline.h"
#include "pages/sheet.h"

namespace lensward {

// A line for each word with letters that the pages draw as boxes: which, why it matters, what to do; the first four,
// then how many more. Empty when every letter is drawn.
std::vector<std::string> undrawn_text(const Run& run, const std::vector<Sheet>& sheets);

}  // namespace lensward
