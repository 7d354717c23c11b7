#include "optics/pinhole.h"

#include <array>
#include <catch2/catch.hpp>
#include <limits>
#include <vector>

#include "base/angle.h"

using namespace lensward;

namespace {

struct AngleRow {
  double gate, focal, degrees;
};

void check_angles(const std::vector<AngleRow>& rows) {
  for (const AngleRow& row : rows) {
    INFO("gate " << row.gate << " mm, focal length " << row.focal << " mm");
    CHECK(angle_of_view(Millimetres{row.gate}, Millimetres{row.focal}).value == Approx(row.degrees).margin(0.0011));
  }
}

// A raster has square pixels, so its height over its width is the gate's.
Pinhole lens_of(Vec3 at, double pan, double tilt, double focal, double gate, double wide, double high) {
  return {at,
          Degrees{pan},
          Degrees{tilt},
          Degrees{0},
          Millimetres{focal},
          Millimetres{gate},
          Millimetres{gate * high / wide}};
}

}  // namespace

TEST_CASE("angles of view of the 36 by 24 gate agree with a published table") {
  // Horizontal, vertical and diagonal; http://leica-users.org/leica-users/v10/msg04586.html.
  check_angles({{36, 14, 104.250},
                {24, 14, 81.203},
                {43.2666, 14, 114.182},
                {36, 20, 83.974},
                {24, 24, 53.130},
                {36, 28, 65.470},
                {36, 35, 54.432},
                {24, 35, 37.849},
                {36, 50, 39.598},
                {24, 50, 26.991},
                {43.2666, 50, 46.793},
                {36, 90, 22.620},
                {36, 135, 15.189},
                {36, 200, 10.286},
                {36, 300, 6.867},
                {24, 300, 4.581}});
}

TEST_CASE("angles of view of film gates agree with values from OpenCV's calibrationMatrixValues") {
  // 24.89 x 18.66, its 1.85 and 2.39 crops, Academy, 16 mm, 65 mm and four-thirds.
  check_angles({{24.89, 18, 69.319},
                {18.66, 18, 54.798},
                {24.89 / 1.85, 18, 40.984},
                {24.89 / 2.39, 18, 32.269},
                {24.89, 35, 39.148},
                {18.66, 35, 29.853},
                {24.89 / 1.85, 35, 21.759},
                {24.89 / 2.39, 35, 16.924},
                {24.89, 50, 27.954},
                {24.89, 100, 14.188},
                {24.89 / 2.39, 100, 5.962},
                {21.95, 35, 34.820},
                {16.00, 50, 18.181},
                {12.52, 12, 55.099},
                {7.41, 25, 16.860},
                {52.48, 50, 55.381},
                {23.01, 80, 16.367},
                {17.3, 25, 38.171},
                {13.0, 42.5, 17.391}});
}

TEST_CASE("points land on the pixels that OpenCV's projectPoints gives") {
  // Worked with OpenCV 4.6 on a raster of 1920 by 1080. Its turns are counter-clockwise; a pan is a bearing.
  struct Row {
    Vec3 point, at;
    double pan, tilt, focal, gate, u, v, depth;
  };
  const std::array<Row, 6> rows{{
      {{0.5, 4, 1.6}, {0, 0, 1.6}, 0, 0, 50, 36, 1293.3333, 540.0000, 4.0000},
      {{-1, 5, 1.75}, {0, 0, 1.5}, 0, 0, 35, 24.89, 420.0241, 405.0060, 5.0000},
      {{0, 3, 0}, {0, 0, 1.6}, 0, -10, 25, 24.89, 960.0000, 1169.3014, 3.2323},
      {{1, 6, 1.2}, {0, 0, 1.6}, 15, -5, 32, 24.89, 721.1423, 487.4276, 6.0662},
      {{2, 2, 1.6}, {0, 0, 1.6}, 30, 0, 28, 36, 1360.1375, 540.0000, 2.7321},
      {{-0.4, 2.5, 1.64}, {0.2, -0.3, 1.45}, -8, 3, 75, 24.89, 546.6979, 458.6341, 2.8623},
  }};
  for (const Row& row : rows) {
    INFO("focal length " << row.focal << " mm, pan " << row.pan);
    const auto seen = project(lens_of(row.at, row.pan, row.tilt, row.focal, row.gate, 1920, 1080), row.point);
    REQUIRE(seen);
    CHECK(seen->at.u * 1920 == Approx(row.u).margin(0.001));
    CHECK(seen->at.v * 1080 == Approx(row.v).margin(0.001));
    CHECK(seen->depth.value == Approx(row.depth).margin(0.0001));
  }
}

