// The part of a built-in face that some words need, as a font file of its own.
#pragma once

#include <set>
#include <string>

#include "type/face.h"

namespace lensward {

// An OpenType file with the glyphs of these letters, their ligatures, kerning and even figures, without hints.
// Letters that the face has not are left out. Same letters, same bytes; empty when no part could be made.
std::string font_part(Face face, const std::set<char32_t>& letters);

}  // namespace lensward
