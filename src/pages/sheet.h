// The thin waist before drawing: a page is a list of placed items with named styles. Exporters know no actors.
// Units are millimetres, from the top left corner, y down.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "base/vec.h"
#include "source/span.h"
#include "type/face.h"

namespace lensward {

// Inks of the house: blacks and greys that read in print, and one accent for the favoured.
enum class Ink { none, paper, black, dark, mid, light, faint, accent };

struct Stroke {
  Ink ink = Ink::black;
  double width = 0.25;       // mm
  std::vector<double> dash;  // mm on, off …; empty: solid
  bool round = true;
};

// A fill, flat or hatched. Hatching is the house tone: parallel lines at an angle, clipped to the shape.
struct Fill {
  Ink ink = Ink::none;
  bool hatched = false;
  double hatch_angle = 45;    // degrees
  double hatch_gap = 1.0;     // mm
  double hatch_width = 0.15;  // mm
};

// An outline of straight and curved parts, in mm.
struct PathStep {
  enum class Kind { move, line, curve, close };
  Kind kind = Kind::move;
  Vec2 to, control_1, control_2;
};
struct Shape {
  std::vector<PathStep> steps;
  Fill fill;
  Stroke stroke;  // Ink::none: not stroked
  bool even_odd = false;
};

struct Text {
  enum class Anchor { left, middle, right };
  Vec2 at;  // on the baseline
  std::string words;
  Face face = Face::sans;
  double size = 3.2;  // mm, of the em
  Ink ink = Ink::black;
  Anchor anchor = Anchor::left;
  double turn = 0;  // degrees clockwise
};

// Pixels, for a soft layer or a debug picture. Grey, 0 black .. 255 white.
struct Picture {
  Vec2 at, size;
  int width = 0, height = 0;
  std::vector<std::uint8_t> grey;
  std::vector<std::uint8_t> alpha;  // same size, or empty: opaque
};

struct Item;

// Items that belong together: one drawn thing of the plan, known by a stable id, with words for those who cannot see
// it and the line it was said at. A clip rectangle cuts its items.
struct Group {
  std::string id;  // stable across edits elsewhere: "beat-papers/person-oda"; may be empty
  std::string title;
  std::string description;
  std::optional<Span> line;
  std::optional<std::pair<Vec2, Vec2>> clip;  // corner, size
  bool figure = false;                        // a picture as a whole, with `description` as its alternative text
  std::string link_to;                        // the id of a destination on some page
  std::vector<Item> items;
};

struct Item {
  std::variant<Shape, Text, Picture, Group> body;
};

struct Sheet {
  double width = 210, height = 297;  // mm
  std::string label;                 // page label
  std::string title;                 // for the outline; empty: none
  std::string anchor;                // destination id
  std::vector<Item> items;
};

struct Book {
  std::string title, author, subject;
  std::vector<Sheet> sheets;
};

}  // namespace lensward
