#include "crew/tape.h"

#include <cmath>

namespace lensward {

Tape::Tape(const Stage& stage) {
  const auto edge = [](const Wall& wall) {
    return Edge{wall.name + " wall", wall.from, left_of(unit(wall.to - wall.from))};
  };
  const auto longest = [&](const auto& counts) {
    const Wall* found = nullptr;
    for (const bool wild : {false, true})
      for (const Wall& wall : stage.walls)
        if (wall.wild == wild && counts(wall) &&
            (found == nullptr ||
             (found->wild == wild && length(wall.to - wall.from) > length(found->to - found->from))))
          found = &wall;
    return found;
  };
  const Wall* one = longest([](const Wall&) { return true; });
  const Wall* other = nullptr;
  if (one != nullptr) {
    const Vec2 along = unit(one->to - one->from);
    other = longest([&](const Wall& wall) { return std::abs(cross(along, unit(wall.to - wall.from))) >= 0.5; });
  }
  first_ = {"the origin, eastward", {0, 0}, {1, 0}};
  second_ = {"the origin, northward", {0, 0}, {0, 1}};
  if (one == nullptr || other == nullptr) return;
  first_ = edge(*one);
  second_ = edge(*other);
}

Field Tape::first(const std::string& key) const { return {key + "_first_m", "from " + first_.name, 25}; }
Field Tape::second(const std::string& key) const { return {key + "_second_m", "from " + second_.name, 25}; }
Metres Tape::from_first(Vec2 at) const { return Metres{dot(at - first_.from, first_.inward)}; }
Metres Tape::from_second(Vec2 at) const { return Metres{dot(at - second_.from, second_.inward)}; }
Vec2 Tape::place(Metres from_first, Metres from_second) const {
  // Two lines, each so far off its wall: Cramer's rule. The walls stand at 30 degrees or more to one another.
  const double one = dot(first_.from, first_.inward) + from_first.value;
  const double other = dot(second_.from, second_.inward) + from_second.value;
  const double whole = cross(first_.inward, second_.inward);
  return Vec2{one * second_.inward.y - other * first_.inward.y, other * first_.inward.x - one * second_.inward.x} *
         (1 / whole);
}

std::vector<Field> Tape::names_of_walls() { return {{"first_from", "", 0}, {"second_from", "", 0}}; }
std::vector<Entry> Tape::walls() const { return {first_.name, second_.name}; }

}  // namespace lensward
