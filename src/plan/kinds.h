// Furniture by its kind word: sizes, seats and what it hides (docs/language.md, "furniture").
#pragma once

#include <optional>
#include <string_view>

#include "base/units.h"
#include "base/words.h"

namespace lensward {

struct KindOfPiece {
  PieceKind kind = PieceKind::box;
  Metres length{1}, depth{1}, height{1};  // length along the front
  int seats = 0;
  Metres seat_height{0};
  bool open_underneath = false;
  bool hides = false;  // all of a person behind it
  bool see_through = false;
  bool to_the_wall = false;  // what a room keeps along its walls
};

const KindOfPiece& kind_of(PieceKind kind);

// The kind a name spells, whatever its capitals: "Table", "Steps". Nothing when it spells none.
std::optional<PieceKind> kind_in(std::string_view name);

}  // namespace lensward
