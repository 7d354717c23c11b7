#include "plan/kinds.h"

#include <array>
#include <string>

namespace lensward {
namespace {

constexpr bool open = true, closed = false, whole = true, part = false, clear = true, solid = false, wall = true,
               anywhere = false;

// Sizes of common pieces as catalogues give them: common practice, no source. Seats of one height, 0.45 m.
constexpr std::array<KindOfPiece, 40> kinds{{
    {PieceKind::table, 1.8_m, 0.8_m, 0.75_m, 0, 0_m, open, part, solid, anywhere},
    {PieceKind::desk, 1.4_m, 0.7_m, 0.74_m, 0, 0_m, open, part, solid, anywhere},
    {PieceKind::counter, 2_m, 0.6_m, 0.91_m, 0, 0_m, closed, part, solid, anywhere},
    {PieceKind::bar, 2.4_m, 0.6_m, 1.1_m, 0, 0_m, closed, part, solid, anywhere},
    {PieceKind::stove, 0.9_m, 0.6_m, 0.9_m, 0, 0_m, closed, part, solid, wall},
    {PieceKind::sink, 1.2_m, 0.6_m, 0.9_m, 0, 0_m, closed, part, solid, wall},
    {PieceKind::basin, 0.5_m, 0.4_m, 0.85_m, 0, 0_m, closed, part, solid, wall},
    {PieceKind::bath, 1.7_m, 0.7_m, 0.58_m, 0, 0_m, closed, part, solid, wall},
    {PieceKind::fridge, 0.6_m, 0.65_m, 1.8_m, 0, 0_m, closed, whole, solid, wall},
    {PieceKind::cupboard, 1_m, 0.5_m, 2_m, 0, 0_m, closed, whole, solid, wall},
    {PieceKind::wardrobe, 1.2_m, 0.6_m, 2_m, 0, 0_m, closed, whole, solid, wall},
    {PieceKind::sideboard, 1.6_m, 0.45_m, 0.85_m, 0, 0_m, closed, part, solid, wall},
    {PieceKind::bookcase, 0.9_m, 0.3_m, 2_m, 0, 0_m, closed, whole, solid, wall},
    {PieceKind::chest, 1_m, 0.5_m, 0.5_m, 0, 0_m, closed, part, solid, anywhere},
    {PieceKind::crate, 0.6_m, 0.6_m, 0.6_m, 0, 0_m, closed, part, solid, anywhere},
    {PieceKind::barrel, 0.6_m, 0.6_m, 0.9_m, 0, 0_m, closed, part, solid, anywhere},
    {PieceKind::chair, 0.45_m, 0.5_m, 0.9_m, 1, 0.45_m, open, part, solid, anywhere},
    {PieceKind::armchair, 0.85_m, 0.85_m, 0.9_m, 1, 0.42_m, closed, part, solid, anywhere},
    {PieceKind::stool, 0.35_m, 0.35_m, 0.45_m, 1, 0.45_m, open, part, solid, anywhere},
    {PieceKind::bench, 1.5_m, 0.4_m, 0.45_m, 3, 0.45_m, open, part, solid, anywhere},
    {PieceKind::sofa, 2_m, 0.9_m, 0.8_m, 3, 0.42_m, closed, part, solid, anywhere},
    {PieceKind::bed, 2_m, 1.4_m, 0.5_m, 2, 0.5_m, closed, part, solid, anywhere},
    {PieceKind::bunk, 2_m, 0.8_m, 0.5_m, 1, 0.5_m, closed, part, solid, wall},
    {PieceKind::pew, 2.4_m, 0.5_m, 0.9_m, 4, 0.45_m, closed, part, solid, anywhere},
    {PieceKind::piano, 1.5_m, 0.6_m, 1.2_m, 0, 0_m, closed, part, solid, wall},
    {PieceKind::lectern, 0.6_m, 0.5_m, 1.15_m, 0, 0_m, closed, part, solid, anywhere},
    {PieceKind::trolley, 0.9_m, 0.5_m, 0.9_m, 0, 0_m, open, part, solid, anywhere},
    {PieceKind::screen, 1.8_m, 0.05_m, 1.7_m, 0, 0_m, closed, whole, solid, anywhere},
    {PieceKind::curtain, 2_m, 0.1_m, 2.3_m, 0, 0_m, closed, whole, solid, anywhere},
    {PieceKind::cloth, 1.8_m, 0.02_m, 0.75_m, 0, 0_m, closed, whole, solid, anywhere},
    {PieceKind::pillar, 0.4_m, 0.4_m, 2.6_m, 0, 0_m, closed, whole, solid, anywhere},
    {PieceKind::rail, 2_m, 0.1_m, 1_m, 0, 0_m, open, part, clear, anywhere},
    {PieceKind::fence, 2_m, 0.1_m, 1.2_m, 0, 0_m, open, part, clear, anywhere},
    {PieceKind::tree, 0.4_m, 0.4_m, 4_m, 0, 0_m, closed, whole, solid, anywhere},
    {PieceKind::hedge, 2_m, 0.6_m, 1.5_m, 0, 0_m, closed, whole, solid, anywhere},
    {PieceKind::steps, 1_m, 0.9_m, 0.5_m, 0, 0_m, closed, part, solid, anywhere},
    {PieceKind::ladder, 0.45_m, 0.1_m, 2.4_m, 0, 0_m, open, part, clear, anywhere},
    {PieceKind::fireplace, 1.4_m, 0.4_m, 1.2_m, 0, 0_m, closed, part, solid, wall},
    {PieceKind::rug, 2_m, 1.4_m, 0_m, 0, 0_m, closed, part, solid, anywhere},
    {PieceKind::box, 1_m, 1_m, 1_m, 0, 0_m, closed, part, solid, anywhere},
}};

}  // namespace

const KindOfPiece& kind_of(PieceKind kind) {
  for (const KindOfPiece& row : kinds) {
    if (row.kind == kind) return row;
  }
  return kinds.back();
}

std::optional<PieceKind> kind_in(std::string_view name) {
  std::string word;
  for (char letter : name) word += letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
  for (const KindOfPiece& row : kinds) {
    if (word == spelling(row.kind)) return row.kind;
  }
  return std::nullopt;
}

}  // namespace lensward
