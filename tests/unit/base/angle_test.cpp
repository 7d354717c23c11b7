// The reference is the host's C library in long double (64 bits of fraction on x86), rounded once; it stands outside
// the project. Exact values are from any table of sines.
#include "base/angle.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>

using namespace lensward;

namespace {

constexpr long double long_pi = 3.14159265358979323846264338327950288L;
constexpr double infinity = std::numeric_limits<double>::infinity();

// The reference's own argument is reduced in degrees first, where whole turns come off exactly.
long double in_radians(double degrees) { return std::fmod(static_cast<long double>(degrees), 360.0L) * long_pi / 180; }

double relative_error(double got, long double wanted) {
  if (wanted == 0) return std::fabs(got);
  return static_cast<double>(std::fabs((static_cast<long double>(got) - wanted) / wanted));
}

template <class Check>
void over_random(double low, double high, Check check) {
  std::mt19937_64 source(20240229);
  std::uniform_real_distribution<double> any(low, high);
  for (int i = 0; i < 20000; ++i) check(any(source));
}

}  // namespace

TEST_CASE("sine and cosine stay within 1e-14 to a million degrees") {
  double worst = 0;
  for (double reach : {1.0, 90.0, 720.0, 1e6}) {
    over_random(-reach, reach, [&](double angle) {
      worst = std::max(worst, static_cast<double>(std::fabs(sine(Degrees{angle}) - std::sin(in_radians(angle)))));
      worst = std::max(worst, static_cast<double>(std::fabs(cosine(Degrees{angle}) - std::cos(in_radians(angle)))));
    });
  }
  CAPTURE(worst);
  CHECK(worst < 1e-14);
}

TEST_CASE("whole quarters are exact") {
  CHECK(sine(0_deg) == 0);
  CHECK(sine(90_deg) == 1);
  CHECK(sine(180_deg) == 0);
  CHECK_FALSE(std::signbit(sine(180_deg)));
  CHECK(sine(-90_deg) == -1);
  CHECK(cosine(90_deg) == 0);
  CHECK(cosine(180_deg) == -1);
  CHECK(cosine(360000_deg) == 1);
  CHECK(sine(30_deg) == Approx(0.5).epsilon(1e-15));
  CHECK(tangent(45_deg) == Approx(1).epsilon(1e-15));
}

TEST_CASE("no angle is no sine") {
  for (double value : {infinity, -infinity, std::numeric_limits<double>::quiet_NaN()}) {
    CHECK(std::isnan(sine(Degrees{value})));
    CHECK(std::isnan(cosine(Degrees{value})));
    CHECK(std::isnan(tangent(Degrees{value})));
  }
}

TEST_CASE("arc tangent in all quarters") {
  double worst = 0;
  over_random(-4, 4, [&](double y) {
    for (double x : {-3.0, -1.0, -1e-8, 1e-8, 0.37, 1.0, 2.5}) {
      const long double wanted = std::atan2(static_cast<long double>(y), static_cast<long double>(x)) * 180 / long_pi;
      worst = std::max(worst, static_cast<double>(std::fabs(arc_tangent(y, x).value - wanted)));
    }
  });
  CAPTURE(worst);
  CHECK(worst < 1e-13);
  CHECK(arc_tangent(0, 0).value == 0);
  CHECK(arc_tangent(0, -1).value == 180);
  CHECK(arc_tangent(-0.0, -1).value == 180);
  CHECK(arc_tangent(-1e-300, -1).value == 180);
  CHECK(arc_tangent(1, 0).value == 90);
  CHECK(arc_tangent(-1, 0).value == -90);
  CHECK(arc_tangent(1, 1).value == Approx(45).epsilon(1e-15));
}

TEST_CASE("arc sine and arc cosine, and beyond their ends") {
  double worst = 0;
  over_random(-1, 1, [&](double value) {
    const auto exact = static_cast<long double>(value);
    worst = std::max(worst, static_cast<double>(std::fabs(arc_cosine(value).value - std::acos(exact) * 180 / long_pi)));
    worst = std::max(worst, static_cast<double>(std::fabs(arc_sine(value).value - std::asin(exact) * 180 / long_pi)));
  });
  CAPTURE(worst);
  CHECK(worst < 1e-13);
  CHECK(arc_cosine(1.0000000000000002).value == 0);
  CHECK(arc_cosine(-1.5).value == 180);
  CHECK(arc_sine(2).value == 90);
  CHECK(arc_sine(-2).value == -90);
}

