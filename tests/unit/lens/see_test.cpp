#include "lens/see.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "lens/dump.h"
#include "lens/raster.h"
#include "lens/scene_solids.h"
#include "scene.h"

using namespace lensward;

namespace {

constexpr Degrees south{180};

Scene room_for_one(Metres away, Millimetres focal = 35_mm) {
  Scene scene({0, 0, 1.5}, focal, FNumber{2.8}, away);
  scene.person("Oda", {0, away.value}, 1.75_m, south);
  return scene;
}

PersonSeen first(const Scene& scene, Moment moment = {}) { return see(scene.plan, moment).people.at(0); }

bool finite(const Box& box) {
  return std::isfinite(box.left) && std::isfinite(box.top) && std::isfinite(box.right) && std::isfinite(box.bottom);
}

bool finite(const PersonSeen& seen) {
  const double numbers[] = {seen.distance.value,
                            seen.eyes.u,
                            seen.eyes.v,
                            seen.head_height.value,
                            seen.head_in_frame.value,
                            seen.head_visible.value,
                            seen.body_visible.value,
                            seen.head_and_chest_visible.value,
                            seen.face_angle.value,
                            seen.body_angle.value,
                            seen.blur.value,
                            seen.blur_of_frame.value,
                            seen.blur_of_head.value,
                            seen.incident.value,
                            seen.luminance.value,
                            seen.exposure.value,
                            seen.against_behind.value,
                            seen.screen_speed,
                            seen.gap};
  return finite(seen.body_box) && finite(seen.head_box) &&
         std::all_of(std::begin(numbers), std::end(numbers), [](double n) { return std::isfinite(n); });
}

void check_sane(const View& view) {
  for (const PersonSeen& seen : view.people) {
    INFO(view.moment.count << " ms, person " << seen.person.index);
    CHECK(finite(seen));
    for (const Share share : {seen.head_in_frame, seen.head_visible, seen.body_visible, seen.head_and_chest_visible}) {
      CHECK(share.value >= 0);
      CHECK(share.value <= 1);
    }
    CHECK(seen.head_visible.value <= seen.head_in_frame.value);
    CHECK(seen.gap >= 0);
    CHECK(seen.gap <= 1);
  }
  for (const ThingSeen& seen : view.things) {
    CHECK(finite(seen.box));
    CHECK(std::isfinite(seen.middle.u + seen.middle.v + seen.distance.value + seen.blur.value));
    CHECK((seen.visible.value >= 0 && seen.visible.value <= 1));
  }
}

}  // namespace

TEST_CASE("one person alone is seen whole") {
  const PersonSeen seen = first(room_for_one(9_m));
  CHECK(seen.body_visible.value == 1);
  CHECK(seen.head_visible.value == 1);
  CHECK(seen.head_and_chest_visible.value == 1);
  CHECK(seen.masked_by.empty());
  CHECK(seen.gap == 1);
  CHECK(seen.view == BodyView::frontal);
}

// Head share of the frame's height, head·f/(d·gate): a head of 0.2364 m is that of stature 1.8185 (chin at 0.870 of
// it). The figure's face stands 8 cm before its middle, so the distance is measured to the chin.
TEST_CASE("the height of a head in the picture") {
  struct Row {
    double focal, away, share;
  };
  const Row rows[] = {{50, 2, 0.4393}, {50, 3, 0.2928}, {35, 3, 0.2050}, {85, 3, 0.4978}, {25, 4, 0.1098}};
  for (const Row& row : rows) {
    Scene scene({0, 0, 1.7}, Millimetres{row.focal}, FNumber{2.8}, 3_m);
    scene.person("Oda", {0, row.away}, Metres{0.2364 / 0.13}, south);
    CHECK(first(scene).head_height.value == Approx(row.share).epsilon(0.045));
  }
}

// Half of a symmetrical body stands on either side of its middle plane; the plane is put on the frame's edge by aiming
// half the angle of view aside, 2·atan(d/2f).
TEST_CASE("a body cut in half by the frame's edge") {
  Scene scene({0, 0, 1.2}, 35_mm, FNumber{2.8}, 9_m, arc_tangent(24.89, 2 * 35.0));
  scene.person("Oda", {0, 9}, 1.75_m, south);
  const PersonSeen seen = first(scene);
  CHECK(seen.body_visible.value == Approx(0.5).margin(0.06));
  CHECK(seen.head_in_frame.value == Approx(0.5).margin(0.1));
  CHECK(seen.head_visible.value == seen.head_in_frame.value);
  CHECK(seen.masked_by.empty());
}

