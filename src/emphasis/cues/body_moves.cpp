// Body moves: whoever walks, turns, sits or rises draws the eye, most of all as they begin.
//
// Kind: evidence.
// Formula: speed in the picture, 1 at a quarter of its width a second: across by walking, growing or shrinking by
//   walking along the lens axis, the shoulders' edge by turning, the eyes by sitting or rising. Times 1 at the onset,
//   falling to 0.6 over 0.8 s; after the movement stops it falls to 0 over 0.8 s.
// Source: Mital et al. 2011 (movement best predicts looks among low-level measures, O-19); Abrams & Christ 2003 (onset
//   over going movement, O-21). Speeds and times are common practice, no source.
// Weakness: one mover among still people counts no more than one among many (O-20), but for what `apart` adds.
#include <algorithm>
#include <cmath>

#include "base/angle.h"
#include "emphasis/cues.h"

namespace lensward {
namespace {

constexpr double full_speed = 0.25;
constexpr double shoulder_half_breadth = 0.23;
constexpr double rise_of_eyes = 0.45;

template <class Value>
const Segment<Value>* under_way(const Lane<Value>& lane, Moment moment) {
  for (const Segment<Value>& segment : lane) {
    if (segment.begin <= moment && moment < segment.end) return &segment;
  }
  return nullptr;
}

struct Movement {
  double metres_a_second = 0;  // seen across the picture
  Moment began;
};

void take(Movement& strongest, double speed, Moment began) {
  if (speed > strongest.metres_a_second) strongest = {speed, began};
}

// Walking along the axis makes the outline grow: its edge moves at half the body's seen height × speed ÷ distance,
// which for a body of its stature is half the stature × speed ÷ distance in metres at the person.
double walking_speed(const CueInput& in, const PersonState& state, double distance) {
  const LensAxes axes = axes_of(pinhole_of(in.now.view.state));
  const Vec3 velocity = raised(state.velocity, 0);
  const double half_stature = in.now.plan.stage.people[static_cast<std::size_t>(in.target.index)].stature.value / 2;
  return std::max(std::fabs(dot(velocity, axes.right)),
                  std::fabs(dot(velocity, axes.forward)) * half_stature / distance);
}

Movement movement_of(const CueInput& in, double distance) {
  const auto person = static_cast<std::size_t>(in.target.index);
  const PersonState& state = in.now.people[person];
  const PersonTrack& track = in.now.plan.people[person];
  const Moment moment = in.now.view.moment;
  Movement strongest;
  if (const auto* walk = under_way(track.feet, moment)) {
    take(strongest, walking_speed(in, state, distance), walk->begin);
  }
  if (const auto* turn = under_way(track.body, moment)) {
    take(strongest, std::fabs(state.turning.value) * pi / 180 * shoulder_half_breadth, turn->begin);
  }
  if (const auto* change = under_way(track.stance, moment)) {
    take(strongest, rise_of_eyes / to_seconds(change->end - change->begin).value, change->begin);
  }
  return strongest;
}

}  // namespace

double body_moves(const CueInput& in) {
  const double before = in.memory.fading[static_cast<std::size_t>(CueKind::body_moves)];
  if (in.person == nullptr || !in.person->in_front) return before;
  const CameraState& camera = in.now.view.state;
  const double distance = std::max(0.1, in.person->distance.value);
  const double frame_width = distance * camera.gate_width.value / camera.focal.value;
  const Movement movement = movement_of(in, distance);
  const double speed = std::min(1.0, movement.metres_a_second / frame_width / full_speed);
  return std::max(before, speed * onset(in.now.view.moment - movement.began));
}

}  // namespace lensward
