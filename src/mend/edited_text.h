// A text with edits applied to it, all against one snapshot.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "findings/finding.h"
#include "source/line_diff.h"

namespace lensward {

// Do two edits touch the same bytes? Insertions at one place do not.
bool overlap(const TextEdit& one, const TextEdit& other);

// Can both be made to one text? Not when any two overlap, or are the same.
bool go_together(const std::vector<TextEdit>& some, const std::vector<TextEdit>& others);

// The text with all edits made; insertions at one place in their order. Requires spans within the text that do not
// overlap, in any order.
std::string edited_text(std::string_view text, std::vector<TextEdit> edits);

// What becomes of each line of the text by the same edits.
std::vector<LineChange> line_changes(std::string_view text, std::vector<TextEdit> edits);

}  // namespace lensward