// What leaves the frame counts against the share: in a close-up the body is mostly out of it.
TEST_CASE("a close-up shows the head and little of the body") {
  Scene scene({0, 0, 1.6}, 85_mm, FNumber{2.8}, 2_m);
  scene.person("Oda", {0, 2}, 1.75_m, south);
  const PersonSeen seen = first(scene);
  CHECK(seen.head_in_frame.value > 0.9);
  CHECK(seen.body_visible.value < 0.35);
  CHECK(seen.body_visible.value > 0.05);
  CHECK(seen.body_box.bottom > 3);
}

// The pixels of one picture that show some parts.
struct Counted {
  int pixels = 0, in_frame = 0;
  double left = 1e9, top = 1e9, bottom = -1e9;
};

class FinePicture {
 public:
  FinePicture(const std::vector<Solid>& solids, const Pinhole& lens) : solids_(solids) {
    double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
    for (const OutlineBounds& bounds : bounds_of(solids, lens)) {
      left = std::min(left, bounds.left);
      top = std::min(top, bounds.top);
      right = std::max(right, bounds.right);
      bottom = std::max(bottom, bounds.bottom);
    }
    window_.left = static_cast<int>(std::floor(left * width));
    window_.top = static_cast<int>(std::floor(top * height));
    window_.width = static_cast<int>(std::ceil(right * width)) - window_.left;
    window_.height = static_cast<int>(std::ceil(bottom * height)) - window_.top;
    raster_ = rasterise(solids, lens, width, height, window_);
  }

  Counted count(bool (*counts)(Part)) const {
    Counted counted;
    for (int y = 0; y < raster_.height; ++y) {
      for (int x = 0; x < raster_.width; ++x) {
        const std::int32_t solid = raster_.solid_at(x, y);
        if (solid < 0 || !counts(solids_[static_cast<std::size_t>(solid)].part)) continue;
        const int column = x + window_.left, row = y + window_.top;
        ++counted.pixels;
        if (column >= 0 && column < width && row >= 0 && row < height) ++counted.in_frame;
        counted.left = std::min(counted.left, static_cast<double>(column) / width);
        counted.top = std::min(counted.top, static_cast<double>(row) / height);
        counted.bottom = std::max(counted.bottom, static_cast<double>(row + 1) / height);
      }
    }
    return counted;
  }

 private:
  static constexpr int width = 800, height = 432;
  const std::vector<Solid>& solids_;
  CellWindow window_;
  Raster raster_;
};

// The same solids over one even field, ten times as fine: a check of the coarse strips out of frame and of the cells.
TEST_CASE("shares agree with a finer picture") {
  const double focals[] = {25, 50, 85, 135};
  for (const double focal : focals) {
    Scene scene({0.1, 0, 1.5}, Millimetres{focal}, FNumber{2.8}, 3_m, Degrees{6}, Degrees{-3});
    scene.person("Oda", {0, 3}, 1.75_m, Degrees{150});
    const PersonSeen seen = first(scene);
    const SceneSolids solids = solids_of(scene.plan, Moment{});
    const Pinhole lens = pinhole_of(camera_at(scene.plan, CameraId{0}, Moment{}));
    const FinePicture fine(solids.solids, lens);
    const Counted body = fine.count([](Part) { return true; });
    const Counted head = fine.count([](Part part) { return part == Part::face || part == Part::hair; });
    INFO(focal << " mm");
    CHECK(seen.body_visible.value == Approx(static_cast<double>(body.in_frame) / body.pixels).margin(0.012));
    CHECK(seen.head_in_frame.value == Approx(static_cast<double>(head.in_frame) / head.pixels).margin(0.02));
    CHECK(seen.head_box.left == Approx(head.left).margin(0.003));
    CHECK(seen.head_box.bottom == Approx(head.bottom).margin(0.006));
    CHECK(seen.body_box.top == Approx(body.top).margin(0.006));
  }
}

