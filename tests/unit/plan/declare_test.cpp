#include "plan/declare.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "base/quantity_text.h"
#include "optics/light.h"
#include "plan/floor.h"
#include "plan/kinds.h"
#include "tests/unit/plan/declared_scene.h"

using namespace lensward;

namespace {

const char* const draft =
    "people Oda, Tobias, Wren, Jun, Pell\n"
    "room 7 m by 5 m\n"
    "furniture Range, stove, deep, frame left\n"
    "furniture Table, centre\n"
    "furniture Sink, deep, frame right\n";

int count_of(const DeclaredScene& scene, const std::string& rule) {
  int count = 0;
  for (const Finding& finding : scene.findings.all()) count += finding.rule == rule ? 1 : 0;
  return count;
}

void check_at(Vec2 at, double x, double y) {
  INFO("(" << at.x << ", " << at.y << ")");
  CHECK(at.x == Approx(x).margin(0.006));
  CHECK(at.y == Approx(y).margin(0.006));
}

}  // namespace

TEST_CASE("the draft's silences each have a default, told once") {
  DeclaredScene scene(draft);
  const Stage& stage = scene.plan.stage;
  REQUIRE(stage.people.size() == 5);
  REQUIRE(stage.cameras.size() == 1);
  CHECK(stage.cameras[0].name == "A");
  CHECK(stage.lamps.size() == 2);
  CHECK(scene.findings.count(Severity::error) == 0);
  CHECK(scene.findings.count(Severity::warning) == 0);
  // Heights, camera, sizes of furniture, light.
  CHECK(scene.plan.assumptions.size() == 4);
  for (const Assumption& assumption : scene.plan.assumptions) CHECK_FALSE(assumption.pin.empty());
}

TEST_CASE("every pin of a default is a line that reads and settles it") {
  for (const std::string& start : {std::string(draft), std::string("people Oda\nfurniture Couch\nfurniture Chair")}) {
    DeclaredScene scene(start);
    for (const Assumption& assumption : scene.plan.assumptions) {
      INFO(assumption.pin);
      const bool whole_line = assumption.pin.find(' ') != std::string::npos && assumption.pin[0] != '(';
      REQUIRE(whole_line);
      DeclaredScene pinned("furniture Table\n" + assumption.pin);
      CHECK(pinned.finding("parse.unknown-line") == nullptr);
      for (const Finding& finding : pinned.findings.all()) CHECK(finding.rule.compare(0, 6, "parse.") != 0);
    }
  }
}

TEST_CASE("a room has its origin in the south-west and walls named for the compass") {
  DeclaredScene scene("room 7 m by 5 m by 2.7 m, walls light");
  const Stage& stage = scene.plan.stage;
  REQUIRE(stage.walls.size() == 4);
  CHECK(stage.room.height.value == Approx(2.7));
  CHECK(stage.room.walls == Tone::light);
  CHECK(area_of(stage.room.outline) == Approx(35));
  const auto wall = [&](const char* name) {
    return stage.walls[static_cast<std::size_t>(std::get<WallId>(*scene.names.find(name)).index)];
  };
  CHECK(wall("South").from == Vec2{0, 0});
  CHECK(wall("East").to == Vec2{7, 5});
  CHECK(wall("South").wild);
  CHECK_FALSE(wall("North").wild);
}

TEST_CASE("with a camera told the south wall stands unless it is said to be wild") {
  DeclaredScene standing("room 7 m by 5 m\ncamera A, at (3, 1) m");
  DeclaredScene wild("room 7 m by 5 m\nwall South, wild\ncamera A, at (3, -1) m");
  const auto south = [](const DeclaredScene& scene) {
    return scene.plan.stage.walls[static_cast<std::size_t>(std::get<WallId>(*scene.names.find("South")).index)];
  };
  CHECK_FALSE(south(standing).wild);
  CHECK(south(wild).wild);
  CHECK(wild.finding("name.taken") == nullptr);
}

TEST_CASE("walls told end to end make a room of any shape") {
  // An L of 6 by 4 less 3 by 2: 18 square metres; the walls are given clockwise.
  DeclaredScene scene(
      "wall A1, from (0, 0) m, to (0, 4) m\nwall A2, from (0, 4) m, to (6, 4) m\nwall A3, from (6, 4) m, to (6, 2) m\n"
      "wall A4, from (6, 2) m, to (3, 2) m\nwall A5, from (3, 2) m, to (3, 0) m\nwall A6, from (3, 0) m, to (0, 0) m");
  CHECK(scene.plan.stage.room.outline.size() == 6);
  CHECK(area_of(scene.plan.stage.room.outline) == Approx(18));
  for (const Wall& wall : scene.plan.stage.walls) {
    const Vec2 inward = mix(wall.from, wall.to, 0.5) + unit(left_of(wall.to - wall.from)) * 0.1;
    CHECK(encloses(scene.plan.stage.room.outline, inward));
  }
}

