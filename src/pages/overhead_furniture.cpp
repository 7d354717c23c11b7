#include <algorithm>

#include "base/angle.h"
#include "pages/draw.h"
#include "pages/overhead_parts.h"

namespace lensward {
namespace {

const Stroke edge = pen(Ink::dark, thin_line);
const Stroke inner = pen(Ink::mid, hairline);
const Fill paper_fill = flat(Ink::paper);

class Symbol {
 public:
  explicit Symbol(const PieceFrame& frame) : frame_(frame) {}

  void outline(Fill fill = paper_fill) { box(-1, -1, 1, 1, fill, edge); }
  void box(double left, double back, double right, double front, Fill fill, const Stroke& stroke) {
    items.push_back(shape(polygon({frame_(left, back), frame_(right, back), frame_(right, front), frame_(left, front)}),
                          fill, stroke));
  }
  void inside(double left, double back, double right, double front) { box(left, back, right, front, {}, inner); }
  void stroke(double x1, double y1, double x2, double y2, const Stroke& pen_used = inner) {
    items.push_back(line(frame_(x1, y1), frame_(x2, y2), pen_used));
  }
  void oval(double x, double y, double half_x, double half_y, Fill fill, const Stroke& stroke) {
    items.push_back(shape(ellipse(frame_(x, y), frame_.right * half_x, frame_.front * half_y), fill, stroke));
  }
  // A true circle whatever the piece's proportions; its radius as a share of the shorter half.
  void round(double x, double y, double share, Fill fill, const Stroke& stroke) {
    const double radius = share * std::min(length(frame_.right), length(frame_.front));
    items.push_back(shape(circle(frame_(x, y), radius), fill, stroke));
  }
  void through(const std::vector<Vec2>& points, const Stroke& pen_used) {
    std::vector<Vec2> placed;
    placed.reserve(points.size());
    for (const Vec2 point : points) placed.push_back(frame_(point.x, point.y));
    items.push_back(shape(polyline(placed), {}, pen_used));
  }

  std::vector<Item> items;

