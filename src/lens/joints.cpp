#include "lens/joints.h"

#include "figure/skeleton.h"
#include "plan/state.h"

namespace lensward {

std::array<Joint, 5> joints_of(const Plan& plan, PersonId person, Moment moment) {
  // Half of crown to chin (Drillis and Contini: chin at 0.870 of stature), and from there to the middle of the neck,
  // whose foot is at 0.818.
  constexpr double half_a_head = 0.065, half_a_neck = 0.026;
  const Skeleton body = skeleton_of(bare_pose(plan, person, person_at(plan, person, moment)));
  const Vec3 neck = body.head.origin - body.head.up * ((half_a_head + half_a_neck) * body.stature);
  return {{{"neck", neck},
           {"left knee", body.legs[0].bend},
           {"right knee", body.legs[1].bend},
           {"left ankle", body.legs[0].end},
           {"right ankle", body.legs[1].end}}};
}

}  // namespace lensward
