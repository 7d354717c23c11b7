// The built-in faces, and the measure of words set in them. No font of the host is ever used.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/vec.h"

namespace lensward {

enum class Face { sans, sans_bold, sans_italic, serif, serif_italic, serif_bold };
inline constexpr int face_count = 6;

// One glyph of a shaped line; positions in the unit of the size asked for, from the line's start on the baseline, y up.
struct PlacedGlyph {
  std::uint32_t glyph = 0;
  Vec2 at;
  std::uint32_t cluster = 0;  // byte of the text it came from
};

struct ShapedText {
  std::vector<PlacedGlyph> glyphs;
  double width = 0;
  bool complete = true;  // false: some character is in no built-in face, and is drawn as a box
};

// Shapes one line of UTF-8 with kerning and ligatures. Broken UTF-8 is shown as replacement characters.
ShapedText shape(std::string_view words, Face face, double size);
double width_of(std::string_view words, Face face, double size);

// Breaks words into lines no wider than `width`; a single word wider than that stands alone and is cut at a character.
std::vector<std::string> break_lines(std::string_view words, Face face, double size, double width);

// The font file's bytes, for the exporters.
std::string_view font_bytes(Face face);

}  // namespace lensward
