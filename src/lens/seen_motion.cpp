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

std::optional<PicturePoint> eyes_in_picture(const Looking& looking, PersonId person, Moment moment) {
  const Vec2 at = floor_of(eyes_at(looking.plan, person, moment));
  Pinhole lens = looking.lens;
  const CameraState camera = camera_at(looking.plan, looking.camera, moment);
  lens.at = camera.at;
  lens.pan = camera.pan;
  lens.tilt = camera.tilt;
  lens.roll = camera.roll;
  lens.focal = Millimetres{std::max(camera.focal.value, 1.0)};
  const auto projected = project(lens, raised(at, eyes_above_floor(looking.plan, person, moment)));
  if (!projected) return std::nullopt;
  return projected->at;
}

}  // namespace

double screen_speed(const Looking& looking, PersonId person) {
  const auto before = eyes_in_picture(looking, person, looking.moment - either_side);
  const auto after = eyes_in_picture(looking, person, looking.moment + either_side);
  if (!before || !after) return 0;
  const double height = looking.lens.gate_height / looking.lens.gate_width;
  const double across = after->u - before->u, down = (after->v - before->v) * height;
  const double moved = std::sqrt(across * across + down * down);
  return std::min(moved / to_seconds(either_side + either_side).value, fastest);
}

}  // namespace lensward
