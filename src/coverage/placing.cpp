#include "coverage/placing.h"

#include <algorithm>

#include "base/angle.h"
#include "figure/proportions.h"
#include "optics/pinhole.h"
#include "plan/floor.h"
#include "plan/state.h"

namespace lensward {
namespace {

constexpr Degrees off_the_line{40};
constexpr double behind_the_shoulder = 0.7, beside_the_shoulder = 0.45;
constexpr double shortest = 18, single_lens = 50, longest = 135;  // mm

Vec3 eyes_of(const Plan& plan, PersonId person, Moment moment) {
  return sharp_point_of(plan, {Target::Kind::person, person.index, {}}, moment).value_or(Vec3{});
}

double height_seen(const Plan& plan, PersonId of, ShotSize size) {
  const Metres stature = plan.stage.people[static_cast<std::size_t>(of.index)].stature;
  return frame_height_for(sizing_of(plan.settings, size), stature).value;
}

CameraState aimed(const Plan& plan, PersonId of, Vec2 at, Moment moment) {
  CameraState camera = camera_at(plan, on_air(plan, moment), moment);
  const Vec3 eyes = eyes_of(plan, of, moment);
  camera.at = raised(at, eyes.z);
  const Aim aim = aim_at(camera.at, eyes);
  camera.pan = aim.pan;
  camera.tilt = aim.tilt;
  camera.roll = {};
  camera.focus = Metres{std::max(length(eyes - camera.at), 0.1)};
  return camera;
}

}  // namespace

CameraState single_of(const Plan& plan, PersonId of, const Exchange& exchange) {
  const bool speaks = of == exchange.speaker;
  const Vec2 eyes = floor_of(eyes_of(plan, of, exchange.moment));
  const Vec2 line = exchange.listener.known() ? unit(exchange.listener_at - exchange.speaker_at) * (speaks ? 1.0 : -1.0)
                                              : direction_of(person_at(plan, of, exchange.moment).facing);
  // Seen along the way each of them looks, the same side is a left hand for one and a right hand for the other.
  // Without a listener it is the side of the held frame's camera.
  const Vec2 held_from = floor_of(camera_at(plan, on_air(plan, exchange.moment), exchange.moment).at);
  const int of_the_gaze = side_of_line(eyes, eyes + line, held_from) < 0 ? -1 : 1;
  const double side = !exchange.listener.known() ? of_the_gaze : speaks ? exchange.side : -exchange.side;
  const Vec2 way = line * cosine(off_the_line) + left_of(line) * (side * sine(off_the_line));
  const CameraState held = camera_at(plan, on_air(plan, exchange.moment), exchange.moment);
  const double per_mm = height_seen(plan, of, ShotSize::close_up) / held.gate_height.value;
  double focal = single_lens;
  while (focal < longest && floor_is_taken(plan.stage, eyes + way * (focal * per_mm))) focal += 5;
  const bool free = focal < longest;
  CameraState camera = aimed(plan, of, eyes + way * ((free ? focal : single_lens) * per_mm), exchange.moment);
  camera.focal = Millimetres{free ? focal : single_lens};
  return camera;
}

CameraState over_shoulder_of(const Plan& plan, PersonId of, const Exchange& exchange) {
  const bool speaks = of == exchange.speaker;
  const Vec2 other = speaks ? exchange.listener_at : exchange.speaker_at;
  const Vec2 line = unit(exchange.listener_at - exchange.speaker_at) * (speaks ? 1.0 : -1.0);
  const double side = speaks ? exchange.side : -exchange.side;
  const Vec2 at = other + line * behind_the_shoulder + left_of(line) * (side * beside_the_shoulder);
  CameraState camera = aimed(plan, of, at, exchange.moment);
  const double wanted =
      camera.gate_height.value * camera.focus.value / height_seen(plan, of, ShotSize::medium_close_up);
  camera.focal = Millimetres{std::clamp(wanted, shortest, longest)};
  return camera;
}

bool looks_right(const CameraState& camera, Vec2 from, Vec2 toward) {
  return dot(toward - from, floor_of(axes_of(pinhole_of(camera)).right)) > 0;
}

}  // namespace lensward
