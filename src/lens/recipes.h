// The plan at one moment as what each body and thing is made from, so that nothing is made twice.
#pragma once

#include <vector>

#include "figure/figure.h"
#include "plan/plan.h"

namespace lensward {

// All that one owner's solids are made from: of one stage, equal recipes make equal solids.
struct Recipe {
  Target owner;          // a person, piece, prop or opening; nothing: a wall
  WallId wall;           // of a wall
  Pose pose;             // of a person
  bool changed = false;  // a piece has fallen, an opening is open
  Vec3 middle, size;     // of a prop

  bool operator==(const Recipe&) const = default;
};

// In the order people, pieces, props, walls, openings. Wild walls and what fills their openings, floor, ceiling and
// glass are left out, as are people without stature. A door stands open while somebody is within 0.9 m of it.
std::vector<Recipe> recipes_of(const Plan& plan, Moment moment);

struct Made {
  std::vector<Solid> solids;
  PersonFigure figure;  // of a person, its solids moved out
};

// Requires a recipe of a plan with this stage.
Made made_from(const Stage& stage, const Recipe& recipe);

}  // namespace lensward