// Occlusion by height, c + (e − c)·d1/d2 against the occluder's crown: lens at 1.5, eyes of 1.64 at 4 m, someone at 2 m
// of 1.70 hides them by 0.13 m, of 1.55 leaves them clear by 0.02 m. The lens is raised where a crown is rounder.
TEST_CASE("a taller person before a face hides it") {
  Scene scene({0, 0, 1.5}, 35_mm, FNumber{2.8}, 4_m);
  scene.person("Oda", {0, 4}, Metres{1.64 / 0.936}, south);
  scene.person("Ivo", {0, 2}, 1.7_m, south);
  const PersonSeen hidden = first(scene);
  CHECK(hidden.head_visible.value < 0.1);
  CHECK(hidden.head_in_frame.value == 1);
  REQUIRE_FALSE(hidden.masked_by.empty());
  CHECK(hidden.masked_by[0] == Target{Target::Kind::person, 1, {}});
  CHECK(see(scene.plan, Moment{}).people[1].masked_by.empty());

  scene.plan.stage.people[1].stature = 1.2_m;
  CHECK(first(scene).head_visible.value > 0.9);
}

TEST_CASE("who hides the face is named before who hides the legs") {
  Scene scene({0, 0, 1.5}, 35_mm, FNumber{2.8}, 6_m);
  scene.person("Oda", {0, 6}, 1.75_m, south);
  scene.person("Ivo", {0.12, 3}, 1.75_m, south);
  scene.piece("Counter", {0, 5}, 4_m, 0.6_m, 0.9_m);
  const PersonSeen seen = first(scene);
  REQUIRE(seen.masked_by.size() == 2);
  CHECK(seen.masked_by[0] == Target{Target::Kind::person, 1, {}});
  CHECK(seen.masked_by[1] == Target{Target::Kind::piece, 0, {}});
}

TEST_CASE("glass hides nothing") {
  Scene scene({0, 0, 1.5}, 35_mm, FNumber{2.8}, 6_m);
  scene.person("Oda", {0, 6}, 1.75_m, south);
  scene.piece("Screen", {0, 4}, 4_m, 0.1_m, 2.2_m);
  CHECK(first(scene).body_visible.value < 0.05);
  scene.plan.stage.pieces[0].see_through = true;
  CHECK(first(scene).body_visible.value > 0.7);
}

// Positions of the body as the picture shows them: 25, 65, 115 and 155 degrees part the five (a project default). Frame
// right is plan east for a lens that looks north.
TEST_CASE("turns of the body to the lens") {
  struct Row {
    double bearing, angle;
    BodyView view;
  };
  const Row rows[] = {
      {180, 0, BodyView::frontal},
      {160, 20, BodyView::frontal},
      {135, 45, BodyView::three_quarter},
      {90, 90, BodyView::profile},
      {270, -90, BodyView::profile},
      {225, -45, BodyView::three_quarter},
      {45, 135, BodyView::three_quarter_back},
      {0, 180, BodyView::back},
  };
  for (const Row& row : rows) {
    Scene scene({0, 0, 1.5}, 35_mm, FNumber{2.8}, 4_m);
    scene.person("Oda", {0, 4}, 1.75_m, Degrees{row.bearing});
    const PersonSeen seen = first(scene);
    CHECK(seen.body_angle.value == Approx(row.angle).margin(1e-6));
    CHECK(seen.view == row.view);
  }
}

// A walker's lateral speed v·f/(d·W), in widths a second.
TEST_CASE("a walker crosses the screen") {
  struct Row {
    double speed, focal, away, widths;
  };
  const Row rows[] = {{1.35, 35, 4, 0.4746}, {1.35, 50, 5, 0.5424}, {1.35, 25, 6, 0.2260}};
  for (const Row& row : rows) {
    Scene scene({0, 0, 1.6}, Millimetres{row.focal}, FNumber{2.8}, 4_m);
    PersonTrack& walker = scene.person("Oda", {-1.35, row.away}, 1.75_m, 90_deg);
    const Walk walk{{Vec2{-1.35, row.away}, Vec2{1.35, row.away}}};
    walker.feet = changing(Moment{}, Moment{2000}, walk, walk);
    CHECK(first(scene, Moment{1000}).screen_speed == Approx(row.widths).margin(1e-3));
    CHECK(first(scene, Moment{3000}).screen_speed == 0);
  }
}

