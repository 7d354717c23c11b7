#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "plan/floor.h"
#include "plan/places.h"

using namespace lensward;

namespace {

Stage room_with_table() {
  Stage stage;
  stage.room.outline = {{0, 0}, {7, 0}, {7, 5}, {0, 5}};
  for (std::size_t i = 0; i < 4; ++i) {
    Wall wall;
    wall.from = stage.room.outline[i];
    wall.to = stage.room.outline[(i + 1) % 4];
    stage.walls.push_back(wall);
  }
  Piece table;
  table.name = "Table";
  table.length = Metres{2};
  table.depth = Metres{1};
  table.height = Metres{0.75};
  table.at = {3.5, 2.5};
  table.front = Degrees{180};
  stage.pieces.push_back(table);
  return stage;
}

double length_of(const Way& way) {
  double sum = 0;
  for (std::size_t i = 1; i < way.path.size(); ++i) sum += length(way.path[i] - way.path[i - 1]);
  return sum;
}

// The least distance of a way from a piece, looked at every centimetre.
double least_gap(const Way& way, const Piece& piece) {
  double least = 1e9;
  for (std::size_t i = 1; i < way.path.size(); ++i) {
    const double far = length(way.path[i] - way.path[i - 1]);
    const int steps = 1 + static_cast<int>(far / 0.01);
    for (int step = 0; step <= steps; ++step) {
      const Vec2 at = mix(way.path[i - 1], way.path[i], static_cast<double>(step) / steps);
      least = std::min(least, distance_to(box_of(piece), at));
    }
  }
  return least;
}

}  // namespace

TEST_CASE("with nothing between, the way is straight") {
  const Way way = way_between(room_with_table(), {0.5, 0.5}, {6.5, 0.5}, 0.3_m);
  CHECK(way.path.size() == 2);
  CHECK_FALSE(way.blocked);
}

TEST_CASE("the way goes round a table, with the body's clearance, by the shorter side") {
  const Stage stage = room_with_table();
  const Way way = way_between(stage, {1, 2.3}, {6, 2.3}, 0.3_m);
  REQUIRE_FALSE(way.blocked);
  CHECK(way.path.size() >= 4);
  CHECK(way.path.front() == Vec2{1, 2.3});
  CHECK(way.path.back() == Vec2{6, 2.3});
  CHECK(least_gap(way, stage.pieces[0]) >= 0.27);
  // South is nearer: past the corners (2.2, 1.7) and (4.8, 1.7), which a rounded corner shortens a little.
  const double by_corners = length(Vec2{1.2, -0.6}) + 2.6 + length(Vec2{1.2, 0.6});
  CHECK(length_of(way) < by_corners + 0.01);
  CHECK(length_of(way) > by_corners - 0.2);
  for (Vec2 turn : way.path) CHECK(turn.y < 2.5);
}

TEST_CASE("through a wall the way takes the door") {
  Stage stage = room_with_table();
  Opening door;
  door.wall = WallId{1};
  door.width = Metres{0.9};
  door.middle = {7, 1};
  door.into_room = {-1, 0};
  stage.openings.push_back(door);
  const Way way = way_between(stage, {8, 4}, {5.5, 4}, 0.3_m);
  REQUIRE_FALSE(way.blocked);
  bool through = false;
  for (std::size_t i = 1; i < way.path.size(); ++i) {
    const Vec2 a = way.path[i - 1];
    const Vec2 b = way.path[i];
    if ((a.x - 7) * (b.x - 7) >= 0) continue;
    const double y = mix(a, b, (7 - a.x) / (b.x - a.x)).y;
    through = std::fabs(y - 1) <= 0.45;
  }
  CHECK(through);
}

TEST_CASE("without a door nobody gets through a wall, but through one that is taken out") {
  Stage stage = room_with_table();
  CHECK(way_between(stage, {8, 4}, {5.5, 4}, 0.3_m).blocked);
  stage.walls[1].wild = true;
  CHECK_FALSE(way_between(stage, {8, 4}, {5.5, 4}, 0.3_m).blocked);
}

TEST_CASE("a row of furniture from wall to wall blocks the way") {
  Stage stage = room_with_table();
  stage.pieces[0].length = Metres{7};
  stage.pieces[0].at = {3.5, 2.5};
  const Way way = way_between(stage, {1, 1}, {1, 4}, 0.3_m);
  CHECK(way.blocked);
  CHECK(way.path == std::vector<Vec2>{{1, 1}, {1, 4}});
}

TEST_CASE("whoever stands close to a piece can walk away from it") {
  const Stage stage = room_with_table();
  const Way way = way_between(stage, {3.5, 1.8}, {3.5, 3.2}, 0.35_m);
  REQUIRE_FALSE(way.blocked);
  CHECK(least_gap(way, stage.pieces[0]) > 0.1);
  // Out of a seat the piece itself does not hold one.
  CHECK_FALSE(way_between(stage, {3.5, 2.5}, {1, 4}, 0.3_m).blocked);
}

TEST_CASE("the same ends give the same way, and rugs are walked over") {
  Stage stage = room_with_table();
  const Way one = way_between(stage, {1, 2.5}, {6, 2.5}, 0.3_m);
  const Way two = way_between(stage, {1, 2.5}, {6, 2.5}, 0.3_m);
  CHECK(one.path == two.path);
  stage.pieces[0].kind = PieceKind::rug;
  CHECK(way_between(stage, {1, 2.5}, {6, 2.5}, 0.3_m).path.size() == 2);
}

TEST_CASE("ends that are no numbers or the same give a way of two ends") {
  const Stage stage = room_with_table();
  const double nowhere = std::numeric_limits<double>::quiet_NaN();
  CHECK(way_between(stage, {nowhere, 1}, {2, 2}, 0.3_m).path.size() == 2);
  CHECK(way_between(stage, {2, 2}, {2, 2}, 0.3_m).path.size() == 2);
  CHECK(way_between(stage, {1, 1}, {6, 4}, Metres{-5}).path.size() >= 2);
}
