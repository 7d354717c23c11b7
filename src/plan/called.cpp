#include "plan/called.h"

#include <fmt/core.h>

#include <cmath>

#include "base/angle.h"
#include "base/quantity_text.h"

namespace lensward {

const Person& person_of(const Plan& plan, PersonId person) {
  return plan.stage.people[static_cast<std::size_t>(person.index)];
}

std::string called(const Plan& plan, PersonId person) {
  const Person& who = person_of(plan, person);
  return who.called.empty() ? who.name : who.called;
}

std::string called(const Plan& plan, const Target& target) {
  if (target.kind == Target::Kind::nothing) return "nobody";
  if (target.kind == Target::Kind::person) return called(plan, PersonId{target.index});
  if (target.kind == Target::Kind::lens) return "the lens";
  return name_of(plan, target);
}

std::string ordinal(const Plan& plan, PersonId person) {
  const Person& who = person_of(plan, person);
  return who.cast_number.empty() ? fmt::format("{}", person.index + 1) : who.cast_number;
}

std::string support_words(const Plan& plan, CameraId camera) {
  const Support& support = plan.stage.cameras[static_cast<std::size_t>(camera.index)].support;
  return support.origin == Origin::assumed ? "" : fmt::format("on {}", spelling(support.rig));
}

std::string optics_words(const CameraState& camera) {
  return fmt::format("{} T{}, {} up", text_of(camera.focal), number(camera.stop.value, 1),
                     text_of(Metres{camera.at.z}));
}

std::string compass_words(Degrees bearing) {
  const long eighth = std::lround(wrapped(bearing).value / 45);
  return spelling(static_cast<Compass>((eighth + 8) % 8));
}

std::string title_of(const SceneFacts& facts) {
  if (facts.title.empty()) return facts.name;
  return facts.name.empty() ? facts.title : facts.name + ": " + facts.title;
}

}  // namespace lensward
