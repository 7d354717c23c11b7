// A scene whose numbers were worked out apart from the program (projections also by OpenCV and three.js). Camera at
// (0, 0, 1.5) looking north, 35 mm on 24.89 × 13.454 mm, 1998 × 1080 pixels, f/2.8 focused at 3 m, circle 0.025 mm.
// Lamp of 1000 cd all round at (-2, 1.5, 2.4). Eyes are at 0.936 of stature over the feet, chins at 0.870; faces are
// level.
#include <catch2/catch.hpp>

#include "lens/scene_solids.h"
#include "lens/see.h"
#include "optics/focus.h"
#include "optics/light.h"
#include "scene.h"

using namespace lensward;

namespace {

struct Golden {
  const char* name;
  Vec2 at;
  double stature;
  Vec2 faces;
  double u_pixels, v_pixels, head_pixels, blur, lux, face_angle;
  BodyView view;
};

const Golden golden[] = {
    {"A", {-0.6, 3.0}, 1.75, {0.35, -1}, 437.09, 410.76, 213.06, 0, 90.915, 8.385, BodyView::frontal},
    {"B", {0.9, 5.0}, 1.65, {-1, -0.6}, 1504.72, 515.05, 120.53, 0.05902, 43.333, 48.834, BodyView::three_quarter},
    {"C", {0.2, 4.0}, 1.80, {0, 1}, 1139.48, 410.20, 164.36, 0.03689, 0, 176.106, BodyView::back},
};
const Vec3 lens_at{0, 0, 1.5}, lamp_at_point{-2, 1.5, 2.4};

Pinhole golden_lens() {
  Pinhole lens;
  lens.at = lens_at;
  lens.gate_width = Millimetres{24.89};
  lens.gate_height = Millimetres{24.89 * 1080 / 1998};
  return lens;
}

Scene golden_scene() {
  Scene scene(lens_at, 35_mm, FNumber{2.8}, 3_m);
  for (const Golden& one : golden) scene.person(one.name, one.at, Metres{one.stature}, bearing_of(one.faces));
  scene.lamp(lamp_at_point, Candela{1000});
  return scene;
}

}  // namespace

TEST_CASE("the golden scene by its formulas") {
  for (const Golden& one : golden) {
    INFO(one.name);
    const Vec3 eyes = raised(one.at, 0.936 * one.stature);
    const auto projected = project(golden_lens(), eyes);
    REQUIRE(projected);
    CHECK(projected->at.u * 1998 == Approx(one.u_pixels).margin(0.01));
    CHECK(projected->at.v * 1080 == Approx(one.v_pixels).margin(0.01));
    const auto crown = project(golden_lens(), raised(one.at, one.stature));
    const auto chin = project(golden_lens(), raised(one.at, 0.870 * one.stature));
    CHECK((chin->at.v - crown->at.v) * 1080 == Approx(one.head_pixels).margin(0.01));
    CHECK(blur_disc(35_mm, FNumber{2.8}, 3_m, projected->depth).value == Approx(one.blur).margin(1e-5));
    const Vec3 faces = raised(unit(one.faces), 0);
    CHECK(illuminance(Candela{1000}, lamp_at_point, eyes, faces).value == Approx(one.lux).margin(1e-3));
    CHECK(arc_cosine(dot(faces, unit(lens_at - eyes))).value == Approx(one.face_angle).margin(1e-3));
  }
  const SharpRange sharp = sharp_range(35_mm, FNumber{2.8}, 0.025_mm, 3_m);
  CHECK(sharp.near.value == Approx(2.5654).margin(1e-4));
  CHECK(sharp.far->value == Approx(3.6120).margin(1e-4));
  CHECK(angle_of_view(24.89_mm, 35_mm).value == Approx(39.1479).margin(1e-4));
  CHECK(angle_of_view(golden_lens().gate_height, 35_mm).value == Approx(21.7592).margin(1e-4));
  const Lux asked = asked_for(FNumber{2.8}, 800, Seconds{1.0 / 48});
  CHECK(stops_between(90.915, asked.value).value == Approx(-0.371).margin(1e-3));
  CHECK(stops_between(43.333, asked.value).value == Approx(-1.440).margin(1e-3));
}

