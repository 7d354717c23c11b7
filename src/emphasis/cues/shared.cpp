// What several cues measure alike.
#include <algorithm>
#include <array>
#include <cmath>

#include "emphasis/cues.h"

namespace lensward {

double turned_to_lens(Degrees angle) {
  static constexpr std::array<double, 5> at_each_45{1, 0.85, 0.55, 0.25, 0.1};
  const double steps = std::clamp(std::fabs(angle.value), 0.0, 180.0) / 45;
  const auto below = std::min<std::size_t>(static_cast<std::size_t>(steps), 3);
  return mix(at_each_45[below], at_each_45[below + 1], steps - static_cast<double>(below));
}

double falling(Milliseconds passed, Milliseconds over) {
  if (passed.count <= 0) return 1;
  return std::max(0.0, 1 - static_cast<double>(passed.count) / static_cast<double>(over.count));
}

// A movement that begins draws more than one that goes on at the same speed (Abrams & Christ 2003, O-21). How much
// more is not known; 0.6 is a choice.
double onset(Milliseconds going_on) { return 0.6 + 0.4 * falling(going_on, movement_fades); }

double sharpness(const Instant& now, Millimetres blur, Share height) {
  const double sharp_limit = now.plan.settings.sharp_circle.value;
  if (blur.value <= sharp_limit) return 1;
  const double soft_limit = 0.06 * height.value * now.view.state.gate_height.value;
  if (blur.value >= soft_limit) return 0;
  return (soft_limit - blur.value) / (soft_limit - sharp_limit);
}

Share height_in_picture(const CueInput& in) {
  if (in.person != nullptr) return in.person->head_height;
  return Share{std::max(0.0, in.thing->box.bottom - in.thing->box.top)};
}

double plainness(const Instant& now, const PersonSeen& person) {
  const double size = std::clamp(person.head_height.value / 0.04, 0.0, 1.0);
  return person.head_visible.value * size * turned_to_lens(person.face_angle) *
         sharpness(now, person.blur, person.head_height);
}

}  // namespace lensward
