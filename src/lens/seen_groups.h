// The solids of a scene taken owner by owner.
#pragma once

#include <cstdint>
#include <deque>
#include <memory>
#include <span>
#include <utility>
#include <vector>

#include "lens/recipes.h"

namespace lensward {

// All solids of one person, piece, prop or opening; each wall is a group of its own.
struct SeenGroup {
  Target owner;
  std::span<const Solid> solids;
  bool lets_through = false;  // glass and the like: neither masks nor shades
  Vec3 middle;                // of a ball round them all
  Metres radius;
  std::shared_ptr<const Made> made = nullptr;  // what holds the solids; null: somebody else does
  std::int64_t number = 0;  // of those that one maker has made: the same number, the same solids; 0: made by none
};

// The groups of one stage at moment after moment. What has been made stays, so that what does not change from one
// moment to another keeps its number.
class GroupMaker {
 public:
  // In the order of recipes_of. Requires plans with the same stage from call to call.
  std::vector<SeenGroup> groups(const Plan& plan, Moment moment);

 private:
  std::vector<std::deque<std::pair<Recipe, SeenGroup>>> kept_;  // by owner
  std::int64_t made_ = 0;
};

std::vector<SeenGroup> groups_of(const Plan& plan, Moment moment);

// Index of the group of an owner; -1: it has no solids.
int group_of(const std::vector<SeenGroup>& groups, const Target& owner);

// Does any solid of the groups stand between a lamp and a point? Those of `own`, what lets light through and what the
// lamp is in or on do not count, nor do the first and last 2 cm.
bool shaded(const std::vector<SeenGroup>& groups, Vec3 lamp, Vec3 point, const Target& own);

// Does the straight way between two points come within `reach` of the ball round a group?
bool passes_near(const SeenGroup& group, Vec3 from, Vec3 to, Metres reach = Metres{0});

}  // namespace lensward