TEST_CASE("doors stand along their wall from its west or south end") {
  DeclaredScene scene(
      "room 7.2 m by 5 m\ndoor Yard-Door, in the east wall, 1.2 m along, width 3 ft, inward\n"
      "door Swing-Door, in the west wall, 3.1 m along, both ways\nwindow Bay, in the north wall, 2 m along");
  const std::vector<Opening>& openings = scene.plan.stage.openings;
  REQUIRE(openings.size() == 3);
  check_at(openings[0].middle, 7.2, 1.2);
  CHECK(openings[0].width.value == Approx(0.9144));
  CHECK(openings[0].into_room.x == Approx(-1));
  check_at(openings[1].middle, 0, 3.1);
  CHECK(openings[1].both_ways);
  check_at(openings[2].middle, 2, 5);
  CHECK(openings[2].kind == Opening::Kind::window);
}

TEST_CASE("a door past the end of its wall is out of range") {
  DeclaredScene scene("room 7 m by 5 m\ndoor Yard-Door, in the east wall, 4.9 m along, width 0.9 m");
  REQUIRE(scene.finding("unit.out-of-range"));
  CHECK(scene.finding("unit.out-of-range")->next_step == "`2.5 m along` is its middle");
}

TEST_CASE("furniture told by depth and frame stands where the lens has it, a stove against the wall") {
  DeclaredScene scene(draft);
  const Piece& range = scene.piece("Range");
  CHECK(range.kind == PieceKind::stove);
  CHECK(range.at.y + range.depth.value / 2 == Approx(5).margin(0.011));
  CHECK(range.front.value == Approx(180).margin(0.1));
  const auto seen = project(pinhole_of(scene.camera()), raised(range.at, range.height.value / 2));
  REQUIRE(seen);
  // `frame left` is 8 to 40 %, best at 25 %.
  CHECK(seen->at.u == Approx(0.25).margin(0.01));
  const auto sink = project(pinhole_of(scene.camera()), raised(scene.piece("Sink").at, 0.45));
  REQUIRE(sink);
  CHECK(sink->at.u == Approx(0.75).margin(0.01));
  check_at(scene.piece("Table").at, 3.5, 2.5);
  CHECK_FALSE(scene.piece("Table").has_front);
}

TEST_CASE("furniture against a wall touches it and faces away from it, measured edge to edge") {
  DeclaredScene scene(
      "room 7.2 m by 5 m\nfurniture Range, stove, measures 1.8 m by 0.8 m by 0.9 m, against the north wall, 2.9 m from "
      "the west wall\nfurniture Sink, against the east wall, 3.6 m from the south wall");
  check_at(scene.piece("Range").at, 3.8, 4.6);
  CHECK(scene.piece("Range").front.value == Approx(180).margin(0.01));
  check_at(scene.piece("Sink").at, 6.9, 4.2);
  CHECK(wrapped(scene.piece("Sink").front - Degrees{-90}).value == Approx(0).margin(0.01));
  CHECK(scene.findings.count(Severity::error) == 0);
}

TEST_CASE("a piece may stand by another that is declared below it") {
  DeclaredScene scene("room 6 m by 5 m\nfurniture Stool, by the Table\nfurniture Table, at (3, 2) m, front south");
  CHECK(scene.findings.count(Severity::error) == 0);
  const FloorBox table = box_of(scene.piece("Table"));
  const double gap = distance_to(table, scene.piece("Stool").at) - 0.175;
  CHECK(gap >= 0.29);
  CHECK(gap <= 0.91);
}

TEST_CASE("pieces that are placed by each other are a circle") {
  DeclaredScene scene("room 6 m by 5 m\nfurniture Stool, by the Table\nfurniture Table, by the Stool");
  CHECK(count_of(scene, "place.circle") == 1);
}

TEST_CASE("two pieces do not stand in one place") {
  DeclaredScene scene("room 6 m by 5 m\nfurniture Table, centre\nfurniture Desk, centre");
  const Outline both = meeting(outline_of(box_of(scene.piece("Table"))), outline_of(box_of(scene.piece("Desk"))));
  CHECK(std::fabs(area_of(both)) < 1e-4);
}

