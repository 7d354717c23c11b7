#include "plan/free_floor.h"

#include <algorithm>
#include <cmath>

namespace lensward {
namespace {

constexpr double hair = 1e-7;

Vec2 nearest_of(const Wish& wish, Vec2 point) {
  return wish.middle.size() < 2 ? wish.middle.front() : nearest_on(wish.middle[0], wish.middle[1], point);
}

bool lies_beside(Vec2 a, Vec2 b, Vec2 point) {
  const Vec2 way = b - a;
  const double along = dot(point - a, way);
  const double slack = hair * length(way);
  return along >= -slack && along <= dot(way, way) + slack && length(way) > hair;
}

// Sums of the quadratic Σ w (n·(p − q))², or Σ w |p − q|², as A p = b.
struct Normal {
  double xx = 0, xy = 0, yy = 0, x = 0, y = 0;

  void add_line(Vec2 normal, Vec2 at, double weight) {
    const double reach = dot(normal, at);
    xx += weight * normal.x * normal.x;
    xy += weight * normal.x * normal.y;
    yy += weight * normal.y * normal.y;
    x += weight * normal.x * reach;
    y += weight * normal.y * reach;
  }
  std::optional<Vec2> solved() const {
    const double determinant = xx * yy - xy * xy;
    if (!(determinant > 1e-12 * (xx + yy) * (xx + yy))) return std::nullopt;
    return Vec2{(x * yy - y * xy) / determinant, (y * xx - x * xy) / determinant};
  }
};

// Least of a convex cost along a stretch: the interval is cut by thirds.
Vec2 best_along(const std::vector<Wish>& wishes, Vec2 from, Vec2 to) {
  double low = 0;
  double high = 1;
  for (int round = 0; round < 48; ++round) {
    const double a = low + (high - low) / 3;
    const double b = high - (high - low) / 3;
    if (cost_of(wishes, mix(from, to, a)) <= cost_of(wishes, mix(from, to, b))) {
      high = b;
    } else {
      low = a;
    }
  }
  return mix(from, to, (low + high) / 2);
}

std::optional<Vec2> crossing(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  const double turn = cross(b - a, d - c);
  if (std::fabs(turn) < 1e-12) return std::nullopt;
  const double along = cross(c - a, d - c) / turn;
  const double other = cross(c - a, b - a) / turn;
  if (along < -hair || along > 1 + hair || other < -hair || other > 1 + hair) return std::nullopt;
  return mix(a, b, along);
}

// Keeps the best so far; equal costs go west, then south.
class Best {
 public:
  explicit Best(const std::vector<Wish>& wishes) : wishes_(wishes) {}
  void offer(Vec2 point) {
    const double cost = cost_of(wishes_, point);
    if (point_ && !better(cost, point, *point_)) return;
    point_ = point;
    cost_ = cost;
  }
  bool could_use(Vec2 point) const { return !point_ || better(cost_of(wishes_, point), point, *point_); }
  std::optional<Vec2> point() const { return point_; }

 private:
  bool better(double cost, Vec2 point, Vec2 than) const {
    const double slack = 1e-6 * (1 + cost_);
    if (cost < cost_ - slack) return true;
    if (cost > cost_ + slack) return false;
    if (point.x < than.x - 1e-4) return true;
    return point.x < than.x + 1e-4 && point.y < than.y - 1e-4;
  }

