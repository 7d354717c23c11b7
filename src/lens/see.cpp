#include "lens/see.h"

#include <algorithm>

#include "lens/seen_person.h"
#include "lens/seen_thing.h"

namespace lensward {
namespace {

// A lens the plan says nothing sensible about still has to give finite numbers.
Pinhole usable(const CameraState& state) {
  Pinhole lens = pinhole_of(state);
  lens.focal = Millimetres{std::max(lens.focal.value, 1.0)};
  lens.gate_width = Millimetres{std::max(lens.gate_width.value, 1.0)};
  lens.gate_height = Millimetres{std::max(lens.gate_height.value, 1.0)};
  return lens;
}

}  // namespace

View see(const Plan& plan, Moment moment, Drawings& drawings) {
  View view;
  view.moment = moment;
  view.camera = on_air(plan, moment);
  if (!view.camera.known()) return view;
  view.state = camera_at(plan, view.camera, moment);
  const Pinhole lens = usable(view.state);
  const SceneSolids scene = solids_of(plan, moment);
  const std::vector<SeenGroup> groups = groups_of(plan, scene);
  const SceneLight light = light_of(plan, moment);
  drawings.last = draw_frame(groups, lens, drawings.last);
  const Looking looking{plan,          moment, view.camera, view.state, lens,
                        axes_of(lens), scene,  groups,      light,      *drawings.last};
  for (std::size_t i = 0; i < plan.stage.people.size(); ++i) {
    const PersonId person{static_cast<int>(i)};
    if (person_at(plan, person, moment).present) view.people.push_back(seen_person(looking, person));
  }
  add_gaps(lens, view.people);
  for (const Target& thing : things_named(plan)) view.things.push_back(seen_thing(looking, thing));
  return view;
}

View see(const Plan& plan, Moment moment) {
  Drawings none;
  return see(plan, moment, none);
}

}  // namespace lensward
