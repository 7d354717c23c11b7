#include "plan/floor.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/angle.h"
#include "plan/plan.h"

namespace lensward {
namespace {

constexpr double hair = 1e-9;

// Of a regular octagon round a circle of radius 1: half a side, tan 22.5 degrees.
constexpr double half_octagon_side = 0.41421356237309503;

}  // namespace

Outline clipped(const Outline& convex, const HalfPlane& side) {
  Outline kept;
  for (std::size_t i = 0; i < convex.size(); ++i) {
    const Vec2 here = convex[i];
    const Vec2 next = convex[(i + 1) % convex.size()];
    const double out_here = dot(side.normal, here) - side.limit;
    const double out_next = dot(side.normal, next) - side.limit;
    if (out_here <= 0) kept.push_back(here);
    if ((out_here < 0 && out_next > 0) || (out_here > 0 && out_next < 0)) {
      kept.push_back(mix(here, next, out_here / (out_here - out_next)));
    }
  }
  return kept.size() < 3 ? Outline{} : kept;
}

Outline meeting(const Outline& a, const Outline& b) {
  Outline both = b.size() < 3 ? Outline{} : a;
  for (std::size_t i = 0; i < b.size() && !both.empty(); ++i) {
    const Vec2 edge = b[(i + 1) % b.size()] - b[i];
    const Vec2 outward = unit(left_of(edge) * -1);
    both = clipped(both, {outward, dot(outward, b[i])});
  }
  return both;
}

double area_of(const Outline& outline) {
  double twice = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) twice += cross(outline[i], outline[(i + 1) % outline.size()]);
  return twice / 2;
}

Vec2 centroid_of(const Outline& outline) {
  if (outline.empty()) return {};
  // Taken about the first corner, so that an outline far from the origin loses no digits.
  const Vec2 origin = outline.front();
  Vec2 sum, mean;
  double twice = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2 a = outline[i] - origin;
    const Vec2 b = outline[(i + 1) % outline.size()] - origin;
    sum = sum + (a + b) * cross(a, b);
    twice += cross(a, b);
    mean = mean + a * (1.0 / static_cast<double>(outline.size()));
  }
  return origin + (std::fabs(twice) < 1e-12 ? mean : sum * (1 / (3 * twice)));
}

bool is_convex(const Outline& outline) {
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2 a = outline[i];
    const Vec2 b = outline[(i + 1) % outline.size()];
    const Vec2 c = outline[(i + 2) % outline.size()];
    if (cross(b - a, c - b) < -hair) return false;
  }
  return outline.size() >= 3;
}

bool holds(const Outline& convex, Vec2 point, double slack) {
  for (std::size_t i = 0; i < convex.size(); ++i) {
    const Vec2 edge = convex[(i + 1) % convex.size()] - convex[i];
    const double size = length(edge);
    // Written so that a point that is not a number is nowhere.
    if (size > hair && !(cross(edge, point - convex[i]) >= -slack * size)) return false;
  }
  return convex.size() >= 3;
}

bool encloses(const Outline& outline, Vec2 point) {
  bool within = false;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2 a = outline[i];
    const Vec2 b = outline[(i + 1) % outline.size()];
    if (length(nearest_on(a, b, point) - point) < hair) return true;
    const bool spans = (a.y > point.y) != (b.y > point.y);
    if (spans && point.x < a.x + (b.x - a.x) * (point.y - a.y) / (b.y - a.y)) within = !within;
  }
  return within;
}

bool cross_each_other(Vec2 a, Vec2 b, Vec2 c, Vec2 d) {
  const auto side = [](Vec2 from, Vec2 to, Vec2 point) { return cross(to - from, point - from); };
  return side(c, d, a) * side(c, d, b) < 0 && side(a, b, c) * side(a, b, d) < 0;
}

Vec2 nearest_on(Vec2 a, Vec2 b, Vec2 p) {
  const Vec2 way = b - a;
  const double size = dot(way, way);
  if (size <= 0) return a;
  return a + way * std::clamp(dot(p - a, way) / size, 0.0, 1.0);
}

double length_inside(const Outline& convex, Vec2 a, Vec2 b) {
  double from = 0;
  double to = 1;
  for (std::size_t i = 0; i < convex.size(); ++i) {
    const Vec2 edge = convex[(i + 1) % convex.size()] - convex[i];
    const double in_a = cross(edge, a - convex[i]);
    const double in_b = cross(edge, b - convex[i]);
    if (in_a < 0 && in_b < 0) return 0;
    if (in_a < 0) from = std::max(from, in_a / (in_a - in_b));
    if (in_b < 0) to = std::min(to, in_a / (in_a - in_b));
  }
  return convex.size() < 3 || to <= from ? 0 : (to - from) * length(b - a);
}