TEST_CASE("exponential stays within 1e-14") {
  double worst = 0;
  for (double reach : {0.1, 1.0, 20.0, 700.0}) {
    over_random(-reach, reach, [&](double x) {
      worst = std::max(worst, relative_error(exponential(x), std::exp(static_cast<long double>(x))));
    });
  }
  CAPTURE(worst);
  CHECK(worst < 1e-14);
  CHECK(exponential(0) == 1);
  CHECK(exponential(-1000) == 0);
  CHECK(exponential(1000) == infinity);
  CHECK(exponential(-infinity) == 0);
  CHECK(exponential(709.78) == Approx(static_cast<double>(std::exp(709.78L))).epsilon(1e-13));
  CHECK(exponential(-740) > 0);
}

TEST_CASE("logarithms stay within 1e-14, near one as well") {
  double worst = 0;
  for (double reach : {1e-300, 0.5, 3.0, 1e6, 1e300}) {
    over_random(0, reach, [&](double x) {
      if (x <= 0) return;
      worst = std::max(worst, relative_error(natural_log(x), std::log(static_cast<long double>(x))));
      worst = std::max(worst, relative_error(lensward::log2(x), std::log2(static_cast<long double>(x))));
    });
  }
  over_random(0.99, 1.01, [&](double x) {
    worst = std::max(worst, relative_error(natural_log(x), std::log(static_cast<long double>(x))));
  });
  CAPTURE(worst);
  CHECK(worst < 1e-14);
  CHECK(natural_log(0) == -infinity);
  CHECK(natural_log(-1) == -infinity);
  CHECK(lensward::log2(-1) == -infinity);
  CHECK(natural_log(5e-324) == Approx(static_cast<double>(std::log(static_cast<long double>(5e-324)))).epsilon(1e-14));
  for (int n = -30; n <= 30; ++n) CHECK(lensward::log2(std::ldexp(1.0, n)) == n);
}

TEST_CASE("power stays within 1e-14, for large exponents too") {
  double worst = 0;
  for (double base : {1e-5, 0.3, 0.999999, 1.00001, 2.0, 7.5, 1e4}) {
    const double reach = std::min(600 / std::fabs(std::log(base)), 1e6);
    over_random(-reach, reach, [&](double exponent) {
      const long double wanted = std::pow(static_cast<long double>(base), static_cast<long double>(exponent));
      worst = std::max(worst, relative_error(power(base, exponent), wanted));
    });
  }
  CAPTURE(worst);
  CHECK(worst < 1e-14);
}

// The special values are those of ISO C, annex F.10.4.4.
TEST_CASE("power at its edges") {
  CHECK(power(2, 10) == 1024);
  CHECK(power(-2, 3) == Approx(-8).epsilon(1e-15));
  CHECK(power(-2, 2) == Approx(4).epsilon(1e-15));
  CHECK(power(-1, 3) == -1);
  CHECK(power(-1, infinity) == 1);
  CHECK(std::isnan(power(-2, 0.5)));
  CHECK(power(0, 0) == 1);
  CHECK(power(0, 2) == 0);
  CHECK(power(0, -2) == infinity);
  CHECK(power(10, 400) == infinity);
  CHECK(power(10, -400) == 0);
  CHECK(power(infinity, -1) == 0);
  CHECK(power(0.5, infinity) == 0);
}

TEST_CASE("bearings go clockwise from north") {
  CHECK(bearing_of({0, 1}).value == 0);
  CHECK(bearing_of({1, 0}).value == 90);
  CHECK(bearing_of({0, -1}).value == 180);
  CHECK(bearing_of({-1, 0}).value == -90);
  CHECK(direction_of(90_deg) == Vec2{1, 0});
  CHECK(direction_of(0_deg) == Vec2{0, 1});
}

TEST_CASE("wrapped angles lie above -180 and up to 180") {
  CHECK(wrapped(180_deg).value == 180);
  CHECK(wrapped(-180_deg).value == 180);
  CHECK(wrapped(540_deg).value == 180);
  CHECK(wrapped(190_deg).value == -170);
  CHECK(wrapped(-190_deg).value == 170);
  CHECK(wrapped(720_deg).value == 0);
  CHECK_FALSE(std::signbit(wrapped(-360_deg).value));
}