TEST_CASE("the eyes of three people land where OpenCV puts them") {
  // 35 mm on 24.89 mm, level, 1.5 m up, raster 1998 by 1080; eyes at 0.936 of stature.
  const Pinhole lens = lens_of({0, 0, 1.5}, 0, 0, 35, 24.89, 1998, 1080);
  struct Row {
    Vec3 eyes;
    double u, v;
  };
  for (const Row& row : {Row{{-0.6, 3, 0.936 * 1.75}, 437.09, 410.76}, Row{{0.9, 5, 0.936 * 1.65}, 1504.72, 515.05},
                         Row{{0.2, 4, 0.936 * 1.80}, 1139.48, 410.20}}) {
    const auto seen = project(lens, row.eyes);
    REQUIRE(seen);
    CHECK(seen->at.u * 1998 == Approx(row.u).margin(0.01));
    CHECK(seen->at.v * 1080 == Approx(row.v).margin(0.01));
  }
}

TEST_CASE("points in the lens plane or behind it are not in the picture") {
  // OpenCV divides first and so shows a point behind the lens on the pixel of its mirror image (its issue 4628).
  const Pinhole lens = lens_of({0, 0, 0}, 0, 0, 35, 24.89, 1920, 1080);
  CHECK(project(lens, {10, 1000, -10}));
  CHECK_FALSE(project(lens, {-10, -1000, 10}));
  CHECK_FALSE(project(lens, {1, 0, 0}));
  CHECK_FALSE(project(lens, {0, 0.0009, 0}));
  CHECK(project(lens, {0, 0.0011, 0}));
  CHECK_FALSE(project(lens, {std::numeric_limits<double>::quiet_NaN(), 1, 0}));
}

TEST_CASE("the axes of a lens are square to each other and turn the way the signs say") {
  for (double pan : {-170.0, -35.0, 0.0, 90.0, 123.0}) {
    for (double tilt : {-80.0, -10.0, 0.0, 45.0}) {
      for (double roll : {-30.0, 0.0, 12.0}) {
        Pinhole lens;
        lens.pan = Degrees{pan};
        lens.tilt = Degrees{tilt};
        lens.roll = Degrees{roll};
        const LensAxes axes = axes_of(lens);
        CHECK(length(axes.forward) == Approx(1));
        CHECK(length(axes.right) == Approx(1));
        CHECK(dot(axes.forward, axes.right) == Approx(0).margin(1e-12));
        CHECK(length(cross(axes.right, axes.forward) - axes.up) == Approx(0).margin(1e-12));
      }
    }
  }
  Pinhole east;
  east.pan = Degrees{90};
  CHECK(axes_of(east).forward.x == Approx(1));
  CHECK(axes_of(east).right.y == Approx(-1));
  Pinhole rolled;
  rolled.roll = Degrees{10};
  // Rolled clockwise, the top of the camera leans to its right.
  CHECK(axes_of(rolled).up.x > 0.17);
}

TEST_CASE("a ray through a point of the picture comes back to it") {
  Pinhole lens = lens_of({1.2, -3, 1.4}, 37, -8, 40, 24.89, 1998, 1080);
  lens.roll = Degrees{5};
  for (double u : {-0.2, 0.0, 0.31, 0.5, 1.0, 1.4}) {
    for (double v : {-0.1, 0.2, 0.5, 0.9}) {
      for (double far : {0.02, 1.0, 40.0}) {
        const auto back = project(lens, lens.at + ray_through(lens, {u, v}) * far);
        REQUIRE(back);
        CHECK(back->at.u == Approx(u).margin(1e-9));
        CHECK(back->at.v == Approx(v).margin(1e-9));
      }
    }
  }
}

TEST_CASE("an aim puts its point in the middle of the picture") {
  for (const Vec3& point : {Vec3{3, 4, 1}, Vec3{-2, -7, 2.5}, Vec3{5, 0, 0}, Vec3{1, -2.5, 9}}) {
    Pinhole lens = lens_of({1, -2, 1.5}, 0, 0, 35, 24.89, 1998, 1080);
    const Aim aim = aim_at(lens.at, point);
    lens.pan = aim.pan;
    lens.tilt = aim.tilt;
    const auto seen = project(lens, point);
    REQUIRE(seen);
    CHECK(seen->at.u == Approx(0.5).margin(1e-9));
    CHECK(seen->at.v == Approx(0.5).margin(1e-9));
  }
  // Straight up and the point itself still give numbers.
  CHECK(aim_at({0, 0, 0}, {0, 0, 3}).tilt.value == Approx(90));
  CHECK(aim_at({1, 1, 1}, {1, 1, 1}).pan.value == Approx(0));
}
