// Where the cameras of coverage would stand.
#pragma once

#include "plan/exchanges.h"

namespace lensward {

// 40 degrees off the line to whom they speak to, on its own side, for a close-up, from as near as a 50 mm lens
// allows and as far as furniture and walls make it, to 135 mm (common practice, no source). Without a listener it is as
// much off where they face, on the held camera's side.
CameraState single_of(const Plan& plan, PersonId of, const Exchange& exchange);
// Behind the other's shoulder on the side of the line, the lens chosen for a medium close-up. Requires a listener.
CameraState over_shoulder_of(const Plan& plan, PersonId of, const Exchange& exchange);

// Whether who is seen looks to the right of the picture, toward whom the exchange has them face.
bool looks_right(const CameraState& camera, Vec2 from, Vec2 toward);

}  // namespace lensward
