#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>

#include "optics/pinhole.h"

using namespace lensward;

namespace {

// `off` counts widths and heights of the picture.
struct Worst {
  int cameras = 0, points = 0;
  double off = 0;
};

Pinhole read_camera(std::istringstream& line) {
  Pinhole lens;
  line >> lens.at.x >> lens.at.y >> lens.at.z >> lens.pan.value >> lens.tilt.value >> lens.roll.value;
  line >> lens.focal.value >> lens.gate_width.value >> lens.gate_height.value;
  return lens;
}

double off_by(const Pinhole& lens, std::istringstream& line) {
  Vec3 point;
  PicturePoint expected;
  line >> point.x >> point.y >> point.z >> expected.u >> expected.v;
  REQUIRE(line);
  const auto projected = project(lens, point);
  REQUIRE(projected);
  return std::max(std::fabs(projected->at.u - expected.u), std::fabs(projected->at.v - expected.v));
}

Worst compare(const std::string& path) {
  std::ifstream table(path);
  REQUIRE(table);
  Worst worst;
  Pinhole lens;
  for (std::string text; std::getline(table, text);) {
    std::istringstream line(text);
    std::string word;
    line >> word;
    if (word == "camera") {
      lens = read_camera(line);
      ++worst.cameras;
    } else if (word == "point") {
      worst.off = std::max(worst.off, off_by(lens, line));
      ++worst.points;
    }
  }
  return worst;
}

}  // namespace

// OpenCV 4.6 cv2.projectPoints, frozen: tests/oracles/opencv_project.py made the table.
TEST_CASE("projection agrees with another program's to a billionth of the picture") {
  const Worst worst = compare(LENSWARD_TESTS_DIR "/oracles/opencv_project.txt");
  CHECK(worst.cameras == 200);
  CHECK(worst.points == 1000);
  INFO("worst " << worst.off);
  CHECK(worst.off < 1e-9);
}
