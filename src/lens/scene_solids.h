// The whole plan at one moment as solids: people, furniture, walls, with what each belongs to.
#pragma once

#include <vector>

#include "figure/figure.h"
#include "plan/plan.h"

namespace lensward {

struct SceneSolids {
  std::vector<Solid> solids;
  std::vector<Target> owner;          // of each solid: a person, piece, prop, opening; nothing for walls and floor
  std::vector<PersonFigure> figures;  // by PersonId; empty solids for those not present
};

// The solids of an owner stand together. Wild walls and what fills their openings, floor, ceiling and glass are left
// out. A door stands open while somebody is within 0.9 m of it.
SceneSolids solids_of(const Plan& plan, Moment moment);

}  // namespace lensward