// A figure's eyes lie before the middle of the body, those of the table over it: 8 cm, which moves a projection by up
// to 1.5 % of the width and the light by up to 5 %.
TEST_CASE("the golden scene as it is seen") {
  const Scene scene = golden_scene();
  const View view = see(scene.plan, Moment{});
  REQUIRE(view.people.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    const Golden& one = golden[i];
    const PersonSeen& seen = view.people[i];
    INFO(one.name);
    CHECK(seen.in_front);
    CHECK(seen.eyes.u == Approx(one.u_pixels / 1998).margin(0.015));
    CHECK(seen.eyes.v == Approx(one.v_pixels / 1080).margin(0.007));
    CHECK(seen.head_height.value == Approx(one.head_pixels / 1080).epsilon(0.035));
    CHECK(seen.blur.value == Approx(one.blur).margin(0.004));
    CHECK(seen.face_angle.value == Approx(one.face_angle).margin(0.8));
    CHECK(seen.view == one.view);
  }
  CHECK(view.people[0].incident.value == Approx(90.915).epsilon(0.05));
  CHECK(view.people[0].exposure.value == Approx(-0.371).margin(0.07));
  CHECK(view.people[2].incident.value == 0);
  CHECK(view.people[2].exposure.value == -20);
}

// The same formulas at the place where the figure's eyes are, so that nothing is left to a tolerance. C, whose back is
// to the lens, steps out of the lamp's way.
TEST_CASE("the golden scene at the figure's own eyes") {
  Scene scene = golden_scene();
  scene.plan.people[2].feet = always(Walk{{Vec2{1.6, 4.0}}});
  const View view = see(scene.plan, Moment{});
  const SceneSolids scene_solids = solids_of(scene.plan, Moment{});
  for (std::size_t i = 0; i < 2; ++i) {
    const Golden& one = golden[i];
    INFO(one.name);
    const Vec3 faces = raised(unit(one.faces), 0);
    const Vec3 eyes = scene_solids.figures[i].eyes;
    CHECK(length(eyes - raised(one.at, 0.936 * one.stature)) < 0.09);
    CHECK(eyes.z == Approx(0.936 * one.stature).margin(0.002));
    const auto projected = project(pinhole_of(view.state), eyes);
    CHECK(view.people[i].eyes.u == Approx(projected->at.u).margin(1e-9));
    CHECK(view.people[i].eyes.v == Approx(projected->at.v).margin(1e-9));
    CHECK(view.people[i].blur.value ==
          Approx(blur_disc(35_mm, FNumber{2.8}, 3_m, projected->depth).value).margin(1e-9));
    const Lux lit = illuminance(Candela{1000}, lamp_at_point, eyes, faces);
    CHECK(view.people[i].incident.value == Approx(lit.value).epsilon(1e-9));
    CHECK(view.people[i].luminance.value == Approx(0.18 * lit.value / pi).epsilon(1e-9));
    CHECK(view.people[i].exposure.value == Approx(lensward::log2(lit.value / 117.6)).margin(1e-9));
  }
}

// Geometry: three quarters of the way from the lamp to B's eyes the ray passes (0.11, 4.07) at a height of 1.76 m.
TEST_CASE("C's head keeps the lamp from B's face") {
  Scene scene = golden_scene();
  scene.plan.people[2].feet = always(Walk{{Vec2{0.11, 4.07}}});
  CHECK(see(scene.plan, Moment{}).people[1].incident.value == 0);
  scene.plan.people[2].feet = always(Walk{{Vec2{1.6, 4.0}}});
  const PersonSeen lit = see(scene.plan, Moment{}).people[1];
  CHECK(lit.incident.value == Approx(43.333).epsilon(0.05));
  CHECK(lit.exposure.value == Approx(-1.440).margin(0.07));
}

// C's axis passes 0.5118 m from the line from the camera to B, further than half a body's breadth (0.255 m, ANSUR II).
TEST_CASE("C does not mask B") {
  const View view = see(golden_scene().plan, Moment{});
  CHECK(view.people[1].head_visible.value == Approx(1).margin(0.01));
  CHECK(view.people[1].head_and_chest_visible.value == Approx(1).margin(0.02));
}
