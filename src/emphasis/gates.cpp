#include "emphasis/gates.h"

#include <algorithm>

#include "base/angle.h"
#include "optics/light.h"

namespace lensward {
namespace {

constexpr double full_size = 0.04;
constexpr double stops_full = -2, stops_none = -5;
constexpr double middle_grey = 0.18;

}  // namespace

Stops seen_exposure(const Plan& plan, const View& view, const PersonSeen& person) {
  const Settings& settings = plan.settings;
  const Seconds open = exposure_time(settings.shutter, settings.frame_rate);
  const Lux asked = asked_for(view.state.stop, settings.sensitivity, open);
  return std::max(person.exposure, stops_between(person.luminance.value, middle_grey * asked.value / pi));
}

Gates gates_of(const CueInput& in) {
  Gates gates;
  gates.visible = in.person != nullptr ? in.person->head_visible.value : in.thing->visible.value;
  gates.visible = std::clamp(gates.visible, 0.0, 1.0);
  gates.size = std::clamp(height_in_picture(in).value / full_size, 0.0, 1.0);
  gates.light = 1;
  if (in.person == nullptr) return gates;
  const Stops exposure = seen_exposure(in.now.plan, in.now.view, *in.person);
  gates.light = std::clamp((exposure.value - stops_none) / (stops_full - stops_none), 0.0, 1.0);
  return gates;
}

}  // namespace lensward
