#include "plan/places.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "figure/proportions.h"
#include "plan/floor.h"
#include "tests/unit/plan/declared_scene.h"

using namespace lensward;

namespace {

const std::string kitchen =
    "person Oda, height 1.63 m\nperson Tobias, height 1.8 m\nperson Wren, height 1.7 m\nperson Runa, height 1.72 m\n"
    "room 7.2 m by 5 m by 2.7 m\nwall South, wild\n"
    "furniture Range, stove, measures 1.8 m by 0.8 m by 0.9 m, at (2.9, 4.6) m, front south\n"
    "furniture Table, measures 2.4 m by 0.9 m by 0.75 m, at (3.6, 2.35) m, front south\n"
    "furniture Stool, at (5.5, 1) m, front west\n"
    "furniture Bench, measures 1.5 m by 0.4 m by 0.45 m, at (1, 0.8) m, front north\n"
    "furniture Crate, at (6.4, 4.2) m\n"
    "door Yard-Door, in the east wall, 2.2 m along, width 0.9 m\n"
    "camera A, at (3.6, -1.5) m, height 1.5 m, lens 35 mm, aims at (3.6, 2.5) m\n"
    "camera B, at (9, 2) m, height 1.5 m, lens 35 mm, aims at (3, 2) m\n";

void check_at(const std::optional<SettledPlace>& place, double x, double y, double within = 0.006) {
  REQUIRE(place);
  INFO(place->words << " (" << place->at.x << ", " << place->at.y << ")");
  CHECK(place->at.x == Approx(x).margin(within));
  CHECK(place->at.y == Approx(y).margin(within));
}

double across(const DeclaredScene& scene, const Person& person, Vec2 at) {
  const auto seen = project(pinhole_of(scene.camera()), raised(at, eye_fraction * person.stature.value));
  return seen ? seen->at.u : -1;
}

}  // namespace

TEST_CASE("a composition gives the floor mark worked by hand") {
  // Camera at (3, -2) m looking north, 25 mm on 24.9 by 14 mm, level; a person of 1.72 m, full shot, right quarter:
  // picture 1.870 m high, 3.339 m off, 0.831 m to the right.
  DeclaredScene scene(
      "person Runa, height 1.72 m\nroom 6 m by 5 m\nwall South, wild\n"
      "camera A, gate 24.9 mm by 14 mm, at (3, -2) m, height 1.6 m, lens 25 mm, pan 0 deg, tilt 0 deg");
  const auto place =
      scene.settled("Runa walks to frame right quarter of camera A, full shot, profile toward frame left");
  check_at(place, 3.83, 1.34);
  CHECK(place->origin == Origin::bound);
  CHECK(place->area.empty());
  // The lens bears 194 degrees from there; profile toward frame left adds 90.
  REQUIRE(place->body);
  CHECK(wrapped(*place->body - Degrees{284}).value == Approx(0).margin(0.2));
}

TEST_CASE("a composition projects back within 2 % of the width and 5 % of the size, tilted too") {
  for (const char* tilt : {"tilt 0 deg", "tilt -8 deg", "tilt 6 deg"}) {
    DeclaredScene scene(
        "person Runa, height 1.72 m\nroom 8 m by 9 m\nwall South, wild\n"
        "camera A, at (4, -1) m, height 1.7 m, lens 28 mm, pan 8 deg, " +
        std::string(tilt));
    struct Row {
      const char* line;
      double across;
      ShotSize size;
    };
    for (const Row& row : {Row{"Runa is at frame left third, medium shot", 1.0 / 3, ShotSize::medium_shot},
                           Row{"Runa is at frame 60%, knee shot", 0.6, ShotSize::knee_shot},
                           Row{"Runa is at frame right quarter, full shot", 0.75, ShotSize::full_shot},
                           Row{"Runa is at frame left, full shot", 0.25, ShotSize::full_shot}}) {
      INFO(tilt << ": " << row.line);
      const auto place = scene.settled(row.line);
      REQUIRE(place);
      const Person& runa = scene.plan.stage.people[0];
      CHECK(across(scene, runa, place->at) == Approx(row.across).margin(0.02));
      const CameraState camera = scene.camera();
      const auto seen = project(pinhole_of(camera), raised(place->at, eye_fraction * 1.72));
      REQUIRE(seen);
      const double shown = seen->depth.value * camera.gate_height.value / camera.focal.value;
      CHECK(shown == Approx(frame_height_for(row.size, runa.stature).value).epsilon(0.05));
    }
  }
}