// A pan at W/f/7 radians a second carries the middle of the frame over a seventh of it a second (the seven-second
// rule).
TEST_CASE("a pan moves those who stand still") {
  Scene scene = room_for_one(4_m);
  const double rate = 24.89 / 35 / 7 * 180 / pi;
  scene.plan.cameras[0].aim = changing(Moment{}, Moment{2000}, Vec2{-rate, 0}, Vec2{rate, 0});
  CHECK(first(scene, Moment{1000}).screen_speed == Approx(1.0 / 7).margin(1e-4));
}

TEST_CASE("sitting down is seen as one even sink") {
  Scene scene = room_for_one(4_m);
  scene.piece("Chair", {0, 4}, 0.45_m, 0.45_m, 0.9_m).seats = 1;
  scene.plan.people[0].stance = changing(Moment{1000}, Moment{2000}, Stance{}, Stance{Posture::sitting, PieceId{0}});
  const double early = first(scene, Moment{1200}).screen_speed;
  CHECK(early > 0.05);
  CHECK(early < 0.4);
  CHECK(first(scene, Moment{1500}).screen_speed == Approx(early).epsilon(0.2));
  CHECK(first(scene, Moment{2500}).screen_speed == 0);
}

TEST_CASE("clear space between outlines") {
  Scene scene({0, 0, 1.2}, 35_mm, FNumber{2.8}, 9_m);
  scene.person("Oda", {-2, 9}, 1.75_m, south);
  scene.person("Ivo", {0.5, 9}, 1.75_m, south);
  const View apart = see(scene.plan, Moment{});
  // 2.5 m between middles less a breadth of 0.4 to 0.7 m, in a frame 9·24.89/35 = 6.4 m wide.
  CHECK(apart.people[0].gap > (2.5 - 0.7) / 6.4);
  CHECK(apart.people[0].gap < (2.5 - 0.4) / 6.4);
  CHECK(apart.people[1].gap == apart.people[0].gap);
  scene.plan.people[1].feet = always(Walk{{Vec2{-1.8, 8}}});
  CHECK(first(scene).gap == 0);
}

TEST_CASE("a dark dress behind makes a face stand out and a light one does not") {
  Scene scene({0, 0, 1.5}, 50_mm, FNumber{2.8}, 2_m);
  scene.person("Oda", {0, 2}, 1.6_m, south);
  scene.person("Ivo", {0, 2.6}, 2.4_m, south);
  scene.lamp({0, 0, 2.5}, Candela{800});
  scene.plan.stage.people[1].dress = Tone::dark;
  const double on_dark = first(scene).against_behind.value;
  scene.plan.stage.people[1].dress = Tone::light;
  const double on_light = first(scene).against_behind.value;
  CHECK(on_dark > on_light + 1);
}

TEST_CASE("a letter on a table is seen until someone stands before it") {
  Scene scene({0, 0, 1.6}, 50_mm, FNumber{2.8}, 3_m, {}, Degrees{-15});
  scene.piece("Table", {0, 3}, 1.2_m, 0.8_m, 0.75_m);
  Prop letter;
  letter.name = "Letter";
  letter.length = 0.22_m;
  letter.depth = 0.11_m;
  letter.height = 0.01_m;
  scene.plan.stage.props.push_back(letter);
  PropTrack track;
  track.rests = always(Target{Target::Kind::piece, 0, {}});
  scene.plan.props.push_back(track);
  scene.person("Oda", {1.0, 3.4}, 1.75_m, south);
  Intent plant;
  plant.kind = Intent::Kind::plant;
  plant.targets = {Target{Target::Kind::prop, 0, {}}};
  scene.plan.intents.push_back(plant);

  const View view = see(scene.plan, Moment{});
  REQUIRE(view.things.size() == 1);
  CHECK(view.things[0].visible.value > 0.9);
  CHECK(view.things[0].middle.u == Approx(0.5).margin(0.01));
  CHECK(view.things[0].box.right > view.things[0].box.left);

  scene.plan.people[0].feet = always(Walk{{Vec2{0, 2}}});
  const View covered = see(scene.plan, Moment{});
  CHECK(covered.things[0].visible.value == 0);
  CHECK(covered.things[0].box.right == 0);
}

