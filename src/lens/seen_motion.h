// How fast a body goes over the screen.
#pragma once

#include "optics/pinhole.h"
#include "plan/plan.h"

namespace lensward {

// A camera's lens with its axes.
struct LensAt {
  Pinhole lens;
  LensAxes axes;
};

// The lens a little before a moment and a little after it.
struct LensMotion {
  Moment before, after;
  LensAt lens_before, lens_after;
};
// Requires a camera of the plan. Focal lengths under 1 mm count as 1 mm.
LensMotion motion_of(const Plan& plan, CameraId camera, Moment moment);

// Widths of the frame a second, of the eyes carried by the feet, the rise or sink of a change of posture, and the
// camera's own moves. 0 when they are not before the lens all the while.
double screen_speed(const Plan& plan, const LensMotion& motion, PersonId person);

}  // namespace lensward
