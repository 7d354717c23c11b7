#include "lens/raster.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "base/angle.h"
#include "figure/figure.h"

using namespace lensward;

namespace {

// Looking north from the origin, 90 degrees across.
Pinhole wide_lens() {
  Pinhole lens;
  lens.focal = Millimetres{10};
  lens.gate_width = Millimetres{20};
  lens.gate_height = Millimetres{10};
  return lens;
}
constexpr int columns = 800, rows = 400;
// Pixels in a square of side 1 at unit distance.
constexpr double pixels_per_area = 400.0 * 400.0;

Solid sphere(Vec3 middle, double radius) {
  Solid solid;
  solid.a = solid.b = middle;
  solid.radii = {radius, radius, radius};
  return solid;
}

Solid round_cone(Vec3 a, double ra, Vec3 b, double rb) {
  Solid solid;
  solid.shape = Solid::Shape::round_cone;
  solid.a = a;
  solid.b = b;
  solid.ra = ra;
  solid.rb = rb;
  return solid;
}

Solid box(Vec3 middle, Vec3 half) {
  Solid solid;
  solid.shape = Solid::Shape::box;
  solid.a = solid.b = middle;
  solid.radii = half;
  return solid;
}

int count(const Raster& raster, int solid) {
  int sum = 0;
  for (const std::int32_t shown : raster.solid) sum += shown == solid ? 1 : 0;
  return sum;
}

// One pixel on either side of an outline.
double ring(double area) { return 2 * std::sqrt(pi * area) + 4; }

std::vector<Solid> mixed_solids(unsigned seed, int how_many) {
  std::mt19937 random(seed);
  const auto between = [&](double low, double high) {
    return low + (high - low) * (static_cast<double>(random() % 100000) / 100000);
  };
  std::vector<Solid> solids;
  for (int i = 0; i < how_many; ++i) {
    Solid solid;
    solid.shape = static_cast<Solid::Shape>(i % 4);
    solid.a = {between(-3, 3), between(1.5, 7), between(-1.5, 1.5)};
    solid.b = solid.a + Vec3{between(-1, 1), between(-1, 1), between(-1, 1)};
    solid.ra = between(0.05, 0.5);
    solid.rb = between(0.05, 0.5);
    solid.radii = {between(0.05, 0.6), between(0.05, 0.6), between(0.05, 0.6)};
    solid.x_axis = unit(solid.b - solid.a);
    solid.y_axis = unit(cross(solid.x_axis, {0.1, 0.2, 0.9}));
    solid.z_axis = cross(solid.x_axis, solid.y_axis);
    solid.flat = between(0.4, 1);
    solid.flat_axis = solid.y_axis;
    solids.push_back(solid);
  }
  return solids;
}

}  // namespace

// A sphere's outline through a pinhole is the section of a right cone of half angle a, sin a = radius / distance, whose
// axis makes an angle t with the lens axis: an ellipse of half axes sin a·cos a / (cos²t - sin²a) and
// sin a / √(cos²t - sin²a). Textbook geometry of conics.
TEST_CASE("a sphere covers the ellipse that its cone cuts from the picture") {
  const auto [at, radius] = GENERATE(
      table<Vec3, double>({{{0, 4, 0}, 0.5}, {{1.5, 3, 0.4}, 0.4}, {{-2, 4, -0.6}, 0.7}, {{0.3, 12, 0.2}, 0.1}}));
  const Raster raster = rasterise(std::vector<Solid>{sphere(at, radius)}, wide_lens(), columns, rows);
  const double sin_a = radius / length(at), cos_t = at.y / length(at);
  const double under = cos_t * cos_t - sin_a * sin_a;
  const double area =
      pi * (sin_a * std::sqrt(1 - sin_a * sin_a) / under) * (sin_a / std::sqrt(under)) * pixels_per_area;
  CHECK(std::fabs(count(raster, 0) - area) < ring(area) / 4);
}