TEST_CASE("every kind word has a size a person could live with") {
  for (int i = 0; i <= static_cast<int>(PieceKind::box); ++i) {
    const auto kind = static_cast<PieceKind>(i);
    const KindOfPiece& row = kind_of(kind);
    INFO(spelling(kind));
    CHECK(row.kind == kind);
    CHECK(row.length.value >= 0.3);
    CHECK(row.depth.value > 0);
    CHECK(row.seat_height <= row.height);
    CHECK(kind_in(spelling(kind)) == kind);
  }
  CHECK(kind_in("Table") == PieceKind::table);
  CHECK_FALSE(kind_in("Range"));
}

TEST_CASE("a name that is no kind is a box, and told") {
  DeclaredScene scene("room 6 m by 5 m\nfurniture Contraption, at (2, 2) m");
  CHECK(scene.piece("Contraption").kind == PieceKind::box);
  REQUIRE(scene.finding("taken-for-granted"));
  CHECK(count_of(scene, "taken-for-granted") >= 1);
}

TEST_CASE("people carry what their line says") {
  DeclaredScene scene(
      "person Oda, called \"Oda Voss\", number 1, height 163 cm, step 60 cm, speaks 120 words/min, dressed dark, tape "
      "green\nperson Tobias, height 5 ft 11 in, face +0.5 stops\nperson Lotte, height 4 ft 4 in, eyes 4 ft 1 in");
  const std::vector<Person>& people = scene.plan.stage.people;
  REQUIRE(people.size() == 3);
  CHECK(people[0].called == "Oda Voss");
  CHECK(people[0].cast_number == "1");
  CHECK(people[0].stature.value == Approx(1.63));
  CHECK(people[0].rate.value == Approx(120));
  CHECK(people[0].dress == Tone::dark);
  CHECK(people[0].tape == "green");
  // 71 and 52 inches of 25.4 mm.
  CHECK(people[1].stature.value == Approx(1.8034));
  CHECK(people[1].skin.value == Approx(0.5));
  CHECK(people[2].stature.value == Approx(1.3208));
  REQUIRE(people[2].eyes);
  CHECK(people[2].eyes->value == Approx(1.2446));
}

TEST_CASE("impossible figures are named and not used") {
  struct Row {
    const char* line;
    const char* rule;
  };
  for (const Row& row :
       {Row{"person Oda, height 17.2 m", "unit.out-of-range"}, Row{"person Oda, height 3 s", "unit.wrong-type"},
        Row{"room 0 m by 5 m", "unit.out-of-range"}, Row{"camera A, at (3, 0) m, lens 0 mm", "unit.out-of-range"},
        Row{"camera A, at (3, 0) m, gate 0 mm by 10 mm", "unit.out-of-range"},
        Row{"light Key, at (3, 0) m, gives 400 lux at 0 m", "unit.out-of-range"},
        Row{"furniture Table, measures 900 m by 1 m by 1 m", "unit.out-of-range"},
        Row{"default favour-margin 3 s", "unit.wrong-type"}}) {
    INFO(row.line);
    DeclaredScene scene(row.line);
    REQUIRE(scene.finding(row.rule));
    const CameraState camera = scene.camera();
    CHECK(camera.focal.value > 1);
    CHECK(camera.gate_width.value > 1);
    CHECK(std::fabs(area_of(scene.plan.stage.room.outline)) > 1);
    for (const Person& person : scene.plan.stage.people) CHECK(person.stature.value == Approx(1.7));
  }
}

TEST_CASE("a name declared twice is taken, with the first place shown") {
  DeclaredScene scene("people Oda, Tobias\nfurniture Oda, table");
  REQUIRE(scene.finding("name.taken"));
  CHECK(scene.finding("name.taken")->labels.size() == 1);
  CHECK(scene.plan.stage.pieces.empty());
}

TEST_CASE("the supplied camera has the heads of the room in its upper third") {
  DeclaredScene scene("people Oda\nroom 7 m by 5 m");
  const CameraState camera = scene.camera();
  CHECK(camera.at == Vec3{3.5, -1, 1.5});
  CHECK(camera.focal.value == 35);
  const auto seen = project(pinhole_of(camera), {3.5, 2.5, 0.936 * 1.7});
  REQUIRE(seen);
  CHECK(seen->at.u == Approx(0.5).margin(1e-6));
  CHECK(seen->at.v == Approx(1.0 / 3).margin(1e-6));
}

