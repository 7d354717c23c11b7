// Shapes on the floor: convex areas cut by lines, pieces as boxes, what a body may stand on.
#pragma once

#include <optional>
#include <vector>

#include "base/units.h"
#include "base/vec.h"
#include "plan/stage.h"

namespace lensward {

struct Plan;

// A closed outline, counter-clockwise, metres.
using Outline = std::vector<Vec2>;

// Keeps what lies where dot(normal, p) <= limit.
struct HalfPlane {
  Vec2 normal;
  double limit = 0;
};

// Both require convex outlines; an empty outline meets nothing.
Outline clipped(const Outline& convex, const HalfPlane& side);
Outline meeting(const Outline& a, const Outline& b);

double area_of(const Outline& outline);
// The mean of the corners when the outline has no area; (0, 0) when it is empty.
Vec2 centroid_of(const Outline& outline);
bool is_convex(const Outline& outline);
// Within a convex outline grown by `slack`.
bool holds(const Outline& convex, Vec2 point, double slack);
// Within any simple outline; its edges count as within.
bool encloses(const Outline& outline, Vec2 point);

// The point of the stretch a..b nearest to p.
Vec2 nearest_on(Vec2 a, Vec2 b, Vec2 p);
// Do the stretches a..b and c..d cross? Not when one only ends on the other.
bool cross_each_other(Vec2 a, Vec2 b, Vec2 c, Vec2 d);
// How much of the stretch a..b runs inside a convex outline, metres.
double length_inside(const Outline& convex, Vec2 a, Vec2 b);

// A rectangle turned any way. `right` and `front` are unit vectors; right is the right hand of someone looking along
// the front.
struct FloorBox {
  Vec2 at, right, front;
  double half_length = 0, half_depth = 0;

  Vec2 point(double along, double out) const { return at + right * along + front * out; }
};
FloorBox box_of(const Piece& piece);
// Its outline grown by `by` on every side, the corners cut so that they keep about that distance.
Outline outline_of(const FloorBox& box, double by = 0);
// How far the box reaches from its middle in a direction (a unit vector).
double reach_of(const FloorBox& box, Vec2 direction);
double distance_to(const FloorBox& box, Vec2 point);

// An exterior without walls.
bool open_ground(const Plan& plan);
// As filed; dawn and dusk are day.
bool at_night(const Plan& plan);
// Nobody wrote the lamp down: it stands for the sky, or for light that is there anyway.
bool is_supplied(const Plan& plan, const Lamp& lamp);

// Middle of the floor: of the room, else of what stands there, else (0, 0).
Vec2 middle_of(const Stage& stage);
// A box round the room, or round everything on open ground, grown by `margin`.
Outline ground_of(const Stage& stage, double margin);

// Rugs and anything under 3 cm are walked over.
bool stands_in_the_way(const Piece& piece);

// What a mark must keep clear of.
struct Clearance {
  double body = 0.2;          // from pieces and walls to the middle of the body
  int ignored_piece = -1;     // one piece that does not count
  bool beyond_walls = false;  // outside the room, so the room does not bound it
};
// The pieces, each grown by the clearance.
std::vector<Outline> obstacles_of(const Stage& stage, const Clearance& clearance);
// Furniture stands there, or a wall that stays lies between it and the room. Walls taken out are no obstacle.
bool floor_is_taken(const Stage& stage, Vec2 at);
// Within the room, the clearance off its walls. Always, beyond walls and on open ground.
bool within_room(const Stage& stage, const Clearance& clearance, Vec2 point);

}  // namespace lensward
