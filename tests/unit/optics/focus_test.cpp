#include "optics/focus.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace lensward;

namespace {

constexpr double inch = 0.0254;

double feet(double whole, double inches = 0) { return (whole * 12 + inches) * inch; }

}  // namespace

// Cine tables for the 0.001 inch circle ("Depth of field calculations", handbook text; H = f²/(N·c)). Tolerance: half
// an inch, as such tables are printed.
TEST_CASE("hyperfocal distances of the handbook tables, feet and inches") {
  struct Row {
    double focal, stop, feet, inches;
  };
  const Row rows[] = {
      {25, 2.8, 28, 10.0}, {25, 4, 20, 2.2},    {25, 5.6, 14, 5.0},  {25, 8, 10, 1.1},    {35, 2.8, 56, 6.1},
      {35, 4, 39, 6.7},    {35, 5.6, 28, 3.1},  {35, 8, 19, 9.3},    {50, 2.8, 115, 3.9}, {50, 4, 80, 8.8},
      {50, 5.6, 57, 8.0},  {50, 8, 40, 4.4},    {75, 2.8, 259, 5.8}, {75, 4, 181, 7.7},   {75, 5.6, 129, 8.9},
      {75, 8, 90, 9.8},    {85, 2.8, 333, 3.6}, {85, 4, 233, 3.7},   {85, 5.6, 166, 7.8}, {85, 8, 116, 7.8},
  };
  for (const Row& row : rows) {
    INFO(row.focal << " mm at " << row.stop);
    const Metres h = hyperfocal(Millimetres{row.focal}, FNumber{row.stop}, Millimetres{0.0254});
    CHECK(h.value == Approx(feet(row.feet, row.inches)).margin(0.5 * inch));
  }
}

// The same formula for the metric circle of 0.025 mm; values worked by hand from f²/(N·c).
TEST_CASE("hyperfocal distances for a circle of 0.025 mm") {
  struct Row {
    double focal, metres[4];
  };
  const double stops[] = {2.8, 4, 5.6, 8};
  const Row rows[] = {
      {25, {8.929, 6.250, 4.464, 3.125}},      {35, {17.500, 12.250, 8.750, 6.125}},
      {50, {35.714, 25.000, 17.857, 12.500}},  {75, {80.357, 56.250, 40.179, 28.125}},
      {85, {103.214, 72.250, 51.607, 36.125}},
  };
  for (const Row& row : rows) {
    for (int i = 0; i < 4; ++i) {
      INFO(row.focal << " mm at " << stops[i]);
      CHECK(hyperfocal(Millimetres{row.focal}, FNumber{stops[i]}, 0.025_mm).value ==
            Approx(row.metres[i]).margin(0.001));
    }
  }
}