TEST_CASE("at a thing is before its front, facing it") {
  DeclaredScene scene(kitchen);
  const auto place = scene.settled("Oda is at the Range");
  check_at(place, 2.9, 3.9, 0.02);
  REQUIRE(place->faces);
  CHECK(wrapped(*place->faces).value == Approx(0).margin(0.01));
  CHECK(place->origin == Origin::settled);
  CHECK(place->area.size() >= 4);
}

TEST_CASE("to a thing ends on the side one comes from") {
  DeclaredScene scene(kitchen);
  check_at(scene.settled("Oda walks to the Table", Vec2{3.4, 4}), 3.6, 3.3);
  check_at(scene.settled("Oda walks to the Table", Vec2{3.4, 0.3}), 3.6, 1.4);
  check_at(scene.settled("Oda walks to the Table", Vec2{0.4, 2.3}), 1.9, 2.35);
}

TEST_CASE("to a person ends at arm's length on the side one comes from") {
  DeclaredScene scene(kitchen);
  scene.stand("Tobias", {5.6, 3.4});
  const auto place = scene.settled("Oda walks to Tobias", Vec2{5.6, 1.4});
  check_at(place, 5.6, 2.5);
  CHECK(length(place->at - Vec2{5.6, 3.4}) == Approx(0.9).margin(0.01));
}

TEST_CASE("place words keep their distances and their frames") {
  DeclaredScene scene(kitchen);
  scene.stand("Tobias", {5, 3.9}, 180);
  struct Row {
    const char* line;
    double x, y;
  };
  for (const Row& row : {
           Row{"Oda is by the west end of the Table", 1.9, 2.35},
           Row{"Oda is in front of the Table", 3.6, 1.4},
           Row{"Oda is behind the Table", 3.6, 3.3},
           Row{"Oda is at the north side of the Table", 3.6, 3.1},
           Row{"Oda is in front of Tobias", 5, 3.1},
           Row{"Oda is at Tobias's left", 5.6, 3.9},
           Row{"Oda is south of the Range", 2.9, 3.6},
           Row{"Oda is just inside the Yard-Door", 6.6, 2.2},
           Row{"Oda is outside the Yard-Door", 7.8, 2.2},
           Row{"Oda is at 0.7 m south of the Range", 2.9, 3.5},
           Row{"Oda is at 0.6 m off Tobias's right", 4.4, 3.9},
           Row{"Oda is in the south-east corner", 6.8, 0.4},
           Row{"Oda is at (2, 1.5) m", 2, 1.5},
           Row{"Oda is at (20 in, 5 ft)", 0.508, 1.524},
       }) {
    INFO(row.line);
    const auto place = scene.settled(row.line);
    REQUIRE(place);
    CHECK(place->at.x == Approx(row.x).margin(0.11));
    CHECK(place->at.y == Approx(row.y).margin(0.11));
  }
}

TEST_CASE("the lens has its own sides of things") {
  DeclaredScene scene(kitchen);
  scene.stand("Tobias", {4.9, 3}, 180);
  const auto from_lens = [&](const char* line) {
    const auto place = scene.settled(line);
    REQUIRE(place);
    return place->at;
  };
  // Camera A looks north from the south-west of him: its left is west and a bit north, beyond is north and a bit east.
  CHECK(from_lens("Oda is camera left of Tobias").x < 4.6);
  CHECK(from_lens("Oda is camera right of Tobias").x > 5.2);
  CHECK(from_lens("Oda is beyond Tobias").y > 3.5);
  CHECK(from_lens("Oda is camera side of Tobias").y < 2.5);
  // Camera B looks west: its left is south.
  CHECK(from_lens("Oda is camera B left of Tobias").y < 2.6);
  CHECK(from_lens("Oda is beyond Tobias of camera B").x < 4.5);
  // The sides of the lens are not the person's own.
  CHECK(from_lens("Oda is at Tobias's left").x > 5.3);
}

