// Which beat was edited.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

namespace lensward {

// The beat of the first line that differs, as an index into `beat_begins`, the places of the beats' headings in the new
// text, in order. Lines that went count at the line that follows them, or at the last one. -1 when nothing differs, or
// before the first heading, where every beat may be meant.
int edited_beat(std::string_view old_text, std::string_view new_text, const std::vector<std::uint32_t>& beat_begins);

}  // namespace lensward
