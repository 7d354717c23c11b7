// The whole plan at one moment as solids: people, furniture, walls, with what each belongs to.
#pragma once

#include <vector>

#include "figure/figure.h"
#include "plan/plan.h"

namespace lensward {

struct SceneSolids {
  std::vector<Solid> solids;
  std::vector<Target> owner;    // of each solid: a person, piece, prop, opening; nothing for walls and floor
  std::vector<Figure> figures;  // by PersonId; empty solids for those not present
};

// Wild walls, floor and ceiling are left out; walls between the lens and the room are left out too when wild.
SceneSolids solids_of(const Plan& plan, Moment moment);

}  // namespace lensward