 private:
  const PieceFrame& frame_;
};

void seat_with_back(Symbol& symbol, double back_depth, bool arms) {
  symbol.outline();
  symbol.box(-1, -1, 1, -1 + back_depth, hatched(Ink::mid, 0.6), edge);
  if (!arms) return;
  symbol.inside(-1, -1 + back_depth, -0.8, 1);
  symbol.inside(0.8, -1 + back_depth, 1, 1);
}

void seat_divisions(Symbol& symbol, int seats, double back) {
  for (int i = 1; i < seats; ++i) {
    const double x = -1 + 2.0 * i / seats;
    symbol.stroke(x, back, x, 1);
  }
}

void crossed(Symbol& symbol) {
  symbol.outline();
  symbol.stroke(-1, -1, 1, 1);
  symbol.stroke(-1, 1, 1, -1);
}

void bed(Symbol& symbol, bool wide) {
  symbol.outline();
  const double split = wide ? 0 : 1;
  symbol.inside(-0.9, -0.9, wide ? split - 0.06 : 0.9, -0.55);
  if (wide) symbol.inside(split + 0.06, -0.9, 0.9, -0.55);
  symbol.stroke(-1, -0.3, 1, -0.3);
  symbol.stroke(-1, -0.3, -0.4, -0.05);
  symbol.stroke(-0.4, -0.05, 1, -0.05);
}

void ticks_across(Symbol& symbol, int count) {
  for (int i = 1; i < count; ++i) {
    const double x = -1 + 2.0 * i / count;
    symbol.stroke(x, -1, x, 1);
  }
}

void folds(Symbol& symbol, bool sharp) {
  std::vector<Vec2> points;
  const int count = sharp ? 6 : 16;
  for (int i = 0; i <= count; ++i) points.push_back({-1 + 2.0 * i / count, i % 2 == 0 ? -1.0 : 1.0});
  symbol.through(points, pen(Ink::dark, plain_line));
}

void tree(Symbol& symbol) {
  symbol.round(0, 0, 2.6, {}, dashed(Ink::mid, thin_line, {1.2, 0.8}));
  symbol.round(0, 0, 1, hatched(Ink::dark, 0.5), edge);
}

void rail_with_posts(Symbol& symbol) {
  symbol.outline();
  for (const double x : {-1.0, -0.5, 0.0, 0.5, 1.0}) symbol.round(x, 0, 1.3, flat(Ink::dark), no_stroke());
}

void water(Symbol& symbol, const Piece& piece) {
  symbol.outline();
  if (piece.kind == PieceKind::bath) {
    symbol.oval(0, 0, 0.88, 0.78, {}, inner);
    symbol.round(0.62, 0, 0.08, flat(Ink::mid), no_stroke());
    return;
  }
  const double reach = piece.kind == PieceKind::basin ? 0.75 : 0.45;
  symbol.oval(piece.kind == PieceKind::basin ? 0 : -0.4, 0.1, reach, 0.65, {}, inner);
  symbol.stroke(piece.kind == PieceKind::basin ? 0 : -0.4, -0.9, piece.kind == PieceKind::basin ? 0 : -0.4, -0.3, edge);
  if (piece.kind == PieceKind::sink)
    for (const double x : {0.25, 0.4, 0.55, 0.7, 0.85}) symbol.stroke(x, -0.6, x, 0.7);
}

void seats(Symbol& symbol, const Piece& piece) {
  switch (piece.kind) {
    case PieceKind::chair:
      seat_with_back(symbol, 0.28, false);
      break;
    case PieceKind::armchair:
      seat_with_back(symbol, 0.4, true);
      break;
    case PieceKind::sofa:
      seat_with_back(symbol, 0.4, true);
      seat_divisions(symbol, piece.seats, -0.6);
      break;
    case PieceKind::pew:
      seat_with_back(symbol, 0.25, false);
      seat_divisions(symbol, piece.seats, -0.75);
      break;
    case PieceKind::bench:
      symbol.outline();
      symbol.stroke(-1, -0.3, 1, -0.3);
      symbol.stroke(-1, 0.3, 1, 0.3);
      break;
    default:
      symbol.round(0, 0, 1, paper_fill, edge);
      symbol.round(0, 0, 0.65, {}, inner);
  }
}

void work_tops(Symbol& symbol, const Piece& piece) {
  symbol.outline();
  switch (piece.kind) {
    case PieceKind::table:
      symbol.inside(-0.94, -0.88, 0.94, 0.88);
      break;
    case PieceKind::desk:
      symbol.inside(0.35, -0.85, 0.9, 0.85);
      symbol.stroke(-0.9, 0.7, 0.25, 0.7);
      break;
    case PieceKind::stove:
      for (const double x : {-0.45, 0.45})
        for (const double y : {-0.42, 0.42}) symbol.round(x, y, 0.3, {}, inner);
      symbol.stroke(-1, 0.86, 1, 0.86);
      break;
    case PieceKind::piano:
      symbol.box(-0.9, 0.35, 0.9, 1, hatched(Ink::dark, 0.7, 90), inner);
      symbol.stroke(-1, 0.35, 1, 0.35, edge);
      break;
    case PieceKind::fireplace:
      symbol.box(-0.6, -0.2, 0.6, 1, hatched(Ink::dark, 0.7), edge);
      break;
    case PieceKind::trolley:
      for (const double x : {-0.82, 0.82})
        for (const double y : {-0.75, 0.75}) symbol.round(x, y, 0.12, flat(Ink::mid), no_stroke());
      break;
    case PieceKind::lectern:
      symbol.through({{-1, -0.2}, {1, -0.2}, {0.7, 0.8}, {-0.7, 0.8}, {-1, -0.2}}, inner);
      break;
    default:
      symbol.stroke(-1, 0.72, 1, 0.72);
  }
}

void plan_of(Symbol& symbol, const Piece& piece) {
  switch (piece.kind) {
    case PieceKind::chair:
    case PieceKind::armchair:
    case PieceKind::sofa:
    case PieceKind::pew:
    case PieceKind::bench:
    case PieceKind::stool:
      return seats(symbol, piece);
    case PieceKind::sink:
    case PieceKind::basin:
    case PieceKind::bath:
      return water(symbol, piece);
    case PieceKind::fridge:
    case PieceKind::cupboard:
    case PieceKind::wardrobe:
    case PieceKind::crate:
      return crossed(symbol);
    case PieceKind::bookcase:
      symbol.outline();
      return ticks_across(symbol, 7);
    case PieceKind::bed:
    case PieceKind::bunk:
      return bed(symbol, piece.kind == PieceKind::bed);
    case PieceKind::barrel:
      symbol.round(0, 0, 1, paper_fill, edge);
      return symbol.round(0, 0, 0.8, {}, inner);
    case PieceKind::pillar:
      return symbol.outline(hatched(Ink::dark, 0.5));
    case PieceKind::hedge:
      return symbol.outline(hatched(Ink::mid, 0.8, -45));
    case PieceKind::screen:
      return folds(symbol, true);
    case PieceKind::curtain:
      return folds(symbol, false);
    case PieceKind::cloth:
      return symbol.box(-1, -1, 1, 1, {}, dashed(Ink::mid, thin_line, {0.8, 0.6}));
    case PieceKind::rug:
      symbol.box(-1, -1, 1, 1, {}, pen(Ink::mid, hairline));
      return symbol.box(-0.94, -0.92, 0.94, 0.92, {}, dashed(Ink::mid, hairline, {0.5, 0.5}));
    case PieceKind::rail:
    case PieceKind::fence:
      return rail_with_posts(symbol);
    case PieceKind::tree:
      return tree(symbol);
    case PieceKind::steps:
      symbol.outline();
      for (const double y : {-0.5, 0.0, 0.5}) symbol.stroke(-1, y, 1, y, edge);
      return;
    case PieceKind::ladder:
      symbol.outline();
      return ticks_across(symbol, 5);
    default:
      return work_tops(symbol, piece);
  }
}

PieceFrame frame_of(const FloorPaper& paper, const Piece& piece) {
  const Vec2 front = direction_of(piece.front);
  const Vec2 right{front.y, -front.x};
  return {paper.mm(piece.at), paper.way(right * (piece.length.value / 2)), paper.way(front * (piece.depth.value / 2))};
}

void wish_for_name(OverheadScene& scene, const Piece& piece, const PieceFrame& frame, const std::string& id) {
  LabelWish wish;
  constexpr double size = 2.5;
  wish.lines = break_lines(piece.name, Face::sans_italic, size, 26);
  wish.about = frame.middle;
  wish.clear = std::min(length(frame.right), length(frame.front));
  wish.inside = std::max(length(frame.right), length(frame.front)) > 4;
  wish.face = Face::sans_italic;
  wish.size = size;
  wish.ink = Ink::dark;
  scene.wishes.push_back({wish, id, {}});
}

}  // namespace

std::vector<Item> piece_symbol(const Piece& piece, const PieceFrame& frame) {
  Symbol symbol(frame);
  plan_of(symbol, piece);
  return std::move(symbol.items);
}

Group draw_furniture(OverheadScene& scene) {
  Group all;
  // What lies flat goes under what stands on it.
  for (const bool flat_ones : {true, false}) {
    for (const Piece& piece : scene.plan.stage.pieces) {
      if ((piece.kind == PieceKind::rug) != flat_ones) continue;
      const PieceFrame frame = frame_of(scene.paper, piece);
      Group group;
      group.id = scene.id + "/" + id_part(piece.name);
      group.title = piece.name;
      if (!piece.declared.empty()) group.line = piece.declared;
      group.items = piece_symbol(piece, frame);
      scene.drawn_mm({frame(-1, -1), frame(1, -1), frame(1, 1), frame(-1, 1), frame(-1, -1)});
      wish_for_name(scene, piece, frame, group.id);
      all.items.push_back({std::move(group)});
    }
  }
  return all;
}

}  // namespace lensward
