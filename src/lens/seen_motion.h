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

// A lens the plan says nothing sensible about still has to give finite numbers: focal length and gate of 1 mm at least.
Pinhole usable_lens(const CameraState& state);

// The lens a little before a moment and a little after it.
struct LensMotion {
  Moment before, after;
  LensAt lens_before, lens_after;
};
// Requires a camera of the plan. Of usable lenses.
LensMotion motion_of(const Plan& plan, CameraId camera, Moment moment);

// Widths of the frame a second, of the eyes carried by the feet, the rise or sink of a change of posture, and the
// camera's own moves. 0 when they are not before the lens all the while.
double screen_speed(const Plan& plan, const LensMotion& motion, PersonId person);

}  // namespace lensward
