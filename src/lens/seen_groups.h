// The solids of a scene taken owner by owner.
#pragma once

#include <span>
#include <vector>

#include "lens/scene_solids.h"

namespace lensward {

// All solids of one person, piece, prop or opening; each wall is a group of its own.
struct SeenGroup {
  Target owner;
  std::span<const Solid> solids;  // of the SceneSolids the groups were made from
  std::size_t first = 0;          // index of the first in SceneSolids::solids
  bool lets_through = false;      // glass and the like: neither masks nor shades
  Vec3 middle;                    // of a ball round them all
  Metres radius;
};

// The solids of an owner stand together in `scene`, which has to outlive the groups.
std::vector<SeenGroup> groups_of(const Plan& plan, const SceneSolids& scene);

// Does any solid of the groups stand between a lamp and a point? Those of `own`, what lets light through and what the
// lamp is in or on do not count, nor do the first and last 2 cm.
bool shaded(const std::vector<SeenGroup>& groups, Vec3 lamp, Vec3 point, const Target& own);

}  // namespace lensward