TEST_CASE("nothing to see is no error") {
  CHECK(see(Plan{}, Moment{}).people.empty());
  Scene scene = room_for_one(4_m);
  scene.plan.people[0].present = always(false);
  CHECK(see(scene.plan, Moment{}).people.empty());
  scene.plan.people[0].present = always(true);
  scene.plan.people[0].feet = always(Walk{{Vec2{0, -4}}});
  CHECK_FALSE(first(scene).in_front);
  CHECK(first(scene).head_visible.value == 0);
}

TEST_CASE("odd plans give finite numbers") {
  const double statures[] = {0.2, 1.7, 2.6};
  const Vec2 places[] = {{0, 0}, {0, 0.05}, {0, -1}, {0.3, 0.2}, {0, 3}, {0, 900}, {40, 1}};
  const double focals[] = {0, 8, 35, 600};
  for (const double stature : statures) {
    for (const Vec2 place : places) {
      for (const double focal : focals) {
        Scene scene({0, 0, 1.5}, Millimetres{focal}, FNumber{0}, 0_m);
        scene.person("Oda", place, Metres{stature}, south);
        scene.person("Ivo", {0.1, 2}, 1.7_m, 0_deg);
        scene.piece("Box", {0, 0}, 1_m, 1_m, 2_m);
        scene.lamp({place.x, place.y, 1.6}, Candela{100});
        INFO(stature << " m tall at " << place.x << ", " << place.y << ", " << focal << " mm");
        check_sane(see(scene.plan, Moment{}));
      }
    }
  }
}

TEST_CASE("a crowd of 64 and no light") {
  Scene scene({0, -2, 1.7}, 25_mm, FNumber{2.8}, 4_m);
  for (int i = 0; i < 64; ++i) {
    scene.person("P" + std::to_string(i), {(i % 8 - 3.5) * 0.7, 1 + (i / 8) * 0.7}, 1.7_m, south);
  }
  const View view = see(scene.plan, Moment{});
  REQUIRE(view.people.size() == 64);
  check_sane(view);
  for (const PersonSeen& seen : view.people) {
    CHECK(seen.incident.value == 0);
    CHECK(seen.exposure.value == -20);
    CHECK(seen.against_behind.value == 0);
  }
}

// What was drawn before is a saving and never a difference.
TEST_CASE("views that share drawings are the same views") {
  Scene scene({0, 0, 1.5}, 35_mm, FNumber{2.8}, 3_m);
  PersonTrack& walker = scene.person("Oda", {-2, 4}, 1.75_m, 90_deg);
  const Walk walk{{Vec2{-2, 4}, Vec2{2, 3}}};
  walker.feet = changing(Moment{1000}, Moment{3000}, walk, walk);
  scene.person("Ivo", {0, 5}, 1.8_m, south);
  scene.plan.people[1].eyes = always(Gaze{Gaze::Manner::at_target, {Target::Kind::person, 0, {}}});
  scene.person("Pell", {1, 3.5}, 1.65_m, south);
  scene.plan.people[2].present = changing(Moment{2000}, Moment{2000}, false, true);
  scene.lamp({1, 1, 2.4}, Candela{500});
  // Looked at, and passed before by Oda.
  scene.piece("Counter", {0.5, 4.5}, 1_m, 0.4_m, 0.9_m);
  scene.plan.people[2].eyes = always(Gaze{Gaze::Manner::at_target, {Target::Kind::piece, 0, {}}});
  scene.plan.cameras[0].place = changing(Moment{2500}, Moment{4000}, Vec3{0, 0, 1.5}, Vec3{0.5, 0, 1.5});
  std::vector<Moment> there_and_back;
  for (int ms = 0; ms <= 4500; ms += 83) there_and_back.push_back(Moment{ms});
  for (int ms = 4500; ms >= 0; ms -= 750) there_and_back.push_back(Moment{ms});
  Onlooker onlooker;
  for (const Moment moment : there_and_back) CHECK(onlooker.see(scene.plan, moment) == see(scene.plan, moment));

  // Another plan of the same stage: somebody stands elsewhere and looks at something else.
  Plan elsewhere = scene.plan;
  elsewhere.people[1].feet = always(Walk{{Vec2{0.4, 3.2}}});
  elsewhere.people[1].eyes = always(Gaze{Gaze::Manner::ahead, {}});
  elsewhere.people[2].eyes = always(Gaze{Gaze::Manner::ahead, {}});
  Onlooker of_both(3);
  for (const Moment moment : there_and_back) {
    CHECK(of_both.see(scene.plan, moment) == see(scene.plan, moment));
    CHECK(of_both.see(elsewhere, moment) == see(elsewhere, moment));
  }
}

