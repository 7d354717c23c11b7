// Furniture, doors, windows and walls as the solids they are seen as.
#pragma once

#include <vector>

#include "figure/solid.h"
#include "plan/stage.h"

namespace lensward {

// The piece as boxes and tubes within its own length, depth and height. Measures under 1 cm count as 1 cm.
std::vector<Solid> solids_of(const Piece& piece);

// What fills the hole of a door or window: frame, bars, and a door's leaf, shut or swung open by a right angle.
// Glass is left out. `into_wall` is the wall's thickness.
std::vector<Solid> solids_of(const Opening& opening, bool open, Metres into_wall);

// The wall with the holes of its openings left free, standing outside the line from -> to. `openings` may hold those
// of other walls.
std::vector<Solid> solids_of(const Wall& wall, WallId id, const std::vector<Opening>& openings, Metres height,
                             Metres thickness);

// A box that stands on its own, its middle at `middle`, turned to a bearing.
Solid upright_box(Vec3 middle, Vec3 size, Degrees bearing, Material material);

}  // namespace lensward
