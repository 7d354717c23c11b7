#include "pin/measured.h"

#include <catch2/catch.hpp>

#include "crew/tape.h"

using namespace lensward;

namespace {

// A room 9 m by 4 m without its south wall: measured from the north wall (y = 4), then the east wall (x = 9).
Plan room() {
  Plan plan;
  plan.stage.walls = {{"South", {0, 0}, {9, 0}, true, {}},
                      {"East", {9, 0}, {9, 4}, false, {}},
                      {"North", {9, 4}, {0, 4}, false, {}},
                      {"West", {0, 4}, {0, 0}, false, {}}};
  for (const char* name : {"O1", "T1"}) {
    Mark mark;
    mark.name = name;
    plan.marks.push_back(mark);
  }
  return plan;
}

void check_one(const std::string& csv, Vec2 at) {
  const MarksFile file = marks_measured(csv, room());
  CAPTURE(csv);
  CHECK(file.troubles.empty());
  REQUIRE(file.marks.size() == 1);
  CHECK(file.marks[0].mark == "O1");
  CHECK(file.marks[0].at.x == Approx(at.x));
  CHECK(file.marks[0].at.y == Approx(at.y));
}

void check_trouble(const std::string& csv, const std::string& words) {
  const MarksFile file = marks_measured(csv, room());
  CAPTURE(csv);
  REQUIRE(file.troubles.size() == 1);
  CHECK(file.troubles[0].find(words) != std::string::npos);
}

}  // namespace

TEST_CASE("a place so far from two walls is where both lines cross, whatever the angle") {
  Stage stage;
  stage.walls = {{"One", {0, 0}, {8, 0}, false, {}}, {"Other", {5, 4}, {1, 0}, false, {}}};
  const Tape tape(stage);
  for (const Vec2 at : {Vec2{2, 1}, Vec2{0.3, 2.7}, Vec2{-1, -2}}) {
    const Vec2 found = tape.place(tape.from_first(at), tape.from_second(at));
    CHECK(found.x == Approx(at.x));
    CHECK(found.y == Approx(at.y));
  }
}

TEST_CASE("marks are read by the names of the columns, in any order") {
  check_one("mark,mark_first_m,mark_second_m\r\nO1,1.5,2\r\n", {7, 2.5});
  check_one("mark_second_m,who,mark,mark_first_m\n2,Oda,O1,1.5\n", {7, 2.5});
  check_one("\xEF\xBB\xBFmark,mark_first_m,mark_second_m\n\"O1\",\"1.5\",2", {7, 2.5});
}

TEST_CASE("lengths may be in other units, of the column or of the cell") {
  check_one("mark,mark_first_cm,mark_second_mm\nO1,150,2000\n", {7, 2.5});
  // A foot is 0.3048 m, an inch 25.4 mm (1959).
  check_one("mark,mark_first_ft,mark_second_in\nO1,5,100\n", {9 - 2.54, 4 - 1.524});
  check_one("mark,mark_first_m,mark_second_m\nO1,4 ft 11 in,200 cm\n", {7, 4 - 1.4986});
  // As a tape is read: 4 ft 10 1/2 in is 58.5 times 25.4 mm (the yard of 1959).
  check_one("mark,mark_first_m,mark_second_m\nO1,4' 10 1/2\",200 cm\n", {7, 4 - 1.4859});
  check_one("mark,mark_first_m,mark_second_in\nO1,1 1/2 m,39 3/8 in\n", {9 - 1.000125, 4 - 1.5});
  check_one("mark,mark_first_m,mark_second_m\nO1,\"4' 11\"\"\",-0.5\n", {9.5, 4 - 1.4986});
  check_one("mark,mark_first_m,mark_second_m\nO1,4' 11\",-0.5\n", {9.5, 4 - 1.4986});
}

TEST_CASE("semicolons bring decimal commas") { check_one("mark;mark_first_m;mark_second_m\nO1;1,5;2\n", {7, 2.5}); }

TEST_CASE("the walls' names, when they are there, say which is which") {
  const std::string header = "mark,mark_first_m,mark_second_m,first_from,second_from\n";
  check_one(header + "O1,1.5,2,North wall,East wall\n", {7, 2.5});
  check_one(header + "O1,2,1.5,East wall,North wall\n", {7, 2.5});
  check_trouble(header + "O1,2,1.5,West wall,North wall\n", "measured from West wall and North wall");
}

TEST_CASE("what cannot be read is told by its row, and the rest is read") {
  check_trouble("who,first\nOda,2\n", "mark_first_m");
  check_trouble("", "mark_first_m");
  check_trouble("mark,mark_first_m,mark_second_m\nX9,1,2\n", "row 2: the scene has no mark `X9`");
  check_trouble("mark,mark_first_m,mark_second_m\nO1,1,2\nO1,1,2\n", "row 3: `O1` is told a second time");
  for (const char* no_length : {"two", "1.5.2", "2 yards", "2 m 3", "nan", "inf", "1e999", "--2"})
    check_trouble("mark,mark_first_m,mark_second_m\nO1,1," + std::string(no_length) + "\n", "is no length");
  check_trouble("mark,mark_first_m,mark_second_m\nO1,1,\n", "`O1` has only one figure");
  const MarksFile file = marks_measured("mark,mark_first_m,mark_second_m\nX9,1,2\nT1,1,2\nO1,,\n", room());
  CHECK(file.troubles.size() == 1);
  CHECK(file.marks.size() == 1);
}