FloorBox box_of(const Piece& piece) {
  const Vec2 front = direction_of(piece.front);
  return {piece.at, left_of(front) * -1, front, piece.length.value / 2, piece.depth.value / 2};
}

Outline outline_of(const FloorBox& box, double by) {
  const double a = box.half_length;
  const double b = box.half_depth;
  if (by <= 0) return {box.point(-a, -b), box.point(a, -b), box.point(a, b), box.point(-a, b)};
  const double cut = by * half_octagon_side;
  return {box.point(-a - by, -b - cut), box.point(-a - cut, -b - by), box.point(a + cut, -b - by),
          box.point(a + by, -b - cut),  box.point(a + by, b + cut),   box.point(a + cut, b + by),
          box.point(-a - cut, b + by),  box.point(-a - by, b + cut)};
}

double reach_of(const FloorBox& box, Vec2 direction) {
  return std::fabs(dot(box.right, direction)) * box.half_length + std::fabs(dot(box.front, direction)) * box.half_depth;
}

double distance_to(const FloorBox& box, Vec2 point) {
  const Vec2 away = point - box.at;
  const double along = std::max(0.0, std::fabs(dot(away, box.right)) - box.half_length);
  const double out = std::max(0.0, std::fabs(dot(away, box.front)) - box.half_depth);
  return length(Vec2{along, out});
}

bool open_ground(const Plan& plan) { return plan.facts.exterior && plan.stage.room.outline.empty(); }

bool at_night(const Plan& plan) { return plan.facts.hour == "night"; }

Vec2 middle_of(const Stage& stage) {
  if (!stage.room.outline.empty()) return centroid_of(stage.room.outline);
  Vec2 sum;
  for (const Piece& piece : stage.pieces) sum = sum + piece.at * (1.0 / static_cast<double>(stage.pieces.size()));
  return sum;
}

Outline ground_of(const Stage& stage, double margin) {
  constexpr double least_ground = 5;
  double west = std::numeric_limits<double>::infinity();
  double south = west, east = -west, north = -west;
  const auto take_in = [&](Vec2 point, double by) {
    west = std::min(west, point.x - by);
    east = std::max(east, point.x + by);
    south = std::min(south, point.y - by);
    north = std::max(north, point.y + by);
  };
  for (Vec2 corner : stage.room.outline) take_in(corner, 0);
  if (stage.room.outline.empty()) {
    take_in(middle_of(stage), least_ground);
    for (const Piece& piece : stage.pieces) take_in(piece.at, least_ground);
  }
  return {{west - margin, south - margin},
          {east + margin, south - margin},
          {east + margin, north + margin},
          {west - margin, north + margin}};
}

bool stands_in_the_way(const Piece& piece) { return piece.kind != PieceKind::rug && piece.height.value >= 0.03; }

std::vector<Outline> obstacles_of(const Stage& stage, const Clearance& clearance) {
  std::vector<Outline> obstacles;
  for (std::size_t i = 0; i < stage.pieces.size(); ++i) {
    if (static_cast<int>(i) == clearance.ignored_piece || !stands_in_the_way(stage.pieces[i])) continue;
    obstacles.push_back(outline_of(box_of(stage.pieces[i]), clearance.body));
  }
  return obstacles;
}

bool is_supplied(const Plan& plan, const Lamp& lamp) {
  return lamp.declared.empty() || lamp.declared == plan.facts.heading;
}

bool floor_is_taken(const Stage& stage, Vec2 at) {
  const auto obstacles = obstacles_of(stage, {.body = 0, .beyond_walls = true});
  if (std::ranges::any_of(obstacles, [&](const Outline& one) { return holds(one, at, 0); })) return true;
  if (stage.room.outline.empty() || encloses(stage.room.outline, at)) return false;
  // Beyond the walls: only those that are taken out may lie between.
  return std::ranges::any_of(
      stage.walls, [&](const Wall& wall) { return !wall.wild && cross(wall.to - wall.from, at - wall.from) < 0; });
}

bool within_room(const Stage& stage, const Clearance& clearance, Vec2 point) {
  const Outline& outline = stage.room.outline;
  if (clearance.beyond_walls || outline.empty()) return true;
  if (!encloses(outline, point)) return false;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2 nearest = nearest_on(outline[i], outline[(i + 1) % outline.size()], point);
    if (length(nearest - point) < clearance.body - hair) return false;
  }
  return true;
}

}  // namespace lensward