// Handbook-style near and far limits for the 0.001 inch circle. The tables drop the - f and round to the inch:
// tolerance 1 inch or 1 %. Dropping the - f moves a far limit by far·f/(H·S) of itself, which counts near the
// hyperfocal distance. A far limit of 0 stands for infinity.
TEST_CASE("near and far limits as printed in cine tables") {
  struct Row {
    double focal, stop, at, near_feet, near_inches, far_feet, far_inches;
  };
  const Row rows[] = {
      {25, 2.8, 4, 3, 6.2, 4, 7.7},    {25, 2.8, 6, 4, 11.6, 7, 6.9},    {25, 2.8, 8, 6, 3.1, 11, 0.9},
      {25, 2.8, 10, 7, 5.1, 15, 3.7},  {25, 2.8, 15, 9, 10.4, 31, 3.2},  {25, 2.8, 25, 13, 4.7, 188, 1.0},
      {25, 5.6, 4, 3, 1.6, 5, 6.4},    {25, 5.6, 6, 4, 2.8, 10, 3.3},    {25, 5.6, 8, 5, 1.7, 17, 11.7},
      {25, 5.6, 10, 5, 10.9, 32, 7.7}, {25, 5.6, 15, 7, 4.2, 0, 0},      {25, 5.6, 25, 9, 1.7, 0, 0},
      {35, 2.8, 4, 3, 8.8, 4, 3.7},    {35, 2.8, 6, 5, 5.1, 6, 8.6},     {35, 2.8, 8, 7, 0.1, 9, 3.8},
      {35, 2.8, 10, 8, 6.0, 12, 1.8},  {35, 2.8, 15, 11, 10.2, 20, 5.0}, {35, 2.8, 25, 17, 4.0, 44, 10.0},
      {35, 5.6, 4, 3, 6.0, 4, 7.9},    {35, 5.6, 6, 4, 11.4, 7, 7.4},    {35, 5.6, 8, 6, 2.8, 11, 1.9},
      {35, 5.6, 10, 7, 4.6, 15, 5.7},  {35, 5.6, 15, 9, 9.6, 31, 11.7},  {35, 5.6, 25, 13, 3.2, 217, 0.0},
      {50, 2.8, 4, 3, 10.4, 4, 1.7},   {50, 2.8, 6, 5, 8.4, 6, 4.0},     {50, 2.8, 8, 7, 5.8, 8, 7.2},
      {50, 2.8, 10, 9, 2.4, 10, 11.4}, {50, 2.8, 15, 13, 3.3, 17, 2.9},  {50, 2.8, 25, 20, 6.6, 31, 11.0},
      {50, 5.6, 4, 3, 8.9, 4, 3.6},    {50, 5.6, 6, 5, 5.2, 6, 8.4},     {50, 5.6, 8, 7, 0.3, 9, 3.5},
      {50, 5.6, 10, 8, 6.3, 12, 1.2},  {50, 5.6, 15, 11, 10.8, 20, 3.3}, {50, 5.6, 25, 17, 5.3, 44, 1.6},
      {85, 2.8, 4, 3, 11.4, 4, 0.6},   {85, 2.8, 6, 5, 10.7, 6, 1.3},    {85, 2.8, 8, 7, 9.7, 8, 2.4},
      {85, 2.8, 10, 9, 8.5, 10, 3.7},  {85, 2.8, 15, 14, 4.2, 15, 8.5},  {85, 2.8, 25, 23, 3.1, 27, 0.3},
      {85, 5.6, 4, 3, 10.9, 4, 1.2},   {85, 5.6, 6, 5, 9.5, 6, 2.7},     {85, 5.6, 8, 7, 7.6, 8, 4.8},
      {85, 5.6, 10, 9, 5.2, 10, 7.7},  {85, 5.6, 15, 13, 9.1, 16, 5.8},  {85, 5.6, 25, 21, 8.9, 29, 4.9}};
  for (const Row& row : rows) {
    INFO(row.focal << " mm at " << row.stop << ", " << row.at << " ft");
    const SharpRange range =
        sharp_range(Millimetres{row.focal}, FNumber{row.stop}, Millimetres{0.0254}, Metres{feet(row.at)});
    CHECK(range.near.value == Approx(feet(row.near_feet, row.near_inches)).margin(inch).epsilon(0.01));
    CHECK(range.far.has_value() == (row.far_feet > 0));
    if (!range.far) continue;
    const double far = feet(row.far_feet, row.far_inches);
    const Metres h = hyperfocal(Millimetres{row.focal}, FNumber{row.stop}, Millimetres{0.0254});
    const double dropped = far / h.value * row.focal / 1000 / feet(row.at);
    CHECK(range.far->value == Approx(far).margin(inch).epsilon(0.01 + dropped));
  }
}

// The exact form S·f²/(f² ± N·c·(S − f)), circle 0.025 mm, worked by hand.
TEST_CASE("near and far limits in metres") {
  struct Row {
    double focal, stop, at, near, far;
  };
  const double infinity = 0;
  const Row rows[] = {
      {25, 2.8, 2, 1.638, 2.568},     {25, 2.8, 3, 2.250, 4.499}, {25, 2.8, 5, 3.211, 11.292},
      {25, 2.8, 10, 4.723, infinity}, {35, 4, 2, 1.724, 2.382},   {35, 4, 3, 2.415, 3.958},
      {35, 4, 5, 3.558, 8.408},       {50, 2, 1.5, 1.458, 1.545}, {50, 2, 3, 2.833, 3.188},
      {50, 2.8, 2, 1.896, 2.116},     {50, 2.8, 3, 2.771, 3.270}, {50, 2.8, 5, 4.391, 5.805},
      {50, 2.8, 10, 7.821, 13.862},   {50, 8, 3, 2.427, 3.927},   {85, 2, 2, 1.974, 2.027},
      {85, 2, 3, 2.941, 3.062},       {85, 2, 5, 4.836, 5.176},   {85, 5.6, 5, 4.565, 5.526},
  };
  for (const Row& row : rows) {
    INFO(row.focal << " mm at " << row.stop << ", " << row.at << " m");
    const SharpRange range = sharp_range(Millimetres{row.focal}, FNumber{row.stop}, 0.025_mm, Metres{row.at});
    CHECK(range.near.value == Approx(row.near).margin(0.001));
    CHECK(range.far.has_value() == (row.far != infinity));
    if (range.far) CHECK(range.far->value == Approx(row.far).margin(0.001));
  }
}

// A magazine's worked example (In Sync): 50 mm, f/4, 10 ft: circle 0.03 mm gives 8 ft 9 in to 11 ft 8 in; 0.019 mm
// gives 9 ft 2 in to 11 ft 0 in.
TEST_CASE("a published depth of field example") {
  const SharpRange stills = sharp_range(50_mm, FNumber{4}, 0.03_mm, Metres{feet(10)});
  CHECK(stills.near.value == Approx(feet(8, 9)).margin(inch));
  CHECK(stills.far->value == Approx(feet(11, 8)).margin(inch));
  const SharpRange fine = sharp_range(50_mm, FNumber{4}, 0.019_mm, Metres{feet(10)});
  CHECK(fine.near.value == Approx(feet(9, 2)).margin(inch));
  CHECK(fine.far->value == Approx(feet(11, 0)).margin(inch));
}

