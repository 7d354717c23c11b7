// The floor on paper: the scale, and the way from metres of the room to millimetres of the sheet. North is up.
#pragma once

#include <vector>

#include "base/vec.h"
#include "pages/labels.h"
#include "plan/plan.h"

namespace lensward {

class FloorPaper {
 public:
  // `low` and `high` are the part of the floor shown, in metres; `at` the sheet's corner where it goes.
  FloorPaper(int denominator, Vec2 low, Vec2 high, Vec2 at)
      : denominator_(denominator), low_(low), high_(high), at_(at) {}

  int denominator() const { return denominator_; }
  double scale() const { return 1000.0 / denominator_; }  // mm of paper a metre
  Vec2 mm(Vec2 floor) const { return at_ + Vec2{floor.x - low_.x, high_.y - floor.y} * scale(); }
  // A direction: no shift.
  Vec2 way(Vec2 floor) const { return Vec2{floor.x, -floor.y} * scale(); }
  Vec2 size() const { return (high_ - low_) * scale(); }
  LabelArea area() const { return {at_, at_ + size()}; }
  Vec2 low() const { return low_; }
  Vec2 high() const { return high_; }

 private:
  int denominator_;
  Vec2 low_, high_, at_;
};

// What the overhead of a beat has to show: the room, the cameras and lamps in and near it, and everyone's way.
struct FloorExtent {
  Vec2 low, high;
};
FloorExtent extent_of(const Plan& plan, Moment begin, Moment end);

// The largest stated scale at which the extent, with 6 mm of paper round it, goes into `most` mm: 1:20, 1:25, 1:40,
// 1:50, 1:75, 1:100, 1:150, 1:200, 1:250, 1:400, 1:500, 1:750 and whole thousands from there. The drawing is centred in
// `most` across and starts at the top. Requires most to be over 12 mm both ways.
FloorPaper fitted(const FloorExtent& extent, Vec2 at, Vec2 most);

}  // namespace lensward
