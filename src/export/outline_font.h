// The built-in faces as FreeType faces, unhinted.
#pragma once

#include <ft2build.h>
#include FT_FREETYPE_H

#include <string>

#include "type/face.h"

namespace lensward {

// Loaded at the first call and kept for the program's life. Never null.
FT_Face outline_font(Face face);

// A glyph's outline as SVG path data in the font's own units, y down; empty for a space.
std::string glyph_path(Face face, std::uint32_t glyph);

int units_per_em(Face face);

}  // namespace lensward