TEST_CASE("between and opposite lie where they say") {
  DeclaredScene scene(kitchen);
  scene.stand("Tobias", {1.2, 3.4});
  scene.stand("Wren", {1.2, 1.6});
  check_at(scene.settled("Oda is between Tobias and Wren"), 1.2, 2.5);
  scene.stand("Tobias", {3.2, 3.1});
  const auto across_table = scene.settled("Oda is opposite Tobias across the Table");
  check_at(across_table, 3.2, 1.6, 0.03);
  REQUIRE(across_table->faces);
  CHECK(wrapped(*across_table->faces).value == Approx(0).margin(0.01));
}

TEST_CASE("seats are counted from the piece's own left, and the free one nearest is taken") {
  DeclaredScene scene(kitchen);
  // The bench faces north; its own left is west. Three seats of half a metre.
  check_at(scene.settled("Oda sits on the Bench.1"), 0.5, 0.8);
  check_at(scene.settled("Oda sits on the Bench.3"), 1.5, 0.8);
  const auto nearest = scene.settled("Oda sits on the Bench", Vec2{3, 1});
  check_at(nearest, 1.5, 0.8);
  CHECK(nearest->on_piece);
  REQUIRE(nearest->faces);
  CHECK(nearest->faces->value == Approx(0).margin(0.01));
  scene.stand("Tobias", {1.5, 0.8});
  scene.people[1].seat = std::get<PieceId>(*scene.names.find("Bench"));
  check_at(scene.settled("Oda sits on the Bench", Vec2{3, 1}), 1.0, 0.8);
}

TEST_CASE("sat on a table, one sits on its edge on the side one comes from, facing out") {
  DeclaredScene scene(kitchen);
  const auto place = scene.settled("Oda sits on the Table", Vec2{3.6, 0.5});
  check_at(place, 3.6, 2.05);
  CHECK(place->on_piece);
  CHECK(wrapped(*place->faces - Degrees{180}).value == Approx(0).margin(0.01));
}

TEST_CASE("several subjects of one line stand apart along the area, west to east") {
  DeclaredScene scene(kitchen);
  const char* const line = "Oda, Tobias and Wren are by the Table";
  const auto first = scene.settled(line, {}, 0);
  const auto second = scene.settled(line, {}, 1);
  const auto third = scene.settled(line, {}, 2);
  REQUIRE((first && second && third));
  CHECK(second->at.x - first->at.x == Approx(0.9).margin(0.02));
  CHECK(third->at.x - second->at.x == Approx(0.9).margin(0.02));
  CHECK(first->at.y == Approx(third->at.y).margin(0.02));
}

TEST_CASE("moves by a measure start from where one stands") {
  DeclaredScene scene(kitchen);
  scene.stand("Oda", {6, 2.5}, 270);
  const Vec2 here{6, 2.5};
  check_at(scene.settled("Oda walks 1 m deeper", here), 6, 3.5);
  check_at(scene.settled("Oda steps 0.5 m forward", here), 5.5, 2.5);
  check_at(scene.settled("Oda steps 0.5 m back", here), 6.5, 2.5);
  check_at(scene.settled("Oda walks 0.6 m toward frame left", here), 5.4, 2.5);
  // Two steps are 1.4 m when nothing is told of the step.
  const auto near_lens = scene.settled("Oda walks two steps toward lens", here);
  REQUIRE(near_lens);
  CHECK(length(near_lens->at - here) == Approx(1.4).margin(0.01));
  CHECK(length(near_lens->at - Vec2{3.6, -1.5}) == Approx(length(here - Vec2{3.6, -1.5}) - 1.4).margin(0.01));
  CHECK_FALSE(scene.settled("Oda walks two steps toward lens"));
  CHECK(scene.finding("place.no-place"));
}