TEST_CASE("a camera begins as its declaration and then the opening's `is` say") {
  DeclaredScene scene(
      "room 7 m by 5 m\nfurniture Table, at (3.2, 2.1) m\ncamera A, gate 24.9 mm by 13.5 mm, on dolly\nopening\n"
      "camera A is at (3.3, -1.9) m, height 1.45 m, aims at the Table, lens 32 mm, stop T4");
  const CameraState camera = scene.camera();
  CHECK(camera.at.x == Approx(3.3));
  CHECK(camera.at.z == Approx(1.45));
  CHECK(camera.focal.value == Approx(32));
  CHECK(camera.stop.value == Approx(4));
  CHECK(scene.plan.stage.cameras[0].support.rig == Rig::dolly);
  CHECK(scene.plan.stage.cameras[0].support.origin == Origin::said);
  const auto seen = project(pinhole_of(camera), {3.2, 2.1, 0.375});
  REQUIRE(seen);
  CHECK(seen->at.u == Approx(0.5).margin(1e-6));
  CHECK(seen->at.v == Approx(0.5).margin(1e-6));
}

TEST_CASE("what a camera stands on keeps the writer's word, and is assumed when nobody told") {
  DeclaredScene scene(
      "room 7 m by 5 m\ncamera A, on tripod, at (3, -2) m\ncamera B, at (1, -1) m\ncamera C, on jib, at (2, -1) m\n"
      "opening\ncamera C is on crane");
  const std::vector<Camera>& cameras = scene.plan.stage.cameras;
  REQUIRE(cameras.size() == 3);
  CHECK(std::string(spelling(cameras[0].support.rig)) == "tripod");
  CHECK(cameras[1].support.origin == Origin::assumed);
  CHECK(cameras[1].support.said_at.empty());
  CHECK(cameras[2].support.rig == Rig::crane);
  CHECK(cameras[2].support.said_at.begin > cameras[0].support.said_at.begin);
  for (const Rig rig :
       {Rig::sticks, Rig::tripod, Rig::shoulder, Rig::slider, Rig::dolly, Rig::jib, Rig::crane, Rig::stabiliser}) {
    const DeclaredScene one(std::string("camera A, on ") + spelling(rig) + ", at (3, -2) m");
    CHECK(one.plan.stage.cameras[0].support.rig == rig);
    CHECK(gives_way(rig) == (rig != Rig::sticks && rig != Rig::tripod));
  }
}

TEST_CASE("lamps give what is told of them in candela") {
  DeclaredScene scene(
      "room 7 m by 5 m by 3 m\nfurniture Table, at (3, 2) m\nlight Pendant, practical, over the Table, height 1.9 m, "
      "gives 400 lux at 1 m\nlight Key, soft, at (1, 1) m, height 2.4 m, aims at the Table, gives 260 lux at 2 m\n"
      "light Bulb, practical, at (5, 4) m, height 2 m, gives 800 lm\nlight Spot, hard, at (0.5, 0.5) m, height 2.5 m, "
      "beam 60 deg, gives 1000 lm, dimmed 1 stop");
  const std::vector<Lamp>& lamps = scene.plan.stage.lamps;
  REQUIRE(lamps.size() == 4);
  CHECK(lamps[0].intensity.value == Approx(400));
  check_at(floor_of(scene.plan.lamps[0].place.back().to), 3, 2);
  CHECK(scene.plan.lamps[0].place.back().to.z == Approx(1.9));
  // Inverse square: E r².
  CHECK(lamps[1].intensity.value == Approx(1040));
  // 4 pi steradians all round; a cone of 60 degrees has 2 pi (1 - cos 30) = 0.8418.
  CHECK(lamps[2].intensity.value == Approx(63.66).margin(0.01));
  CHECK(lamps[3].intensity.value == Approx(1187.9).margin(0.5));
  CHECK(scene.plan.lamps[3].level.back().to.value == Approx(0.5));
  CHECK(scene.plan.lamps[1].aim.back().to.z == Approx(0.375));
}

TEST_CASE(
    "a lamp begins as its declaration and then the opening's `is` say, without a default for what is told there") {
  DeclaredScene scene(
      "room 7 m by 5 m\nlight Moon, soft, gives 600 lux at 2 m\nopening\nlight Moon is at (1, 4) m, height 1.9 m, aims "
      "at "
      "(3, 2) m, dimmed 1 stop");
  CHECK(scene.plan.lamps[0].place.back().to.x == Approx(1));
  CHECK(scene.plan.lamps[0].place.back().to.z == Approx(1.9));
  CHECK(scene.plan.lamps[0].level.back().to.value == Approx(0.5));
  CHECK(scene.plan.stage.lamps[0].intensity.value == Approx(2400));
  for (const Assumption& assumption : scene.plan.assumptions) CHECK(assumption.what.find("Moon") == std::string::npos);
}