// Far out of frame there is nothing behind a head, and no corner of the picture to read instead.
TEST_CASE("somebody far out of the picture is seen against themselves") {
  Scene scene({0, 0, 1.5}, 200_mm, FNumber{2.8}, 6_m);
  scene.person("Anna", {9, 4}, 1.7_m, south);
  scene.person("Ben", {-0.33, 6}, 1.75_m, south);
  scene.lamp({0, 1, 2.4}, Candela{900});
  const View view = see(scene.plan, Moment{});
  CHECK(view.people[0].head_box == Box{});
  CHECK(view.people[0].against_behind.value == 0);
}

// What shows at a point of the picture is what shows at its cell's middle: whoever is remembered must be remembered
// with all who may show there.
TEST_CASE("a small body passed behind is seen anew") {
  Scene scene({0, 0, 1.5}, 18_mm, FNumber{2.8}, 6_m);
  scene.person("Anna", {45.2, 70}, 1.7_m, south);
  PersonTrack& passer = scene.person("Ben", {40, 74}, 1.75_m, 90_deg);
  const Walk walk{{Vec2{40, 74}, Vec2{56, 74}}};
  passer.feet = changing(Moment{0}, Moment{12000}, walk, walk);
  scene.lamp({30, 40, 6}, Candela{90000});
  Onlooker onlooker;
  for (int ms = 0; ms <= 12000; ms += 125) CHECK(onlooker.see(scene.plan, Moment{ms}) == see(scene.plan, Moment{ms}));
}

// A mirrored scene gives a mirrored picture: places at 1 − u, the same shares.
TEST_CASE("left and right are alike") {
  const auto seen_from = [](double side) {
    Scene scene({0, 0, 1.5}, 35_mm, FNumber{2.8}, 4_m);
    scene.person("Oda", {side * 1.3, 4}, 1.75_m, Degrees{180 + side * 40});
    scene.person("Ivo", {side * 0.9, 3}, 1.6_m, Degrees{180 - side * 70});
    scene.lamp({side * 2, 1, 2.2}, Candela{700});
    return see(scene.plan, Moment{});
  };
  const View east = seen_from(1), west = seen_from(-1);
  for (std::size_t i = 0; i < 2; ++i) {
    CHECK(east.people[i].eyes.u == Approx(1 - west.people[i].eyes.u).margin(1e-9));
    CHECK(east.people[i].body_angle.value == Approx(-west.people[i].body_angle.value).margin(1e-9));
    CHECK(east.people[i].incident.value == Approx(west.people[i].incident.value).epsilon(1e-6));
    CHECK(east.people[i].head_visible.value == Approx(west.people[i].head_visible.value).margin(0.04));
  }
}

TEST_CASE("the printed view") {
  const Scene scene = room_for_one(4_m);
  const auto dumped = dump_view(scene.plan, see(scene.plan, Moment{1500}));
  CHECK(dumped["schema"] == "lensward/view/1");
  CHECK(dumped["moment_ms"] == 1500);
  CHECK(dumped["camera"]["name"] == "A");
  REQUIRE(dumped["people"].size() == 1);
  CHECK(dumped["people"][0]["name"] == "Oda");
  CHECK(dumped["people"][0]["view"] == "frontal");
  CHECK(dumped["people"][0]["distance_m"].dump().size() <= 6);
  CHECK(dump_view(Plan{}, see(Plan{}, Moment{}))["camera"].is_null());
}
