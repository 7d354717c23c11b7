#include "lens/scene_solids.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "lens/furniture_solids.h"
#include "lens/raster.h"

using namespace lensward;

namespace {

template <class Value>
Lane<Value> still(Value value) {
  return {{Moment{0}, Moment{0}, value, value, Origin::said, {}}};
}

void add_wall(Plan& plan, Vec2 from, Vec2 to, bool wild) {
  Wall wall;
  wall.from = from;
  wall.to = to;
  wall.wild = wild;
  plan.stage.walls.push_back(wall);
}

// A room of 4 by 3 m with a wild south wall, a window in the north and a door in the east.
Plan room() {
  Plan plan;
  plan.stage.room.outline = {{0, 0}, {4, 0}, {4, 3}, {0, 3}};
  plan.stage.room.height = Metres{2.5};
  add_wall(plan, {0, 0}, {4, 0}, true);
  add_wall(plan, {4, 0}, {4, 3}, false);
  add_wall(plan, {4, 3}, {0, 3}, false);
  add_wall(plan, {0, 3}, {0, 0}, false);
  Opening window;
  window.kind = Opening::Kind::window;
  window.wall = WallId{2};
  window.middle = {1, 3};
  window.into_room = {0, -1};
  window.width = Metres{1};
  window.height = Metres{1};
  window.sill = Metres{1};
  Opening door;
  door.wall = WallId{1};
  door.middle = {4, 1.5};
  door.into_room = {-1, 0};
  plan.stage.openings = {window, door};
  return plan;
}

PersonId add_person(Plan& plan, Vec2 at, Stance stance, bool present) {
  Person person;
  person.name = "Runa";
  plan.stage.people.push_back(person);
  PersonTrack track;
  track.present = still(present);
  track.feet = still(Walk{{at}});
  track.body = still(Facing{});
  track.stance = still(stance);
  plan.people.push_back(track);
  return PersonId{static_cast<int>(plan.people.size()) - 1};
}

std::vector<Solid> owned_by(const SceneSolids& scene, Target::Kind kind, int index) {
  std::vector<Solid> found;
  for (std::size_t i = 0; i < scene.solids.size(); ++i) {
    if (scene.owner[i].kind == kind && scene.owner[i].index == index) found.push_back(scene.solids[i]);
  }
  return found;
}

Piece piece_of(PieceKind kind) {
  Piece piece;
  piece.kind = kind;
  piece.length = Metres{1.4};
  piece.depth = Metres{0.6};
  piece.height = Metres{0.9};
  return piece;
}

}  // namespace

TEST_CASE("walls stand but the wild one, and stop a look except through a window") {
  const SceneSolids scene = solids_of(room(), Moment{0});
  const Vec3 inside{1.2, 1.5, 1.5};
  CHECK_FALSE(blocked(scene.solids, inside, {1.2, -2, 1.5}));
  CHECK(blocked(scene.solids, inside, {-2, 1.5, 1.5}));
  CHECK(blocked(scene.solids, {3, 1.5, 1.5}, {3, 5, 1.5}));
  CHECK_FALSE(blocked(scene.solids, inside, {1.2, 5, 1.5}));
  CHECK(blocked(scene.solids, {1.2, 1.5, 0.5}, {1.2, 5, 0.5}));
  CHECK(blocked(scene.solids, {1.2, 1.5, 2.3}, {1.2, 5, 2.3}));
}

TEST_CASE("a door is shut until somebody comes to it") {
  Plan plan = room();
  const Vec3 from{2, 1.5, 1.2}, to{6, 1.5, 1.2};
  CHECK(blocked(solids_of(plan, Moment{0}).solids, from, to));
  add_person(plan, {3.9, 0.8}, {}, true);
  CHECK_FALSE(blocked(solids_of(plan, Moment{0}).solids, from, to));
}

