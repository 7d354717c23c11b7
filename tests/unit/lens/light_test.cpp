#include "lens/light.h"

#include <catch2/catch.hpp>

#include "lens/see.h"
#include "scene.h"

using namespace lensward;

namespace {

const std::vector<SeenGroup> nothing_between;
const Vec3 upward{0, 0, 1};

Lux on_floor(const Scene& scene, Vec2 at) {
  return light_on(light_of(scene.plan, Moment{}), nothing_between, raised(at, 0), upward, {});
}

Scene under_lamp(double height, double candela, Lamp::Kind kind) {
  Scene scene({0, -5, 1.5}, 35_mm, FNumber{2.8}, 3_m);
  scene.lamp({0, 0, height}, Candela{candela}, kind);
  scene.plan.lamps[0].aim = always(Vec3{0, 0, 0});
  return scene;
}

}  // namespace

// Inverse square and cosine, worked by hand.
TEST_CASE("a practical shines all round") {
  const Scene scene = under_lamp(2, 100, Lamp::Kind::practical);
  CHECK(on_floor(scene, {0, 0}).value == Approx(25).epsilon(1e-9));
  CHECK(on_floor(scene, {2, 0}).value == Approx(100.0 / 8 * 0.70710678).epsilon(1e-6));
}

TEST_CASE("levels and lamps that are out") {
  Scene scene = under_lamp(2, 100, Lamp::Kind::practical);
  scene.plan.lamps[0].level = always(Share{0.5});
  CHECK(on_floor(scene, {0, 0}).value == Approx(12.5).epsilon(1e-9));
  scene.plan.lamps[0].level = always(Share{0});
  CHECK(light_of(scene.plan, Moment{}).lamps.empty());
  CHECK(on_floor(scene, {0, 0}).value == 0);
}

// A beam is counted to where half of the intensity is left (common practice of lamp makers, from memory).
TEST_CASE("a beam falls to half at its edge and to nothing beyond") {
  Scene scene = under_lamp(2, 400, Lamp::Kind::hard);
  scene.plan.stage.lamps[0].beam = Degrees{40};
  const auto whole_at = [](double off) { return 400 / 4.0 * power(cosine(Degrees{off}), 3); };
  const auto at = [&](double off) { return on_floor(scene, {2 * tangent(Degrees{off}), 0}).value; };
  CHECK(at(0) == Approx(100).epsilon(1e-9));
  CHECK(at(15) == Approx(whole_at(15)).epsilon(1e-9));
  CHECK(at(20) == Approx(whole_at(20) / 2).epsilon(1e-9));
  CHECK(at(25) == 0);
  CHECK(at(80) == 0);
}

// A small matte panel: E = I·cos(off axis)·cos(on the floor)/d², worked by hand; a panel much nearer than five times
// its size falls below that (the five-times rule, common practice).
TEST_CASE("a soft lamp gives less to the side") {
  Scene scene = under_lamp(2, 100, Lamp::Kind::soft);
  CHECK(on_floor(scene, {2, 0}).value == Approx(100.0 / 8 * 0.5).epsilon(1e-6));
  scene.plan.stage.lamps[0].across = 0.4_m;
  CHECK(on_floor(scene, {0, 0}).value == Approx(25).epsilon(0.02));
  scene.plan.stage.lamps[0].across = 4_m;
  CHECK(on_floor(scene, {0, 0}).value < 0.8 * 25);
}

// Behind the panel there is no light.
TEST_CASE("a soft lamp aimed up leaves the floor dark") {
  Scene scene = under_lamp(2, 100, Lamp::Kind::soft);
  scene.plan.lamps[0].aim = always(Vec3{0, 0, 5});
  CHECK(on_floor(scene, {0, 0}).value == 0);
}

// Φ = 4πI all round, 2π(1 − cos)I in a beam, πI of a matte panel (SI definitions).
TEST_CASE("light given in all") {
  LitLamp lamp;
  lamp.intensity = Candela{63.662};
  CHECK(flux_of(lamp) == Approx(800).epsilon(1e-4));
  lamp.axis = {0, 0, -1};
  CHECK(flux_of(lamp) == Approx(200).epsilon(1e-4));
  lamp.beamed = true;
  lamp.half_beam = 180_deg;
  CHECK(flux_of(lamp) == Approx(800).epsilon(1e-4));
}

