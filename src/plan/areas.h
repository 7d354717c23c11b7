// One place phrase -> the areas of the floor it may mean, the likeliest first (docs/language.md, "Places").
#pragma once

#include <optional>
#include <vector>

#include "plan/referent.h"

namespace lensward {

struct Area {
  Outline shape;             // convex
  std::vector<Vec2> middle;  // a point, or a stretch of two: where in the area the mark would best be
  bool exact = false;        // the middle is meant to be hit, not only liked
  bool point = false;        // said to the point: coordinates, a spot
  bool beyond_walls = false;
  int open_piece = -1;  // a piece one may be within: what is sat on, lain under
  std::optional<Degrees> faces;
  PieceId piece;
  bool on_piece = false;
  Vec2 longer;  // unit vector several subjects are spread along; (0, 0): along the longer way
};

// Who or what is to be placed.
struct Placing {
  std::optional<FloorBox> furniture;  // its size and turn; nothing: a person's body
  Metres eyes{1.6};                   // the height that stands for the subject in the picture
  Metres stature{1.7};
  Metres step{0.7};
  bool goal = false;
  bool is_person = false;  // a body that faces things and sits on them
};

// Empty, with a finding, when the words cannot be understood as a place.
std::vector<Area> areas_of(const Place& place, const PlaceContext& context, const Placing& placing, Findings& findings);

// The band of distances at which the picture has the height a size asks for; within the middle of the frame.
std::vector<Area> areas_of(ShotSize size, const PlaceContext& context, const Placing& placing);

// Distances of a place word, from the thing's edge: metres.
struct Band {
  double least = 0, middle = 0, greatest = 0;
  bool exact = false;
};

// Along one side of a box, between the band's distances from its edge; it runs on past the side's ends by `run_on`.
// `own` is how far what is placed reaches from its own middle.
Area strip_beside(const FloorBox& box, Vec2 outward, Band band, double run_on, double own);
// Round a point, in one direction. Its near edge is straight, so that the shape is convex.
Area sector_round(Vec2 apex, Vec2 direction, Degrees half_angle, Band band, double own);
// A point that is meant, within a square.
Area area_at(Vec2 point, double within);
// How far the placed piece reaches from its own middle; a body counts from its middle: 0.
double reach_of(const Placing& placing, Vec2 direction);

// The areas that only the lens knows: `frame …`, `foreground` to `background`.
std::vector<Area> areas_in_picture(const Place& place, const PlaceContext& context, const Placing& placing,
                                   Findings& findings);

}  // namespace lensward