TEST_CASE("the solids of an owner stand together, and nobody has any who is away") {
  Plan plan = room();
  add_person(plan, {1, 1}, {}, true);
  add_person(plan, {2, 1}, {}, false);
  plan.stage.pieces = {piece_of(PieceKind::table), piece_of(PieceKind::chair)};
  const SceneSolids scene = solids_of(plan, Moment{0});
  REQUIRE(scene.solids.size() == scene.owner.size());
  REQUIRE(scene.figures.size() == 2);
  CHECK(scene.figures[1].solids.empty());
  CHECK(owned_by(scene, Target::Kind::person, 1).empty());
  CHECK(owned_by(scene, Target::Kind::person, 0).size() == scene.figures[0].solids.size());
  std::vector<Target> order;
  for (const Target& owner : scene.owner) {
    if (order.empty() || !(order.back() == owner)) order.push_back(owner);
  }
  for (std::size_t i = 0; i < order.size(); ++i) {
    if (order[i].kind == Target::Kind::nothing) continue;
    CHECK(std::count(order.begin(), order.end(), order[i]) == 1);
  }
}

TEST_CASE("whoever sits at a table lays both hands on it") {
  Plan plan = room();
  Piece table = piece_of(PieceKind::table);
  table.at = {2, 2};
  table.height = Metres{0.75};
  Piece chair = piece_of(PieceKind::chair);
  chair.at = {2, 1.4};
  chair.seats = 1;
  plan.stage.pieces = {table, chair};
  add_person(plan, {2, 1.4}, {Posture::sitting, PieceId{1}}, true);
  const SceneSolids scene = solids_of(plan, Moment{0});
  int on_table = 0;
  for (const Solid& solid : scene.figures[0].solids) {
    if (solid.part != Part::hand) continue;
    CHECK(solid.a.z > 0.75);
    CHECK(solid.a.z < 0.90);
    if (solid.b.y > 1.7) ++on_table;
  }
  CHECK(on_table >= 4);
}

TEST_CASE("what somebody holds is in their hand") {
  Plan plan = room();
  const PersonId runa = add_person(plan, {2, 1}, {}, true);
  Prop letter;
  letter.name = "Letter";
  plan.stage.props.push_back(letter);
  plan.people[static_cast<std::size_t>(runa.index)].right_hand = still(Target{Target::Kind::prop, 0, {}});
  const SceneSolids scene = solids_of(plan, Moment{0});
  const std::vector<Solid> held = owned_by(scene, Target::Kind::prop, 0);
  REQUIRE(held.size() == 1);
  double nearest = 9;
  for (const Solid& solid : scene.figures[0].solids) {
    if (solid.part == Part::hand) nearest = std::min(nearest, length(solid.b - held.front().a));
  }
  CHECK(nearest < 0.15);
}

TEST_CASE("furniture of every kind fills its own measures and not much more") {
  for (int kind = 0; kind <= static_cast<int>(PieceKind::box); ++kind) {
    Piece piece = piece_of(static_cast<PieceKind>(kind));
    piece.at = {1, 2};
    piece.seats = 1;
    const std::vector<Solid> solids = solids_of(piece);
    INFO(spelling(piece.kind));
    REQUIRE_FALSE(solids.empty());
    for (const Solid& solid : solids) {
      CHECK(std::isfinite(solid.a.x + solid.b.y + solid.radii.z + solid.ra));
      if (solid.shape != Solid::Shape::frustum) CHECK(std::min({solid.radii.x, solid.radii.y, solid.radii.z}) > 0);
      CHECK(std::fabs(solid.a.x - 1) < 0.9);
      CHECK(std::fabs(solid.a.y - 2) < 0.7);
      CHECK(solid.a.z > -0.01);
      CHECK(solid.a.z < 1.35);
    }
  }
}

TEST_CASE("a piece of no size at all still has a solid of some") {
  Piece rug = piece_of(PieceKind::rug);
  rug.height = Metres{0};
  rug.length = Metres{0};
  for (const Solid& solid : solids_of(rug)) CHECK(std::min({solid.radii.x, solid.radii.y, solid.radii.z}) >= 0.005);
}
