// The joints of a body that a frame's edge had better not go through.
#pragma once

#include <array>

#include "plan/plan.h"

namespace lensward {

struct Joint {
  const char* name;  // "left knee"
  Vec3 at;
};

// Neck, knees and ankles. Requires a person of the plan.
std::array<Joint, 5> joints_of(const Plan& plan, PersonId person, Moment moment);

}  // namespace lensward