TEST_CASE("a box seen straight on covers its near face, at the depth of it") {
  const Raster raster = rasterise(std::vector<Solid>{box({0, 5, 0}, {1, 1, 0.5})}, wide_lens(), columns, rows);
  // The near face is 2 by 1 m at 4 m.
  CHECK(count(raster, 0) == Approx(0.5 * 0.25 * pixels_per_area).margin(2 * (200 + 100)));
  CHECK(raster.depth[static_cast<std::size_t>(rows / 2 * columns + columns / 2)] == Approx(4).epsilon(1e-5));
  CHECK(raster.solid_at(0, 0) == -1);
  CHECK(std::isinf(raster.depth[0]));
}

TEST_CASE("a tube seen along its axis covers its near disc; a round cone reaches beyond it by its radius") {
  Solid tube = round_cone({0, 4, 0}, 0.5, {0, 6, 0}, 0.5);
  tube.shape = Solid::Shape::frustum;
  const std::size_t middle = static_cast<std::size_t>(rows / 2 * columns + columns / 2);
  const Raster disc = rasterise(std::vector<Solid>{tube}, wide_lens(), columns, rows);
  const double area = pi * 0.125 * 0.125 * pixels_per_area;
  CHECK(std::fabs(count(disc, 0) - area) < ring(area));
  CHECK(disc.depth[middle] == Approx(4).epsilon(1e-5));
  tube.shape = Solid::Shape::round_cone;
  CHECK(rasterise(std::vector<Solid>{tube}, wide_lens(), columns, rows).depth[middle] == Approx(3.5).epsilon(1e-4));
}

TEST_CASE("squashing a round cone toward the lens halves its thickness and leaves its outline") {
  Solid solid = round_cone({0, 40, -1}, 0.5, {0, 40, 1}, 0.5);
  solid.flat = 0.5;
  solid.flat_axis = {0, 1, 0};
  Pinhole lens = wide_lens();
  lens.focal = Millimetres{100};
  const Raster flat = rasterise(std::vector<Solid>{solid}, lens, columns, rows);
  solid.flat = 1;
  const Raster full = rasterise(std::vector<Solid>{solid}, lens, columns, rows);
  const std::size_t middle = static_cast<std::size_t>(rows / 2 * columns + columns / 2);
  CHECK(flat.depth[middle] == Approx(39.75).epsilon(1e-5));
  CHECK(full.depth[middle] == Approx(39.5).epsilon(1e-5));
  CHECK(count(flat, 0) == Approx(count(full, 0)).epsilon(0.02));
}

// The rays of `blocked` are another piece of code, in other arithmetic: both must see the same solids.
TEST_CASE("every pixel shows what a ray through its middle meets first") {
  const unsigned seed = GENERATE(1U, 2U, 3U);
  const std::vector<Solid> solids = mixed_solids(seed, 24);
  constexpr int width = 160, height = 80;
  const Pinhole lens = wide_lens();
  const Raster raster = rasterise(solids, lens, width, height);
  int wrong = 0;
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const Vec3 way = ray_through(lens, {(x + 0.5) / width, (y + 0.5) / height});
      const std::int32_t shown = raster.solid_at(x, y);
      const double depth = static_cast<double>(raster.depth[static_cast<std::size_t>(y * width + x)]);
      if (shown < 0) {
        if (blocked(solids, {0, 0, 0}, way * 30)) ++wrong;
        continue;
      }
      const double along = depth / way.y;
      // Nothing but the solid shown stands nearer, and it is there.
      if (blocked(solids, {0, 0, 0}, way * (along - 0.005))) ++wrong;
      if (!blocked(std::span(&solids[static_cast<std::size_t>(shown)], 1), {0, 0, 0}, way * (along + 0.03))) ++wrong;
    }
  }
  // Pixels whose middle lies within rounding of an outline.
  CHECK(wrong <= width * height / 500);
}

TEST_CASE("a mirrored scene gives the mirrored picture") {
  std::vector<Solid> solids = mixed_solids(5, 20), mirror = solids;
  for (Solid& solid : mirror) {
    for (Vec3* v : {&solid.a, &solid.b, &solid.x_axis, &solid.y_axis, &solid.z_axis, &solid.flat_axis}) v->x = -v->x;
  }
  const Raster one = rasterise(solids, wide_lens(), 200, 100), other = rasterise(mirror, wide_lens(), 200, 100);
  int different = 0;
  for (int y = 0; y < 100; ++y) {
    for (int x = 0; x < 200; ++x) different += one.solid_at(x, y) != other.solid_at(199 - x, y) ? 1 : 0;
  }
  CHECK(different <= 4);
}

