#include <algorithm>
#include <cmath>

#include "pages/draw.h"
#include "pages/overhead_parts.h"

namespace lensward {
namespace {

// Metres. A wall is drawn outward from the line that bounds the floor.
constexpr double thickness = 0.12;

std::vector<Wall> walls_of(const Stage& stage) {
  if (!stage.walls.empty()) return stage.walls;
  std::vector<Wall> walls;
  const std::vector<Vec2>& outline = stage.room.outline;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    Wall wall;
    wall.from = outline[i];
    wall.to = outline[(i + 1) % outline.size()];
    walls.push_back(wall);
  }
  return walls;
}

Vec2 along(const Wall& wall) { return unit(wall.to - wall.from); }
// The room lies to the left of a wall.
Vec2 outward(const Wall& wall) { return left_of(along(wall)) * -1; }

// At an outer corner the two bands must meet; at an inner one they already do.
bool outer_corner(const Wall& before, const Wall& after) { return cross(along(before), along(after)) > 1e-6; }

bool near(Vec2 a, Vec2 b) { return length(a - b) < 0.02; }

struct Band {
  Vec2 from, to, out;

  std::vector<Vec2> corners() const { return {from, to, to + out, from + out}; }
};

Band band_of(const std::vector<Wall>& walls, const Wall& wall) {
  Band band{wall.from, wall.to, outward(wall) * thickness};
  for (const Wall& other : walls) {
    if (near(other.from, wall.to) && outer_corner(wall, other)) band.to = band.to + along(wall) * thickness;
    if (near(other.to, wall.from) && outer_corner(other, wall)) band.from = band.from - along(wall) * thickness;
  }
  return band;
}

std::vector<Vec2> on_paper(const FloorPaper& paper, const std::vector<Vec2>& floor) {
  std::vector<Vec2> points;
  points.reserve(floor.size());
  for (const Vec2 point : floor) points.push_back(paper.mm(point));
  return points;
}

LabelArea area_round(const std::vector<Vec2>& points) {
  LabelArea area{points.front(), points.front()};
  for (const Vec2 point : points) {
    area.low = {std::min(area.low.x, point.x), std::min(area.low.y, point.y)};
    area.high = {std::max(area.high.x, point.x), std::max(area.high.y, point.y)};
  }
  return area;
}

void draw_wall(OverheadScene& scene, const std::vector<Wall>& walls, const Wall& wall, Group& all) {
  const Band band = band_of(walls, wall);
  Group group;
  if (!wall.name.empty()) group.id = scene.id + "/" + id_part(wall.name);
  group.title = wall.name.empty() ? "wall" : wall.name;
  const std::vector<Vec2> corners = on_paper(scene.paper, band.corners());
  if (wall.wild)
    group.items.push_back(shape(polygon(corners), {}, dashed(Ink::mid, thin_line, {1.6, 0.9})));
  else
    group.items.push_back(shape(polygon(corners), flat(Ink::dark), pen(Ink::dark, hairline)));
  // A label may lie across an oblique wall, at a price; a wall along the paper's edges it must leave free.
  const Vec2 way = along(wall);
  if (!wall.wild && std::min(std::fabs(way.x), std::fabs(way.y)) < 0.01)
    scene.ground.taken.push_back(area_round(corners));
  scene.drawn_mm(corners);
  all.items.push_back({std::move(group)});
}

void draw_leaf(const FloorPaper& paper, Vec2 hinge, Vec2 shut_end, Vec2 swing, Group& group) {
  const Vec2 open_end = hinge + swing;
  group.items.push_back(line(paper.mm(hinge), paper.mm(open_end), pen(Ink::black, plain_line)));
  group.items.push_back(
      shape(short_arc(paper.mm(hinge), paper.mm(open_end), paper.mm(shut_end)), {}, pen(Ink::mid, hairline)));
}

// Hung on the left of who comes in, as the lens sees it.
void draw_door(OverheadScene& scene, const Opening& door, Group& group) {
  const double width = door.width.value;
  const Vec2 across = left_of(door.into_room) * -1;
  const Vec2 hinge = door.middle - across * (width / 2), shut = door.middle + across * (width / 2);
  const Vec2 in = door.into_room * width;
  const Vec2 swing = door.inward ? in : in * -1;
  draw_leaf(scene.paper, hinge, shut, swing, group);
  if (door.both_ways) draw_leaf(scene.paper, hinge, shut, swing * -1, group);
  scene.drawn({hinge, hinge + swing, shut});
}

void draw_window(OverheadScene& scene, const Opening& window, Vec2 across, Group& group) {
  const Vec2 half = across * (window.width.value / 2);
  for (const double share : {0.15, 0.5, 0.85}) {
    const Vec2 out = window.into_room * (-thickness * share);
    group.items.push_back(line(scene.paper.mm(window.middle - half + out), scene.paper.mm(window.middle + half + out),
                               pen(Ink::black, hairline)));
  }
}

void draw_opening(OverheadScene& scene, const Opening& opening, Group& all) {
  const Vec2 across = left_of(opening.into_room);
  const Vec2 half = across * (opening.width.value / 2);
  const Vec2 out = opening.into_room * -thickness;
  const Vec2 hair = opening.into_room * 0.01;
  const std::vector<Vec2> gap{opening.middle - half + hair, opening.middle + half + hair,
                              opening.middle + half + out - hair, opening.middle - half + out - hair};
  Group group;
  group.id = scene.id + "/" + id_part(opening.name);
  group.title = opening.name;
  if (!opening.declared.empty()) group.line = opening.declared;
  group.items.push_back(shape(polygon(on_paper(scene.paper, gap)), flat(Ink::paper), no_stroke()));
  for (const double side : {-1.0, 1.0})
    group.items.push_back(line(scene.paper.mm(opening.middle + half * side),
                               scene.paper.mm(opening.middle + half * side + out), pen(Ink::dark, plain_line)));
  const bool door = opening.kind == Opening::Kind::door;
  door ? draw_door(scene, opening, group) : draw_window(scene, opening, across, group);

  LabelWish wish;
  wish.lines = break_lines(opening.name, Face::sans_italic, 2.5, 26);
  // Beside a window outside, where nothing stands; beside a door within the quarter that its leaf sweeps.
  const double width = opening.width.value;
  const Vec2 in_swing = opening.into_room * (width * (opening.inward ? 0.45 : -0.45)) + across * (width * 0.05);
  wish.about = scene.paper.mm(opening.middle + (door ? in_swing : out * 0.5));
  wish.clear = door ? scene.paper.scale() * width * 0.4 : scene.paper.scale() * thickness * 0.5 + 0.3;
  wish.face = Face::sans_italic;
  wish.size = 2.5;
  wish.ink = Ink::dark;
  scene.wishes.push_back({wish, group.id, {}});
  all.items.push_back({std::move(group)});
}

}  // namespace

Group draw_walls(OverheadScene& scene) {
  Group all;
  const std::vector<Wall> walls = walls_of(scene.plan.stage);
  for (const Wall& wall : walls) draw_wall(scene, walls, wall, all);
  for (const Opening& opening : scene.plan.stage.openings) draw_opening(scene, opening, all);
  return all;
}

}  // namespace lensward
