// Inside of syntax: what is said about a line that cannot be read. One finding for each.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "findings/finding.h"
#include "syntax/reading.h"

namespace lensward {

inline constexpr std::size_t longest_line = 2000;       // characters
inline constexpr std::size_t longest_file = 2'097'152;  // bytes: 2 MiB

inline constexpr std::size_t most_lines = 20'000;
inline constexpr std::size_t longest_name = 64;  // characters
inline constexpr std::size_t most_words_spoken = 4'000;
inline constexpr std::size_t most_beats = 400;
inline constexpr std::size_t most_lines_in_beat = 1'000;

// Bytes begin..end of one file: a line without its line end.
struct LineText {
  std::string_view bytes;
  std::int32_t file = 0;
  std::uint32_t begin = 0, end = 0;

  std::string_view text() const { return bytes.substr(begin, end - begin); }
  Span span(std::uint32_t from, std::uint32_t to) const { return {file, from, to}; }
};

// An error of reading with its three sentences.
Finding reading_error(std::string rule, Span where, std::string message, std::string next_step);

// Bytes that are not UTF-8, characters that turn the direction of the text, more than longest_line characters: such a
// line is not read at all.
std::optional<Finding> refuse(const LineText& line);

// Why the grammar could not read the line.
Finding explain(const LineText& line, const Stop& stop);

// The writer's words between backticks, fit to print; the middle of long ones is left out.
std::string in_ticks(std::string_view words);

// The token at `at`: a word with what hangs on it, quoted words, or one character. Empty at the end and at a comment.
std::string_view token_at(std::string_view bytes, std::uint32_t at, std::uint32_t end);

}  // namespace lensward
