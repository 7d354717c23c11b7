#include "lens/seen_motion.h"

#include <algorithm>
#include <cmath>

#include "figure/proportions.h"
#include "plan/lane.h"
#include "plan/state.h"

namespace lensward {
namespace {

constexpr Milliseconds either_side{40};
constexpr double fastest = 100;

// Somebody who sits down sinks all through the move, though the plan calls them seated from its middle on.
double eyes_above_floor(const Plan& plan, PersonId person, Moment moment) {
  const Segment<Stance>* segment = segment_at(plan.people[static_cast<std::size_t>(person.index)].stance, moment);
  const Metres stature = plan.stage.people[static_cast<std::size_t>(person.index)].stature;
  const auto height = [&](const Stance& stance) {
    return eye_height(stature, stance.posture, seat_height(plan.stage, stance.seat)).value;
  };
  if (segment == nullptr) return height(Stance{});
  return mix(height(segment->from), height(segment->to), progress(*segment, moment));
}

std::optional<PicturePoint> eyes_in_picture(const Plan& plan, const LensAt& lens, PersonId person, Moment moment) {
  const Vec3 eyes = raised(floor_of(eyes_at(plan, person, moment)), eyes_above_floor(plan, person, moment));
  const auto projected = project(lens.lens, lens.axes, eyes);
  if (!projected) return std::nullopt;
  return projected->at;
}

LensAt lens_at(const Plan& plan, CameraId camera, Moment moment) {
  const Pinhole lens = usable_lens(camera_at(plan, camera, moment));
  return {lens, axes_of(lens)};
}

}  // namespace

Pinhole usable_lens(const CameraState& state) {
  Pinhole lens = pinhole_of(state);
  lens.focal = Millimetres{std::max(lens.focal.value, 1.0)};
  lens.gate_width = Millimetres{std::max(lens.gate_width.value, 1.0)};
  lens.gate_height = Millimetres{std::max(lens.gate_height.value, 1.0)};
  return lens;
}

LensMotion motion_of(const Plan& plan, CameraId camera, Moment moment) {
  const Moment before = moment - either_side, after = moment + either_side;
  return {before, after, lens_at(plan, camera, before), lens_at(plan, camera, after)};
}

double screen_speed(const Plan& plan, const LensMotion& motion, PersonId person) {
  const auto before = eyes_in_picture(plan, motion.lens_before, person, motion.before);
  const auto after = eyes_in_picture(plan, motion.lens_after, person, motion.after);
  if (!before || !after) return 0;
  const Pinhole& lens = motion.lens_before.lens;
  const double height = lens.gate_height / lens.gate_width;
  const double across = after->u - before->u, down = (after->v - before->v) * height;
  const double moved = std::sqrt(across * across + down * down);
  return std::min(moved / to_seconds(motion.after - motion.before).value, fastest);
}

}  // namespace lensward