TEST_CASE("a lens inside a solid sees that solid and nothing else") {
  const std::vector<Solid> around[] = {
      {sphere({0, 0, 0}, 1)}, {box({0, 0, 0}, {1, 1, 1})}, {round_cone({-0.5, 0, 0}, 0.7, {0.5, 0.1, 0}, 0.6)}};
  for (std::vector<Solid> solids : around) {
    solids.push_back(sphere({0, 3, 0}, 1));
    const Raster raster = rasterise(solids, wide_lens(), 60, 30);
    CHECK(count(raster, 0) == 60 * 30);
    for (const float depth : raster.depth) CHECK(depth == Approx(0.05));
  }
}

TEST_CASE("what stands behind the lens or is cut away by it is not drawn") {
  const std::vector<Solid> solids{sphere({0, -3, 0}, 1), box({0, -2, 0}, {0.5, 0.5, 0.5}), sphere({0, 0.02, 0.5}, 0.02),
                                  round_cone({0, -1, 0}, 0.2, {0, -4, 0}, 0.2)};
  const Raster raster = rasterise(solids, wide_lens(), 60, 30);
  CHECK(count(raster, -1) == 60 * 30);
}

TEST_CASE("a margin adds to every side and keeps the pixels") {
  const std::vector<Solid> solids = mixed_solids(9, 16);
  const Raster plain = rasterise(solids, wide_lens(), 100, 50), wide = rasterise(solids, wide_lens(), 100, 50, 0.5);
  REQUIRE(wide.width == 200);
  REQUIRE(wide.height == 100);
  int different = 0;
  for (int y = 0; y < 50; ++y) {
    for (int x = 0; x < 100; ++x) different += plain.solid_at(x, y) != wide.solid_at(x + 50, y + 25) ? 1 : 0;
  }
  CHECK(different <= 2);
}

TEST_CASE("the normal of a sphere points from its middle, of a box out of the side that is met") {
  const Pinhole lens = wide_lens();
  const Vec3 on_ball = normal_at(sphere({0, 4, 0}, 1), lens, {0.5, 0.5});
  CHECK(on_ball.y == Approx(-1));
  const Vec3 on_box = normal_at(box({0, 4, -1.5}, {1, 1, 1}), lens, {0.5, 0.62});
  CHECK(std::fabs(on_box.x) + std::fabs(on_box.y) + std::fabs(on_box.z) == Approx(1));
  Solid cone = round_cone({0, 4, -1}, 0.8, {0, 4, 1}, 0.2);
  // The side of a cone leans back by arcsin((ra - rb) / length).
  CHECK(normal_at(cone, lens, {0.5, 0.5}).z == Approx(0.3).margin(1e-6));
  cone.shape = Solid::Shape::frustum;
  // Of one cut flat by arctan.
  CHECK(normal_at(cone, lens, {0.5, 0.5}).z == Approx(0.3 / std::sqrt(1.09)).margin(1e-6));
}

TEST_CASE("a way is blocked by what stands in it, not by what touches its ends or is skipped") {
  const std::vector<Solid> solids{sphere({0, 5, 0}, 1), box({3, 5, 0}, {0.5, 0.5, 0.5})};
  CHECK(blocked(solids, {0, 0, 0}, {0, 10, 0}));
  CHECK_FALSE(blocked(solids, {0, 0, 0}, {0, 10, 0}, 0));
  CHECK_FALSE(blocked(solids, {0, 0, 0}, {0, 4.01, 0}));
  CHECK(blocked(solids, {0, 0, 0}, {0, 4.05, 0}));
  CHECK(blocked(solids, {3, 0, 0}, {3, 10, 0}, 0));
  CHECK_FALSE(blocked(solids, {3, 0, 0.51}, {3, 10, 0.51}));
}