TEST_CASE("a lamp placed in its declaration and again in the opening stands where the opening says") {
  DeclaredScene scene(
      "room 7 m by 5 m\nfurniture Table, at (3, 2) m\nlight Moon, over the Table, height 2 m, level 50%\nopening\n"
      "light Moon is at (1, 4) m, level 80%");
  CHECK(scene.plan.lamps[0].place.back().to.x == Approx(1));
  CHECK(scene.plan.lamps[0].place.back().to.z == Approx(2));
  CHECK(scene.plan.lamps[0].level.back().to.value == Approx(0.8));
  CHECK(std::ranges::none_of(scene.findings.all(), [](const Finding& one) { return one.severity == Severity::error; }));
}

TEST_CASE("the supplied light exposes a face in the middle of the room, turned to the lens or half away") {
  DeclaredScene scene("people Oda\nroom 7 m by 5 m");
  const Vec3 face{3.5, 2.5, 1.5};
  const auto light_on = [&](Vec3 normal) {
    double lux = 0;
    for (std::size_t i = 0; i < scene.plan.stage.lamps.size(); ++i) {
      lux += illuminance(scene.plan.stage.lamps[i].intensity, scene.plan.lamps[i].place.back().to, face, normal).value;
    }
    return lux;
  };
  // N²C/(t S) with C = 250 at T2.8, 1/48 s, ISO 800: 117.6 lux.
  CHECK(light_on({0, -1, 0}) == Approx(117.6).margin(0.5));
  CHECK(stops_between(light_on({1, 0, 0}), 117.6).value > -1.1);
}

TEST_CASE("props lie where they are put or are in somebody's hand") {
  DeclaredScene scene(
      "people Iris\nroom 7 m by 5 m\nfurniture Table, at (3, 2) m\nprop Ballot, measures 20 cm by 15 cm, on the Table\n"
      "prop Ring, across 3 cm, with Iris");
  CHECK(scene.plan.props[0].rests.back().to.kind == Target::Kind::piece);
  CHECK(scene.plan.props[1].rests.back().to.kind == Target::Kind::person);
  CHECK(scene.plan.people[0].right_hand.back().to == Target{Target::Kind::prop, 1, {}});
  CHECK(scene.plan.stage.props[0].length.value == Approx(0.2));
  CHECK(scene.plan.stage.props[1].depth.value == Approx(0.03));
}

TEST_CASE("settings reach the plan, and unknown ones are refused") {
  DeclaredScene scene(
      "default favour-margin 12 points\ndefault walking-pace 1.1 m/s\ndefault by 0.3 to 0.8 m\nweigh voice 22 points\n"
      "treat masked as error\ndefault house south\ndefault masked 25%\ndefault moonlight 3 m");
  const Settings& settings = scene.plan.settings;
  CHECK(settings.favour_margin.value == Approx(12));
  CHECK(settings.figures.at("walking-pace") == Approx(1.1));
  CHECK(settings.figures.at("by from") == Approx(0.3));
  CHECK(settings.figures.at("masked") == Approx(0.25));
  CHECK(settings.figures.at("house") == Approx(180));
  CHECK(settings.weights.at("voice") == Approx(22));
  CHECK(settings.treat.at("masked") == "error");
  CHECK(count_of(scene, "name.unknown-default") == 1);
}

TEST_CASE("filing facts and the asked length stand in the plan") {
  DeclaredScene scene("about 3 min 20 s");
  CHECK(scene.plan.facts.name == "Test");
  REQUIRE(scene.plan.facts.asked_length);
  CHECK(scene.plan.facts.asked_length->count == 200000);
}

TEST_CASE("groups, stories and crowds have their people") {
  DeclaredScene scene(
      "people Oda, Tobias\ncrowd Guests, 3 people\ngroup Both, of Oda and Tobias\nstory Sale, of Both and Guests");
  CHECK(scene.plan.stage.people.size() == 5);
  REQUIRE(scene.plan.stage.stories.size() == 1);
  CHECK(scene.plan.stage.stories[0].people.size() == 5);
}

TEST_CASE("a scene of nothing has a room, a camera and a light") {
  DeclaredScene scene("");
  CHECK(scene.plan.stage.walls.size() == 4);
  CHECK(scene.plan.cameras.size() == 1);
  CHECK(scene.plan.lamps.size() == 2);
  CHECK(scene.finding("missing-person") != nullptr);
}
