#include "lens/dump.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "lens/scene_solids.h"
#include "scene.h"

namespace lensward {
namespace {

TEST_CASE("solids are printed by owner, with the lens and the lamps that are lit") {
  Scene scene({0, -3, 1.5}, 35_mm, FNumber{2.8}, 3_m);
  scene.person("Oda", {0, 0}, 1.7_m, 180_deg);
  scene.piece("Table", {1, 1}, 1.2_m, 0.8_m, 0.75_m).kind = PieceKind::table;
  scene.piece("Screen", {2, 1}, 1_m, 0.1_m, 1.6_m).see_through = true;
  scene.lamp({0, 0, 2.4}, Candela{300});
  scene.lamp({1, 0, 2.4}, Candela{0});
  const auto dump = dump_solids(scene.plan, Moment{500});
  CHECK(dump["schema"] == "lensward/solids/1");
  CHECK(dump["moment_ms"] == 500);
  CHECK(dump["camera"]["at_m"] == nlohmann::json({0.0, -3.0, 1.5}));
  REQUIRE(dump["lamps"].size() == 1);
  CHECK(dump["lamps"][0]["candela"] == 300.0);
  REQUIRE(dump["owners"].size() == 3);
  const auto& oda = dump["owners"][0];
  CHECK(oda["kind"] == "person");
  CHECK(oda["name"] == "Oda");
  CHECK(oda["solids"].size() == solids_of(scene.plan, Moment{500}).figures[0].solids.size());
  CHECK(oda["face_direction"][1].get<double>() < -0.9);
  CHECK(dump["owners"][1]["solids"].size() > 1);
  CHECK_FALSE(dump["owners"][1]["see_through"]);
  CHECK(dump["owners"][2]["see_through"]);
}

TEST_CASE("each solid prints all that its shape needs") {
  Scene scene({0, -3, 1.5}, 35_mm, FNumber{2.8}, 3_m);
  scene.person("Oda", {0, 0}, 1.7_m, 180_deg);
  scene.piece("Stool", {1, 1}, 0.4_m, 0.4_m, 0.5_m).kind = PieceKind::stool;
  const auto dump = dump_solids(scene.plan, Moment{});
  for (const auto& owner : dump["owners"]) {
    for (const auto& solid : owner["solids"]) {
      const std::string shape = solid["shape"];
      INFO(shape);
      CHECK(solid.contains("part"));
      CHECK(solid.contains("material"));
      const bool straight = shape == "box" || shape == "ellipsoid";
      for (const char* key : {"middle_m", "half_m", "axes"}) CHECK(solid.contains(key) == straight);
      for (const char* key : {"a_m", "ra_m", "b_m", "rb_m", "flat", "flat_axis"})
        CHECK(solid.contains(key) != straight);
    }
  }
}

}  // namespace
}  // namespace lensward
