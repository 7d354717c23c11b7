// The characters of a text as the writer sees them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace lensward {

// A code point, or one byte that is not UTF-8.
struct Character {
  std::int32_t code = 0;  // -1: a byte that is not UTF-8
  std::size_t length = 1;
};

// Requires at < text.size().
Character character_at(std::string_view text, std::size_t at);

// Terminal cells; see display_width.
int cells_of(Character character);

// May not be sent to a terminal as it is: controls, marks that turn the direction of text, bytes that are not UTF-8.
bool is_unprintable(Character character);

// The text with every unprintable character replaced by U+FFFD.
std::string printable(std::string_view text);
// The same of several lines, whose ends stay. Requires text that ends in a line end, or is empty.
std::string printable_lines(std::string_view text);

}  // namespace lensward
