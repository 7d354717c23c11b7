#include <algorithm>
#include <array>
#include <cstdio>

#include "source/character.h"
#include "syntax/broken.h"

namespace lensward {
namespace {

// Marks, embeddings, overrides and isolates of the Unicode bidirectional algorithm (UAX #9, table 4).
bool turns_direction(std::int32_t code) {
  return code == 0x061C || code == 0x200E || code == 0x200F || (code >= 0x202A && code <= 0x202E) ||
         (code >= 0x2066 && code <= 0x2069);
}

std::string hex(unsigned value, int digits) {
  std::array<char, 16> text{};
  std::snprintf(text.data(), text.size(), "%0*X", digits, value);
  return text.data();
}

Finding not_utf8(const LineText& line, std::uint32_t at) {
  std::uint32_t past = at;
  while (past < line.end && character_at(line.bytes.substr(0, line.end), past).code < 0) ++past;
  std::string named;
  for (std::uint32_t i = at; i < std::min(past, at + 4); ++i) {
    named += " 0x" + hex(static_cast<unsigned char>(line.bytes[i]), 2);
  }
  return reading_error("parse.not-utf8", line.span(at, past),
                       (past - at == 1 ? "byte" : "bytes") + named + (past - at > 4 ? " …" : "") +
                           (past - at == 1 ? " is not UTF-8" : " are not UTF-8"),
                       "save the file as UTF-8");
}

Finding hidden(const LineText& line, std::uint32_t at, const Character& character) {
  return reading_error("parse.hidden-character", line.span(at, at + static_cast<std::uint32_t>(character.length)),
                       "an invisible character that turns the direction of the text (U+" +
                           hex(static_cast<unsigned>(character.code), 4) + ") stands here",
                       "delete it; what is read may then differ from what was seen");
}

Finding too_long(const LineText& line, std::uint32_t at, std::size_t characters) {
  return reading_error(
      "parse.too-long", line.span(at, line.end),
      "this line holds " + std::to_string(characters) + " characters; a line may hold " + std::to_string(longest_line),
      "go on with further lines: clauses after `+`, speech in quotation marks");
}

}  // namespace

std::optional<Finding> refuse(const LineText& line) {
  const std::string_view text = line.text();
  const bool plain = std::ranges::all_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x80; });
  if (plain && text.size() <= longest_line) return std::nullopt;
  const std::string_view bytes = line.bytes.substr(0, line.end);
  std::size_t characters = 0;
  std::uint32_t limit = line.end;
  for (std::uint32_t at = line.begin; at < line.end;) {
    const Character character = character_at(bytes, at);
    if (character.code < 0) return not_utf8(line, at);
    if (turns_direction(character.code)) return hidden(line, at, character);
    if (characters++ == longest_line) limit = at;
    at += static_cast<std::uint32_t>(character.length);
  }
  if (characters > longest_line) return too_long(line, limit, characters);
  return std::nullopt;
}

}  // namespace lensward
