// One person as the lens sees them.
#pragma once

#include "lens/light.h"
#include "lens/masks.h"
#include "lens/seen_motion.h"
#include "lens/view.h"
#include "plan/plan.h"

namespace lensward {

// Everything one moment's view is made from.
struct Looking {
  const Plan& plan;
  Moment moment;
  CameraState state;
  Pinhole lens;  // of the state, with focal length and gate made positive
  LensAxes axes;
  const LensMotion& motion;
  const std::vector<SeenGroup>& groups;
  const SceneLight& light;
  FrameDrawer& drawer;
  const MaskFrame& frame;
};

// Requires a person who is present.
Lux light_on_face(const Looking& looking, PersonId person);

// All but `gap`, which needs the others, with so much light on the face. Requires a person who is present.
PersonSeen seen_person(const Looking& looking, PersonId person, Lux incident);

// The band of facts a body's angle to the lens falls in: 25, 65, 115 and 155 degrees part them.
BodyView body_view(Degrees angle);

// Clear space between each person's outline in frame and the nearest other's, in frame widths; 1 when there is no
// other.
void add_gaps(const Pinhole& lens, std::vector<PersonSeen>& people);

}  // namespace lensward
