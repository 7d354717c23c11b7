// The parts of an overhead. Each draws its things and says what labels must keep clear of and what should be named.
#pragma once

#include <string>

#include "pages/floor_paper.h"
#include "pages/labels.h"
#include "pages/lay_out.h"

namespace lensward {

// What the parts of one drawing share.
struct OverheadScene {
  const Results& results;
  const Plan& plan;
  int beat;
  Moment begin, end, moment;
  FloorPaper paper;
  std::string id;  // of the drawing; a part's id is this, a slash and the thing

  LabelGround ground;
  struct Wish {
    LabelWish label;
    std::string id, key;
  };
  std::vector<Wish> wishes;  // in order of importance when the drawing is done

  void drawn(const std::vector<Vec2>& floor_points);
  void drawn_mm(const std::vector<Vec2>& points);
  // Labels may not cover these; with a wish, they are the thing that it names.
  void take(const std::vector<Item>& items);
  void take(const std::vector<Item>& items, LabelWish& wish);
};

Group draw_furniture(OverheadScene& scene);
Group draw_walls(OverheadScene& scene);
// The angle of view goes under everything, the camera itself over it.
Group draw_angles(OverheadScene& scene);
Group draw_cameras(OverheadScene& scene);
Group draw_lamps(OverheadScene& scene);
Group draw_paths(OverheadScene& scene);
Group draw_marks(OverheadScene& scene);
Group draw_people(OverheadScene& scene);
// What people hand to each other and lay down, where it is at the moment.
Group draw_props(OverheadScene& scene);
Group draw_scale(const OverheadScene& scene, Vec2 at, double width);

// Furniture symbol of a kind, in mm: `right` along the front, `front` toward it, both with half the piece's size.
struct PieceFrame {
  Vec2 middle, right, front;

  // x and y from -1 to 1 over the piece.
  Vec2 operator()(double x, double y) const { return middle + right * x + front * y; }
};
std::vector<Item> piece_symbol(const Piece& piece, const PieceFrame& frame);

// A person from above: shoulders, head with nose.
struct FigureLook {
  Tone dress = Tone::mid;
  bool ghost = false;
  bool favoured = false;
};
std::vector<Item> person_symbol(const FloorPaper& paper, const PersonState& state, Degrees head,
                                const FigureLook& look);
// Radius in mm that labels keep clear.
double person_radius(const FloorPaper& paper);
// Bearing of the head: toward what is looked at, as far as a neck turns from the chest.
Degrees head_bearing(const PersonState& state);

}  // namespace lensward
