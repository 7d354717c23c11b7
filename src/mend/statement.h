// What of a line is the writer's staging, and what is speech and comment.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace lensward {

// The line with whatever stands in quotes, and its comment, overwritten with `"`, byte for byte, so that what is found
// in it stands at the same place in the line.
std::string without_speech(std::string_view line);

// Where in a line a point is told, "(4.3, 1.3) m": its first byte and the one behind it; of two the first.
struct PointTold {
  std::size_t begin = 0, end = 0;
};
std::optional<PointTold> point_told(std::string_view line);

// The clause of a line that says when, as the writer wrote it: from the first comma before a word of time, to the next
// comma, the comment or the end. Empty when there is none.
std::string cue_clause(std::string_view line);

}  // namespace lensward