TEST_CASE("phrases that do not meet say so, with a line that works") {
  DeclaredScene scene(kitchen);
  CHECK_FALSE(scene.settled("Oda is by the Range, near the Stool"));
  const Finding* finding = scene.finding("place.no-meeting");
  REQUIRE(finding);
  CHECK(finding->message == "the places of `by Range, near Stool` have no floor in common");
  CHECK(finding->next_step.find("at (") != std::string::npos);
}

TEST_CASE("a mark inside furniture or beyond a wall is an error, and stands as said") {
  DeclaredScene scene(kitchen);
  check_at(scene.settled("Oda is at (3.6, 2.3) m"), 3.6, 2.3);
  CHECK(scene.finding("place.in-the-way"));
  check_at(scene.settled("Oda is at (12, 2.3) m"), 12, 2.3);
  CHECK(scene.finding("place.outside-set"));
}

TEST_CASE("a mark inside a wall is an error, but neither in a doorway nor where the wall is taken out") {
  DeclaredScene scene(kitchen);
  for (const char* fine : {"Oda is at (7.2, 2.2) m", "Oda is at (3.6, 0.02) m", "Oda is at (0.2, 3) m"}) {
    CHECK(scene.settled(fine));
    CHECK_FALSE(scene.finding("place.in-the-way"));
  }
  check_at(scene.settled("Oda is at (0.05, 3) m"), 0.05, 3);
  const Finding* finding = scene.finding("place.in-the-way");
  REQUIRE(finding);
  CHECK(finding->message.find("wall `West`") != std::string::npos);
}

TEST_CASE("behind something without a front is refused") {
  DeclaredScene scene("people Oda\nroom 7 m by 5 m\nfurniture Table, centre");
  CHECK_FALSE(scene.settled("Oda is behind the Table"));
  REQUIRE(scene.finding("place.no-front"));
}

TEST_CASE("a place by somebody who is not there is refused") {
  DeclaredScene scene(kitchen);
  CHECK_FALSE(scene.settled("Oda is by Tobias"));
  CHECK(scene.finding("name.not-here"));
}

TEST_CASE("settled marks are free floor inside their area") {
  DeclaredScene scene(kitchen);
  scene.stand("Tobias", {4.4, 3.7});
  for (const char* line : {"Oda is by the Range", "Oda is near the Table", "Oda is by Tobias", "Oda is beside Tobias",
                           "Oda is deep, frame right", "Oda is foreground", "Oda is at frame centre",
                           "Oda is by the Crate", "Oda is against the west wall", "Oda is by the north wall",
                           "Oda is centre", "Oda is by the Yard-Door", "Oda is north"}) {
    INFO(line);
    const auto place = scene.settled(line);
    if (!place) UNSCOPED_INFO(scene.findings.all().back().message);
    REQUIRE(place);
    CHECK(holds(place->area, place->at, 0.002));
    CHECK(encloses(scene.plan.stage.room.outline, place->at));
    for (const Piece& piece : scene.plan.stage.pieces) CHECK(distance_to(box_of(piece), place->at) > 0.17);
  }
  CHECK(scene.finding("place.no-meeting") == nullptr);
}

TEST_CASE("frame high puts a head in the upper third, where the lens can") {
  DeclaredScene scene(kitchen);
  const auto tall = scene.settled("Tobias is at frame high");
  REQUIRE(tall);
  const auto seen = project(pinhole_of(scene.camera()), raised(tall->at, eye_fraction * 1.8));
  REQUIRE(seen);
  CHECK(seen->at.v <= 1.0 / 3 + 0.01);
  // A level lens at 1.5 m has no floor on which eyes at 1.53 m come so high.
  CHECK_FALSE(scene.settled("Oda is at frame high"));
}

