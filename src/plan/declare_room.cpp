#include <algorithm>
#include <array>
#include <cmath>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "plan/areas.h"
#include "plan/declaring.h"
#include "plan/floor.h"

namespace lensward {
namespace {

constexpr double default_width = 6, default_depth = 5, default_height = 2.6;
const Limits room_sizes{"size of a room", Dimension::length, 0.5, 200, "room 7 m by 5 m"};
const Limits room_heights{"height of a room", Dimension::length, 1.5, 60, "room 7 m by 5 m by 2.7 m"};

const RoomLine* room_line(const Declaring& declaring, Span& span) {
  for (const Statement& statement : declaring.script.statements) {
    if (const auto* room = std::get_if<RoomLine>(&statement.body)) {
      span = statement.span;
      return room;
    }
  }
  return nullptr;
}

// Counter-clockwise from the south-west corner: the south wall first.
void make_box_room(Stage& stage, double width, double depth) {
  stage.room.outline = {{0, 0}, {width, 0}, {width, depth}, {0, depth}};
  const std::array<const char*, 4> names{"South", "East", "North", "West"};
  for (std::size_t i = 0; i < names.size(); ++i) {
    for (Wall& wall : stage.walls) {
      if (wall.name != names[i] || length(wall.to - wall.from) > 0) continue;
      wall.from = stage.room.outline[i];
      wall.to = stage.room.outline[(i + 1) % 4];
    }
  }
}

void supply_walls(Declaring& declaring) {
  for (const char* side : {"North", "East", "South", "West"}) {
    const WallId id{static_cast<int>(declaring.plan.stage.walls.size())};
    Wall wall;
    wall.name = side;
    declaring.names.declare({side, {}}, id);
    declaring.plan.stage.walls.push_back(wall);
  }
}

// Walls end to end make a room; a set whose walls do not close has none.
Outline chained(std::vector<Wall>& walls) {
  if (walls.size() < 3) return {};
  constexpr double joint = 0.02;
  Outline outline{walls.front().from};
  Vec2 end = walls.front().to;
  std::vector<bool> used(walls.size());
  used.front() = true;
  for (std::size_t step = 1; step < walls.size() && length(end - outline.front()) > joint; ++step) {
    std::size_t next = 0;
    for (std::size_t i = 1; i < walls.size() && next == 0; ++i) {
      if (used[i]) continue;
      if (length(walls[i].to - end) <= joint) std::swap(walls[i].from, walls[i].to);
      if (length(walls[i].from - end) <= joint) next = i;
    }
    if (next == 0) return {};
    used[next] = true;
    outline.push_back(walls[next].from);
    end = walls[next].to;
  }
  if (length(end - outline.front()) > joint || outline.size() < 3 || std::fabs(area_of(outline)) < 0.25) return {};
  if (area_of(outline) < 0) {
    std::reverse(outline.begin(), outline.end());
    for (Wall& wall : walls) std::swap(wall.from, wall.to);
  }
  return outline;
}

std::optional<Vec2> corner_told(const std::optional<Place>& place, Declaring& declaring) {
  if (!place) return std::nullopt;
  const PlaceContext context = context_of(declaring);
  const std::vector<Area> areas = areas_of(*place, context, Placing{}, declaring.findings);
  if (areas.empty()) return std::nullopt;
  return areas.front().middle.size() == 1 ? areas.front().middle.front() : centroid_of(areas.front().shape);
}

bool read_walls(Declaring& declaring) {
  bool any = false;
  for (const Declared& declared : declaring.declared) {
    const auto* id = std::get_if<WallId>(&declared.what);
    if (id == nullptr) continue;
    Wall& wall = declaring.plan.stage.walls[static_cast<std::size_t>(id->index)];
    wall.wild = trait_in(*declared.clauses, "wild") != nullptr;
    const RouteClause* route = find<RouteClause>(*declared.clauses);
    if (route == nullptr || route->kind != RouteClause::Kind::from) continue;
    const auto from = corner_told(route->place, declaring);
    const ToClause* to_clause = find<ToClause>(*declared.clauses);
    const auto to = corner_told(route->to ? route->to : to_clause ? to_clause->place : std::nullopt, declaring);
    if (!from || !to) continue;
    if (length(*to - *from) < 0.05) {
      report(declaring, "unit.out-of-range", declared.line, "the wall `" + wall.name + "` has no length",
             "`wall " + wall.name + ", from (0, 0) m, to (6, 0) m` has two ends");
      continue;
    }
    wall.from = *from;
    wall.to = *to;
    any = true;
  }
  return any;
}

// What was never given ends stands nowhere.
void drop_unbuilt_walls(Declaring& declaring) {
  Stage& stage = declaring.plan.stage;
  const bool box = !stage.room.outline.empty();
  for (const Declared& declared : declaring.declared) {
    const auto* id = std::get_if<WallId>(&declared.what);
    if (id == nullptr) continue;
    Wall& wall = stage.walls[static_cast<std::size_t>(id->index)];
    if (length(wall.to - wall.from) > 0) continue;
    report(declaring, "name.clause-missing", declared.line, "the wall `" + wall.name + "` has no ends",
           box ? "name one the room has: `wall South, wild`" : "`wall " + wall.name + ", from (0, 0) m, to (6, 0) m`");
    wall.to = wall.from + Vec2{0.01, 0};
    wall.wild = true;
  }
}

void build_told_room(const RoomLine& line, Span span, Declaring& declaring) {
  Stage& stage = declaring.plan.stage;
  stage.room.declared = span;
  std::optional<double> width, depth, height;
  if (!line.figures.empty()) width = measured(line.figures[0], room_sizes, declaring.findings);
  if (line.figures.size() > 1) depth = measured(line.figures[1], room_sizes, declaring.findings);
  if (line.figures.size() > 2) height = measured(line.figures[2], room_heights, declaring.findings);
  make_box_room(stage, width.value_or(default_width), depth.value_or(default_depth));
  stage.room.height = Metres{height.value_or(default_height)};
  stage.room.walls = tone_in(line.clauses, "walls").value_or(Tone::mid);
}

void supply_room(Declaring& declaring) {
  Stage& stage = declaring.plan.stage;
  supply_walls(declaring);
  make_box_room(stage, default_width, default_depth);
  stage.room.origin = Origin::assumed;
  assume(declaring, "no room told, so one of 6 m by 5 m, 2.6 m high", "room 6 m by 5 m by 2.6 m",
         declaring.plan.facts.heading);
}

void open_the_south(Declaring& declaring) {
  for (Wall& wall : declaring.plan.stage.walls) {
    if (wall.name == "South" && !declaring.camera_told) wall.wild = true;
  }
}

// ---- Doors and windows ---------------------------------------------------------------------------------------------

const Limits widths{"width of a door or window", Dimension::length, 0.2, 20, "width 0.9 m"};
const Limits heights{"height of a door or window", Dimension::length, 0.2, 20, "height 2 m"};
const Limits sills{"sill of a window", Dimension::length, 0, 10, "sill 1 m"};
const Limits alongs{"place along a wall", Dimension::length, 0, 200, "1.2 m along"};

std::optional<WallId> wall_of(const Declared& declared, Declaring& declaring) {
  const std::vector<Wall>& walls = declaring.plan.stage.walls;
  for (const Place& place : places_in(*declared.clauses)) {
    if (place.things.empty()) continue;
    const Thing& thing = place.things.front();
    if (thing.kind == Thing::Kind::named) return resolve<WallId>(declaring.names, thing.name, declaring.findings);
    if (thing.kind != Thing::Kind::wall) continue;
    const Vec2 wanted = direction_of(thing.compass);
    WallId best{-1};
    double most = 0.5;
    for (std::size_t i = 0; i < walls.size(); ++i) {
      const double share = dot(left_of(unit(walls[i].to - walls[i].from)) * -1, wanted);
      if (share <= most + 1e-9) continue;
      most = share;
      best = WallId{static_cast<int>(i)};
    }
    if (best.known()) return best;
  }
  report(declaring, "name.clause-missing", declared.line,
         '`' + declared.name.text + "` is in no wall, so nobody can come through it",
         "say which: `" + declared.name.text + ", in the east wall, 1.2 m along`");
  return std::nullopt;
}

void read_opening_sizes(const Clauses& clauses, Opening& opening, Findings& findings) {
  if (opening.kind == Opening::Kind::window) {
    opening.width = Metres{1.2};
    opening.height = Metres{1};
    opening.sill = Metres{1};
  }
  if (const auto width = measured_in(clauses, "width", widths, findings)) opening.width = Metres{*width};
  if (const auto height = measured_in(clauses, "height", heights, findings)) opening.height = Metres{*height};
  if (const auto sill = measured_in(clauses, "sill", sills, findings)) opening.sill = Metres{*sill};
  opening.inward = trait_in(clauses, "outward") == nullptr;
  opening.both_ways = trait_in(clauses, "both ways") != nullptr;
}

// Along a wall counts from its west end, or from its south end when it runs north.
void place_opening(const Declared& declared, Opening& opening, Declaring& declaring) {
  const Wall& wall = declaring.plan.stage.walls[static_cast<std::size_t>(opening.wall.index)];
  const bool from_is_first =
      std::fabs(wall.from.x - wall.to.x) > 0.001 ? wall.from.x < wall.to.x : wall.from.y < wall.to.y;
  const Vec2 first = from_is_first ? wall.from : wall.to;
  const Vec2 last = from_is_first ? wall.to : wall.from;
  const double whole = length(last - first);
  opening.into_room = left_of(unit(wall.to - wall.from));
  opening.along = Metres{whole / 2};
  opening.middle = mix(first, last, 0.5);
  const Amount* amount = measure_in(*declared.clauses, "along");
  if (amount == nullptr) {
    assume(
        declaring, "no place along the wall told for `" + opening.name + "`, so its middle, " + text_of(opening.along),
        Pin{opening.kind == Opening::Kind::door ? "door" : "window", opening.name, text_of(opening.along) + " along"},
        declared.line);
    return;
  }
  const auto along = measured(*amount, alongs, declaring.findings);
  if (!along) return;
  const double half = opening.width.value / 2;
  if (along->preferred < half - 0.001 || along->preferred > whole - half + 0.001) {
    report(declaring, "unit.out-of-range", amount->span,
           '`' + opening.name + "` runs past the end of its wall: " + text_of(Metres{along->preferred}) +
               " along, and the wall is " + text_of(Metres{whole}) + " long",
           "`" + text_of(Metres{whole / 2}) + " along` is its middle");
    return;
  }
  opening.along = Metres{along->preferred};
  opening.middle = first + unit(last - first) * along->preferred;
}

}  // namespace

void declare_room(Declaring& declaring) {
  Stage& stage = declaring.plan.stage;
  Span span;
  const RoomLine* line = room_line(declaring, span);
  const bool walls_told = read_walls(declaring);
  if (line != nullptr) {
    build_told_room(*line, span, declaring);
  } else if (walls_told) {
    stage.room.outline = chained(stage.walls);
  } else if (!declaring.plan.facts.exterior) {
    supply_room(declaring);
  }
  open_the_south(declaring);
  drop_unbuilt_walls(declaring);
}

void declare_openings(Declaring& declaring) {
  std::vector<Opening>& openings = declaring.plan.stage.openings;
  for (const Declared& declared : declaring.declared) {
    const auto* id = std::get_if<OpeningId>(&declared.what);
    if (id == nullptr) continue;
    Opening& opening = openings[static_cast<std::size_t>(id->index)];
    read_opening_sizes(*declared.clauses, opening, declaring.findings);
    const std::optional<WallId> wall = wall_of(declared, declaring);
    // An opening must stand in some wall for every later stage; the finding says that it is nowhere.
    opening.wall = wall.value_or(WallId{0});
    if (!declaring.plan.stage.walls.empty()) place_opening(declared, opening, declaring);
  }
}

}  // namespace lensward