// A photometric sphere's mean indirect light Φρ/(A(1 − ρ)), worked by hand: 800 lm in a room of 4 × 5 × 2.5 m has
// A = 85 m², so with ρ = 0.4 it is 6.27 lx. Dark walls give ρ = 0.15, light ones 0.7.
TEST_CASE("light that walls give back") {
  Scene scene = under_lamp(2, 800 / (4 * pi), Lamp::Kind::practical);
  scene.plan.stage.room.height = 2.5_m;
  CHECK(light_of(scene.plan, Moment{}).indirect.value == 0);
  const double rho[] = {0.15, 0.4, 0.7};
  const Tone tones[] = {Tone::dark, Tone::mid, Tone::light};
  for (int i = 0; i < 3; ++i) {
    scene.room(0, 0, 4, 5, tones[i]);
    CHECK(light_of(scene.plan, Moment{}).indirect.value == Approx(800 * rho[i] / (85 * (1 - rho[i]))).epsilon(1e-9));
  }
}

// ISO 15469:2004 type 1: an upright surface gets 0.396 of the light on level ground; and half of what ground of
// reflectance 0.2 gives back. 100 lx on the ground straight below, whichever way a face is turned.
TEST_CASE("an overcast day lights from all over") {
  Scene scene = under_lamp(20, 100 * 20 * 20, Lamp::Kind::soft);
  CHECK(light_of(scene.plan, Moment{}).indirect.value == 0);
  scene.plan.facts.exterior = true;
  CHECK(light_of(scene.plan, Moment{}).indirect.value == Approx(49.6).epsilon(1e-6));
  scene.plan.facts.hour = "night";
  CHECK(light_of(scene.plan, Moment{}).indirect.value == 0);
  scene.plan.facts.hour = "dusk";
  scene.room(0, 0, 4, 5, Tone::dark);
  CHECK(light_of(scene.plan, Moment{}).indirect.value != Approx(49.6));
}

// Geometry: the counter stands between a low lamp and the face, not between a high one and it.
TEST_CASE("furniture keeps light from a face") {
  Scene scene({0, -5, 1.5}, 35_mm, FNumber{2.8}, 3_m);
  scene.person("Oda", {0, 0}, 1.7_m, 180_deg);
  scene.piece("Wall-unit", {0, -1}, 2_m, 0.3_m, 1.9_m);
  scene.lamp({0, -2, 1.0}, Candela{500});
  CHECK(see(scene.plan, Moment{}).people[0].incident.value == 0);
  scene.plan.lamps[0].place = always(Vec3{0, -2, 3.0});
  CHECK(see(scene.plan, Moment{}).people[0].incident.value > 20);
  scene.plan.lamps[0].place = always(Vec3{0, -2, 1.0});
  scene.plan.stage.pieces[0].see_through = true;
  CHECK(see(scene.plan, Moment{}).people[0].incident.value > 20);
}

TEST_CASE("a fire lights from inside its fireplace") {
  Scene scene({0, -5, 1.5}, 35_mm, FNumber{2.8}, 3_m);
  scene.person("Oda", {0, 0}, 1.7_m, 180_deg);
  scene.piece("Hearth", {0, -2}, 1_m, 0.5_m, 1_m);
  scene.lamp({0, -2, 0.5}, Candela{500});
  CHECK(see(scene.plan, Moment{}).people[0].incident.value > 20);
  scene.plan.lamps[0].place = always(Vec3{0, -3.5, 0.5});
  CHECK(see(scene.plan, Moment{}).people[0].incident.value == 0);
}

// More light, never less, from one lamp more; light falls with distance. Both hold whatever the formulas.
TEST_CASE("light grows with lamps and falls with distance") {
  Scene scene({0, -5, 1.5}, 35_mm, FNumber{2.8}, 3_m);
  scene.person("Oda", {0, 0}, 1.7_m, 180_deg);
  scene.lamp({1, -2, 2.4}, Candela{300});
  const double one = see(scene.plan, Moment{}).people[0].incident.value;
  scene.lamp({-1, -3, 2.0}, Candela{100});
  const double two = see(scene.plan, Moment{}).people[0].incident.value;
  CHECK(two > one);
  scene.plan.people[0].feet = always(Walk{{Vec2{0, 2}}});
  CHECK(see(scene.plan, Moment{}).people[0].incident.value < two);
}
