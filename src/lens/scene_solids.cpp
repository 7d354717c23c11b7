#include "lens/scene_solids.h"

#include <utility>

#include "lens/recipes.h"

namespace lensward {

SceneSolids solids_of(const Plan& plan, Moment moment) {
  SceneSolids scene;
  scene.figures.resize(plan.stage.people.size());
  for (const Recipe& recipe : recipes_of(plan, moment)) {
    Made made = made_from(plan.stage, recipe);
    scene.solids.insert(scene.solids.end(), made.solids.begin(), made.solids.end());
    scene.owner.insert(scene.owner.end(), made.solids.size(), recipe.owner);
    if (recipe.owner.kind != Target::Kind::person) continue;
    made.figure.solids = std::move(made.solids);
    scene.figures[static_cast<std::size_t>(recipe.owner.index)] = std::move(made.figure);
  }
  return scene;
}

}  // namespace lensward
