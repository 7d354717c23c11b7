// Camera move: a push that narrows on someone, a pan that carries toward them.
//
// Kind: trade.
// Formula: the larger of: growth of the head by the camera's own move (place and focal length), 1 at 3 % of the frame's
//   height a second; approach to the middle of the frame by the camera's own move, 1 at a tenth of its width a second.
//   The person is held still for the reckoning.
// Source: geometry; common practice, no source. One thesis tested dolly moves on attention (O-48); its result was not
//   to be seen.
// Weakness: a push on two counts for both; a pan counts while it comes, not after it has come.
#include <algorithm>
#include <cmath>

#include "emphasis/cues.h"

namespace lensward {
namespace {

constexpr double full_growth = 0.03;
constexpr double full_approach = 0.1;
constexpr double apart_in_time = 0.1;

bool stands_still(const CameraState& a, const CameraState& b) {
  return a.at == b.at && a.pan == b.pan && a.tilt == b.tilt && a.roll == b.roll && a.focal == b.focal;
}

double off_centre(PicturePoint at) { return std::fabs(at.u - 0.5); }

}  // namespace

double camera_move(const CueInput& in) {
  const CameraState &now = in.now.view.state, &soon = in.now.soon;
  if (stands_still(now, soon)) return 0;
  const auto at = point_of(in.now.plan, in.target, in.now.view.moment);
  if (!at || !(now.focal.value > 0)) return 0;
  const auto before = project(pinhole_of(now), *at), after = project(pinhole_of(soon), *at);
  if (!before || !after) return 0;
  const double zoom = soon.focal / now.focal;
  const double growth = (zoom * before->depth.value / after->depth.value - 1) * height_in_picture(in).value;
  const double approach = off_centre(before->at) - off_centre(after->at);
  const double strength = std::max(growth / full_growth, approach / full_approach) / apart_in_time;
  return std::clamp(strength, 0.0, 1.0);
}

}  // namespace lensward