// Thin lens (Greenleaf 1950; Ray, Applied Photographic Optics), worked by hand.
TEST_CASE("blur discs on the gate") {
  struct Row {
    double focal, stop, focus, distance, millimetres;
  };
  const Row rows[] = {
      {50, 2.8, 3, 4, 0.07567}, {50, 2.8, 3, 2, 0.15133}, {50, 2, 2, 4, 0.32051},     {85, 2, 2.5, 5, 0.74793},
      {35, 4, 3, 6, 0.05164},   {25, 2.8, 2, 8, 0.08476}, {75, 2.8, 3, 1e9, 0.68681},
  };
  for (const Row& row : rows) {
    INFO(row.focal << " mm at " << row.stop << " from " << row.focus << " to " << row.distance << " m");
    CHECK(blur_disc(Millimetres{row.focal}, FNumber{row.stop}, Metres{row.focus}, Metres{row.distance}).value ==
          Approx(row.millimetres).margin(1e-5));
  }
}

// By definition: the limits of sharpness are where the disc equals the circle.
TEST_CASE("the disc at both limits is the circle") {
  const double focals[] = {18, 35, 50, 85};
  for (const double focal : focals) {
    const SharpRange range = sharp_range(Millimetres{focal}, FNumber{2.8}, 0.025_mm, 2.4_m);
    CHECK(blur_disc(Millimetres{focal}, FNumber{2.8}, 2.4_m, range.near).value == Approx(0.025).epsilon(1e-9));
    REQUIRE(range.far);
    CHECK(blur_disc(Millimetres{focal}, FNumber{2.8}, 2.4_m, *range.far).value == Approx(0.025).epsilon(1e-9));
  }
  CHECK(blur_disc(50_mm, FNumber{2}, 2_m, 2_m).value == 0);
}

// A ray count of our own stands in for a lens: parallel to DOF-03 it uses only similar triangles, point by point over
// the pupil, and the lens equation 1/f = 1/x + 1/x'.
TEST_CASE("the disc agrees with rays traced through the pupil") {
  struct Row {
    double focal, stop, focus, distance;
  };
  const Row rows[] = {{50, 2.8, 3, 4}, {85, 2, 2.5, 5}, {25, 2.8, 2, 8}, {35, 1.4, 4, 0.9}};
  for (const Row& row : rows) {
    const double gate = 1 / (1 / row.focal - 1 / (row.focus * 1000));
    const double image = 1 / (1 / row.focal - 1 / (row.distance * 1000));
    const double pupil = row.focal / row.stop / 2;
    double lowest = 0, highest = 0;
    for (int i = -50; i <= 50; ++i) {
      const double leaves_at = pupil * i / 50;
      const double lands_at = leaves_at + (0 - leaves_at) * gate / image;
      lowest = std::min(lowest, lands_at);
      highest = std::max(highest, lands_at);
    }
    CHECK(blur_disc(Millimetres{row.focal}, FNumber{row.stop}, Metres{row.focus}, Metres{row.distance}).value ==
          Approx(highest - lowest).epsilon(1e-9));
  }
}

TEST_CASE("focus and distance nearer than a lens allows stay finite") {
  CHECK(std::isfinite(blur_disc(50_mm, FNumber{2}, 0_m, 3_m).value));
  CHECK(blur_disc(50_mm, FNumber{2}, 0_m, 3_m) == blur_disc(50_mm, FNumber{2}, Metres{0.055}, 3_m));
  CHECK(blur_disc(50_mm, FNumber{2}, 3_m, 0_m) == blur_disc(50_mm, FNumber{2}, 3_m, Metres{0.01}));
  CHECK(blur_disc(50_mm, FNumber{2}, 3_m, Metres{-1}) == blur_disc(50_mm, FNumber{2}, 3_m, Metres{0.01}));
}

// Best split for a near and b far, 2ab/(a + b), and the stop that just holds both: worked by hand.
TEST_CASE("the focus that splits two distances") {
  struct Row {
    double a, b, focal, focus, stop;
  };
  const Row rows[] = {
      {2, 3, 50, 2.4000, 8.511}, {1.5, 4, 35, 2.1818, 10.375}, {3, 6, 75, 4.0000, 19.108}, {2, 8, 25, 3.2000, 4.724}};
  for (const Row& row : rows) {
    const Metres focus = split_focus(Metres{row.a}, Metres{row.b});
    CHECK(focus.value == Approx(row.focus).margin(1e-4));
    const FNumber stop{row.stop};
    CHECK(blur_disc(Millimetres{row.focal}, stop, focus, Metres{row.a}).value == Approx(0.025).epsilon(2e-4));
    CHECK(blur_disc(Millimetres{row.focal}, stop, focus, Metres{row.b}).value == Approx(0.025).epsilon(2e-4));
  }
}