  const std::vector<Wish>& wishes_;
  std::optional<Vec2> point_;
  double cost_ = 0;
};

}  // namespace

double cost_of(const std::vector<Wish>& wishes, Vec2 point) {
  double cost = 0;
  for (const Wish& wish : wishes) {
    const Vec2 away = point - nearest_of(wish, point);
    cost += wish.weight * dot(away, away);
  }
  return cost;
}

Vec2 best_anywhere(const std::vector<Wish>& wishes) {
  Vec2 best = wishes.back().middle.front();
  // A stretch counts as its whole line while the point lies beside it, as its end when it lies past it.
  for (int round = 0; round < 24; ++round) {
    Normal normal;
    for (const Wish& wish : wishes) {
      const Vec2 nearest = nearest_of(wish, best);
      const bool line = wish.middle.size() > 1 && lies_beside(wish.middle[0], wish.middle[1], best);
      if (line) {
        normal.add_line(unit(left_of(wish.middle[1] - wish.middle[0])), nearest, wish.weight);
      } else {
        normal.add_line({1, 0}, nearest, wish.weight);
        normal.add_line({0, 1}, nearest, wish.weight);
      }
    }
    const std::optional<Vec2> next = normal.solved();
    if (!next || length(*next - best) < 1e-9) return next.value_or(best);
    best = *next;
  }
  return best;
}

FreeFloor::FreeFloor(const Stage& stage, const Subject& subject) : stage_(stage), subject_(subject) {
  for (std::size_t i = 0; i < stage.pieces.size(); ++i) {
    const Piece& piece = stage.pieces[i];
    if (static_cast<int>(i) == subject.ignored_piece || !stands_in_the_way(piece)) continue;
    FloorBox box = box_of(piece);
    if (subject.furniture) {
      box.half_length += reach_of(*subject.furniture, box.right);
      box.half_depth += reach_of(*subject.furniture, box.front);
      obstacles_.push_back(outline_of(box));
    } else {
      obstacles_.push_back(outline_of(box, subject.body));
    }
  }
}

double FreeFloor::gap_to_wall(Vec2 inward) const {
  return subject_.furniture ? reach_of(*subject_.furniture, inward) : subject_.body;
}

bool FreeFloor::allows(Vec2 point) const {
  for (const Outline& obstacle : obstacles_) {
    if (holds(obstacle, point, -hair)) return false;
  }
  const Outline& room = stage_.room.outline;
  if (subject_.beyond_walls || room.empty()) return true;
  if (!encloses(room, point)) return false;
  for (std::size_t i = 0; i < room.size(); ++i) {
    const Vec2 a = room[i];
    const Vec2 b = room[(i + 1) % room.size()];
    if (length(nearest_on(a, b, point) - point) < gap_to_wall(unit(left_of(b - a))) - hair) return false;
  }
  return true;
}

std::vector<FreeFloor::Stretch> FreeFloor::edges(const Outline& shape) const {
  std::vector<Stretch> edges;
  const auto add = [&](const Outline& outline) {
    for (std::size_t i = 0; i < outline.size(); ++i) edges.push_back({outline[i], outline[(i + 1) % outline.size()]});
  };
  add(shape);
  for (const Outline& obstacle : obstacles_) {
    if (!meeting(shape, obstacle).empty()) add(obstacle);
  }
  const Outline& room = stage_.room.outline;
  for (std::size_t i = 0; !subject_.beyond_walls && i < room.size(); ++i) {
    const Vec2 a = room[i];
    const Vec2 b = room[(i + 1) % room.size()];
    const Vec2 inward = unit(left_of(b - a));
    edges.push_back({a + inward * gap_to_wall(inward), b + inward * gap_to_wall(inward)});
  }
  return edges;
}

std::optional<Vec2> FreeFloor::best_point(const Outline& shape, const std::vector<Wish>& wishes) const {
  if (shape.size() < 3) return std::nullopt;
  const Vec2 wished = best_anywhere(wishes);
  if (holds(shape, wished, hair) && allows(wished)) return wished;
  // The cost is convex and everything in the way is straight, so the best point lies on an edge: at its least along the
  // edge, or where two edges cross.
  Best best(wishes);
  const auto offer = [&](Vec2 point) {
    if (best.could_use(point) && holds(shape, point, 1e-6) && allows(point)) best.offer(point);
  };
  const std::vector<Stretch> all = edges(shape);
  for (const Stretch& edge : all) offer(best_along(wishes, edge.from, edge.to));
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      if (const auto point = crossing(all[i].from, all[i].to, all[j].from, all[j].to)) offer(*point);
    }
  }
  return best.point();
}

}  // namespace lensward
