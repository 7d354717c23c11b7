#include "pages/floor_paper.h"

#include <algorithm>
#include <cmath>

namespace lensward {
namespace {

// Paper round what is shown, mm, for labels and the body of a camera.
constexpr double border = 6;
// A lamp or camera farther out than this is left off: it would shrink the room to nothing.
constexpr double farthest_out = 12;

class Extent {
 public:
  void take(Vec2 point) {
    if (!std::isfinite(point.x) || !std::isfinite(point.y)) return;
    if (empty_) extent_ = {point, point};
    empty_ = false;
    extent_.low = {std::min(extent_.low.x, point.x), std::min(extent_.low.y, point.y)};
    extent_.high = {std::max(extent_.high.x, point.x), std::max(extent_.high.y, point.y)};
  }
  void take_if_near(Vec2 point) {
    const Vec2 nearest{std::clamp(point.x, room_.low.x, room_.high.x), std::clamp(point.y, room_.low.y, room_.high.y)};
    if (empty_ || length(point - nearest) <= farthest_out) take(point);
  }
  void close_room() { room_ = extent_; }
  FloorExtent whole() const { return empty_ ? FloorExtent{{-2, -2}, {2, 2}} : extent_; }

 private:
  FloorExtent extent_, room_;
  bool empty_ = true;
};

void take_piece(Extent& extent, const Piece& piece) {
  const double half = std::max(piece.length.value, piece.depth.value) / 2;
  extent.take(piece.at - Vec2{half, half});
  extent.take(piece.at + Vec2{half, half});
}

}  // namespace

FloorExtent extent_of(const Plan& plan, Moment begin, Moment end) {
  Extent extent;
  for (const Vec2 corner : plan.stage.room.outline) extent.take(corner);
  for (const Wall& wall : plan.stage.walls) {
    extent.take(wall.from);
    extent.take(wall.to);
  }
  if (plan.stage.room.outline.empty())
    for (const Piece& piece : plan.stage.pieces) take_piece(extent, piece);
  extent.close_room();
  for (int person = 0; person < static_cast<int>(plan.people.size()); ++person) {
    for (const Segment<Walk>& walk : plan.people[static_cast<std::size_t>(person)].feet)
      if (walk.begin <= end && walk.end >= begin)
        for (const Vec2 point : walk.to.path) extent.take_if_near(point);
    const PersonState state = person_at(plan, PersonId{person}, begin);
    if (state.present) extent.take_if_near(state.at);
  }
  extent.close_room();
  for (int camera = 0; camera < static_cast<int>(plan.cameras.size()); ++camera)
    for (const Moment moment : {begin, end}) {
      const CameraState state = camera_at(plan, CameraId{camera}, moment);
      extent.take_if_near(floor_of(state.at));
    }
  for (int lamp = 0; lamp < static_cast<int>(plan.lamps.size()); ++lamp)
    extent.take_if_near(floor_of(lamp_at(plan, LampId{lamp}, begin).at));
  return extent.whole();
}

FloorPaper fitted(const FloorExtent& extent, Vec2 at, Vec2 most) {
  const Vec2 metres = extent.high - extent.low;
  const Vec2 room = most - Vec2{2 * border, 2 * border};
  const auto fits = [&](int denominator) {
    return metres.x * 1000 <= room.x * denominator + 1e-6 && metres.y * 1000 <= room.y * denominator + 1e-6;
  };
  int denominator = 0;
  for (const int stated : {20, 25, 40, 50, 75, 100, 150, 200, 250, 400, 500, 750}) {
    if (denominator == 0 && fits(stated)) denominator = stated;
  }
  for (int thousands = 1; denominator == 0; ++thousands)
    if (fits(1000 * thousands)) denominator = 1000 * thousands;
  const double frame = border * denominator / 1000;
  const FloorExtent framed{extent.low - Vec2{frame, frame}, extent.high + Vec2{frame, frame}};
  const double unused = most.x - (framed.high.x - framed.low.x) * 1000 / denominator;
  return {denominator, framed.low, framed.high, at + Vec2{unused / 2, 0}};
}

}  // namespace lensward