TEST_CASE("a change elsewhere in the set of people moves nobody") {
  DeclaredScene alone(kitchen);
  DeclaredScene crowded(kitchen);
  crowded.stand("Tobias", {2.9, 3.9});
  const auto a = alone.settled("Oda is at the Range");
  const auto b = crowded.settled("Oda is at the Range");
  REQUIRE((a && b));
  CHECK(a->at == b->at);
}

TEST_CASE("bodies turn to the lens as the picture shows it") {
  DeclaredScene scene(kitchen);
  scene.stand("Tobias", {1, 3});
  const auto bearing = [&](const char* line) {
    const auto place = scene.settled(line);
    REQUIRE(place);
    REQUIRE(place->body);
    return wrapped(*place->body).value;
  };
  // On the axis of camera A, which looks north: the lens bears 180.
  CHECK(std::fabs(bearing("Oda is at (3.6, 1.2) m, frontal")) == Approx(180).margin(0.1));
  CHECK(bearing("Oda is at (3.6, 1.2) m, back to lens") == Approx(0).margin(0.1));
  CHECK(bearing("Oda is at (3.6, 1.2) m, profile toward frame left") == Approx(-90).margin(0.1));
  CHECK(bearing("Oda is at (3.6, 1.2) m, profile toward frame right") == Approx(90).margin(0.1));
  CHECK(bearing("Oda is at (3.6, 1.2) m, three-quarter to Tobias") == Approx(-135).margin(0.1));
  CHECK(bearing("Oda is at (3.6, 1.2) m, three-quarter back toward frame right") == Approx(45).margin(0.1));
}

TEST_CASE("targets are what eyes and lenses can be directed at") {
  DeclaredScene scene(kitchen + "prop Keys, across 9 cm, on the Table\n");
  scene.stand("Tobias", {1, 3});
  const auto target = [&](const std::string& line) {
    const DeedLine deed = scene.deed(line);
    const AtClause* at = find<AtClause>(deed.clauses);
    REQUIRE(at);
    return target_of(at->place, scene.context(scene.person("Oda"), Vec2{3, 1}), scene.findings);
  };
  CHECK(target("Oda looks at Tobias") == Target{Target::Kind::person, 1, {}});
  CHECK(target("Oda looks at the Keys") == Target{Target::Kind::prop, 0, {}});
  CHECK(target("Oda looks at the Yard-Door") == Target{Target::Kind::opening, 0, {}});
  CHECK(target("Oda looks at lens")->kind == Target::Kind::lens);
  const auto end = target("Oda looks at the west end of the Table");
  REQUIRE(end);
  CHECK(end->kind == Target::Kind::point);
  CHECK(end->point.x == Approx(2.8).margin(0.01));
}

TEST_CASE("absurd figures never give a place that is not a number") {
  DeclaredScene scene(kitchen);
  const double huge = std::numeric_limits<double>::max();
  for (double value : {0.0, -1.0, 1e-12, 1e12, huge, std::numeric_limits<double>::infinity(),
                       std::numeric_limits<double>::quiet_NaN()}) {
    for (const auto word : {Place::Word::coordinates, Place::Word::from, Place::Word::by, Place::Word::toward,
                            Place::Word::frame, Place::Word::between, Place::Word::deeper}) {
      Place place;
      place.word = word;
      Thing thing;
      thing.name = {"Table", {}};
      place.things = {thing, thing};
      const Figure metres{value, "m", {}};
      place.coordinates = {metres, metres};
      if (word == Place::Word::frame) {
        place.frame_part = Place::FramePart::percent;
        place.percent = Figure{value, "%", {}};
      } else if (word != Place::Word::coordinates && word != Place::Word::between) {
        place.measure = Amount{Amount::Form::exact, metres, {}, {}};
      }
      PlaceWords words;
      words.places = {&place};
      words.size = ShotSize::extreme_wide_shot;
      const auto settled = settle(words, scene.context(PersonId{0}, Vec2{1, 1}), 0, 1, scene.findings);
      if (settled) CHECK(std::isfinite(settled->at.x + settled->at.y));
    }
  }
}
