// A change as a unified diff. What became of each line is known, so nothing is searched for.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace lensward {

// Which lines of the new text stand for an old one: none for a line that went, several for a broken one or for one with
// others put in beside it.
struct LineChange {
  std::string before;              // an empty line put in above it, else nothing
  std::vector<std::string> after;  // with their line ends
};

// The change as a unified diff with three lines of context, or nothing when there is none. Requires a change for each
// line of the old text, together making the new one.
std::string diff_of(const std::string& name, std::string_view old_text, std::string_view new_text,
                    const std::vector<LineChange>& changes);

}  // namespace lensward
