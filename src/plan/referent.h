// What a place phrase refers to, as a shape on the floor: a piece or part of one, a person, a wall, a door, a point.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/floor.h"
#include "plan/places.h"

namespace lensward {

struct Referent {
  // box: a piece, a part of one, a wall, a door or window. body: a person or a point with room round it. spot: a mark.
  enum class Kind { box, body, spot };
  Kind kind = Kind::box;
  FloorBox box;  // of a body or spot: no size
  bool has_front = false;
  PieceId piece;
  PersonId person;
  OpeningId opening;
  bool is_wall = false;             // a wall or something in one: only its inner side is the room's
  bool is_portion = false;          // an end, side, edge, corner or half of a piece
  bool is_square = false;           // a corner of the room, itself an area
  std::optional<Vec2> outward;      // the way a portion faces
  bool only_outward = false;        // `the north side of` has no other side
  std::optional<OwnSide> own_side;  // `Oda's left`
  std::string words;                // "the west end of `Table`", without quotes: for messages
};

// Nothing, and a finding, when the name is unknown or the person is not there.
std::optional<Referent> referent_of(const Thing& thing, const PlaceContext& context, Findings& findings);

// The thing as the writer might have written it: "the west end of the Table".
std::string text_of(const Thing& thing);
std::string text_of(const Place& place);

Vec2 direction_of(Compass compass);

// The lens's own directions on the floor: unit vectors.
struct LensFloor {
  Vec2 at, deeper, right;
};
LensFloor floor_of(const CameraState& camera);

// The camera a phrase names, as it stands after all that is known of it; else the one of the context.
CameraState camera_of(const std::optional<Name>& named, const PlaceContext& context, Findings& findings);

// Where somebody's hands or the floor have put a prop; nothing before it was put anywhere.
std::optional<Vec2> place_of(PropId prop, const PlaceContext& context);

}  // namespace lensward
