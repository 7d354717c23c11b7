// The set, the company and the kit: what is there before anything happens.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units.h"
#include "base/vec.h"
#include "base/words.h"
#include "source/span.h"

namespace lensward {

// How a value came to be. Reports, diagrams and repairs all read this.
//   said: by a clause.  bound: said as a relation, found as a place.  settled: a vague area's mark.
//   carried: from an earlier line.  assumed: a default.
enum class Origin { said, bound, settled, carried, assumed };
const char* name_of(Origin origin);

struct Person {
  std::string name;
  std::string called;       // for the pages; the name when nothing else is told
  std::string cast_number;  // may be empty
  Metres stature{1.7};
  Origin stature_origin = Origin::assumed;
  std::optional<Metres> eyes;  // height of the eyes, standing, when told; else by proportion
  Metres step{0.7};
  WordsPerMinute rate{150};
  Tone dress = Tone::mid;
  Stops skin{0};     // against 18 % reflectance
  std::string tape;  // colour of the floor marks; may be empty
  Span declared;

  bool operator==(const Person&) const = default;
};
using PersonId = Id<Person>;

struct Wall {
  std::string name;
  Vec2 from, to;      // the room lies to the left of from -> to
  bool wild = false;  // taken out for the camera: neither seen nor blocking
  Span declared;

  bool operator==(const Wall&) const = default;
};
using WallId = Id<Wall>;

// A door or window in a wall.
struct Opening {
  enum class Kind { door, window };
  Kind kind = Kind::door;
  std::string name;
  WallId wall;
  Metres along;  // from the wall's west or south end to the opening's middle
  Metres width{0.9}, height{2.0}, sill{0};
  bool inward = true;
  bool both_ways = false;
  Vec2 middle;     // on the floor, in the wall's line
  Vec2 into_room;  // unit
  Span declared;

  bool operator==(const Opening&) const = default;
};
using OpeningId = Id<Opening>;

struct Piece {
  std::string name;
  PieceKind kind = PieceKind::box;
  Metres length{1}, depth{1}, height{1};  // length along the front
  Vec2 at;                                // middle, on the floor
  Degrees front;                          // bearing its front faces
  bool has_front = true;
  bool open_underneath = false;
  bool hides = false;  // a person behind it is hidden whole
  bool see_through = false;
  bool noisy = false;
  int seats = 0;
  Metres seat_height{0.45};  // when it has seats
  Metres hangs_to{0};        // cloths
  Origin origin = Origin::said;
  Span declared;

  bool operator==(const Piece&) const = default;
};
using PieceId = Id<Piece>;

struct Prop {
  std::string name;
  Metres length{0.1}, depth{0.1}, height{0.1};
  Span declared;

  bool operator==(const Prop&) const = default;
};
using PropId = Id<Prop>;

struct Lamp {
  std::string name;
  enum class Kind { practical, soft, hard };
  Kind kind = Kind::hard;
  Candela intensity{500};  // toward what it aims at; all round for a practical
  Origin intensity_origin = Origin::assumed;
  std::optional<Degrees> beam;  // full angle; none: all round
  Metres across{0.05};
  std::optional<Kelvin> colour;
  std::optional<Watts> draws;  // what it eats at full
  int circuit = 0;             // 0: not told
  bool noisy = false;
  Span declared;

  bool operator==(const Lamp&) const = default;
};
using LampId = Id<Lamp>;

struct Lens {
  std::string name;
  Millimetres focal{35};
  FNumber widest{2.0};
  Metres closest{0.3};
  Span declared;
  std::optional<Metres> pupil = {};  // how far the entrance pupil stands before the focal plane

  bool operator==(const Lens&) const = default;
};

enum class Rig { sticks, tripod, shoulder, slider, dolly, jib, crane, stabiliser };
// The spelling the language uses: "dolly".
const char* spelling(Rig rig);
// Whether a camera on it can leave its place to find a picture.
bool gives_way(Rig rig);

// What a camera stands on. Nothing told: it may not give way, as on sticks.
struct Support {
  Rig rig = Rig::sticks;
  Origin origin = Origin::assumed;
  Span said_at;

  bool operator==(const Support&) const = default;
};

struct Camera {
  std::string name;
  Millimetres gate_width{24.89}, gate_height{13.454};  // the part of the gate the picture uses
  Support support;
  Span declared;
  Origin origin = Origin::said;

  bool operator==(const Camera&) const = default;
};
using CameraId = Id<Camera>;

struct Story {
  std::string name;
  std::vector<PersonId> people;
  Span declared;

  bool operator==(const Story&) const = default;
};
using StoryId = Id<Story>;

struct Room {
  std::vector<Vec2> outline;  // counter-clockwise; empty: open ground
  Metres height{2.6};
  Tone walls = Tone::mid;
  Origin origin = Origin::said;
  Span declared;

  bool operator==(const Room&) const = default;
};

// A named spot on the floor that is nobody's.
struct Spot {
  std::string name;
  Vec2 at;
  Span declared;

  bool operator==(const Spot&) const = default;
};

struct Stage {
  Room room;
  std::vector<Wall> walls;
  std::vector<Opening> openings;
  std::vector<Piece> pieces;
  std::vector<Prop> props;
  std::vector<Person> people;
  std::vector<Lamp> lamps;
  std::vector<Lens> lenses;
  std::vector<Camera> cameras;
  std::vector<Story> stories;
  std::vector<Spot> spots;

  bool operator==(const Stage&) const = default;
};

}  // namespace lensward
