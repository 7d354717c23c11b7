// Where on the floor something may stand, and the best point of it.
#pragma once

#include <optional>
#include <vector>

#include "plan/floor.h"

namespace lensward {

// Something one would like to be near: a point, or a stretch of two.
struct Wish {
  std::vector<Vec2> middle;
  double weight = 1;
};

// The floor free for one body or one piece of furniture.
class FreeFloor {
 public:
  // Half extents for furniture; a body is the same all round.
  struct Subject {
    double body = 0.2;
    std::optional<FloorBox> furniture;
    int ignored_piece = -1;
    bool beyond_walls = false;
  };

  FreeFloor(const Stage& stage, const Subject& subject);

  bool allows(Vec2 point) const;

  // The point of a convex shape that is free and lies best by the wishes: the least of Σ weight × distance². Ties go
  // west, then south. Nothing when no point of the shape is free.
  std::optional<Vec2> best_point(const Outline& shape, const std::vector<Wish>& wishes) const;

 private:
  struct Stretch {
    Vec2 from, to;
  };
  // Everything along which the best point may lie when it is not the wishes' own least.
  std::vector<Stretch> edges(const Outline& shape) const;
  double gap_to_wall(Vec2 inward) const;

  const Stage& stage_;
  Subject subject_;
  std::vector<Outline> obstacles_;
};

// The point that is best by the wishes alone. Requires at least one wish.
Vec2 best_anywhere(const std::vector<Wish>& wishes);
double cost_of(const std::vector<Wish>& wishes, Vec2 point);

}  // namespace lensward
