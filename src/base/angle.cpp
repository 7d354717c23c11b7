#include "base/angle.h"

#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>

namespace lensward {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double radians_in_degree = pi / 180;
constexpr double degrees_in_radian = 180 / pi;

// ln 2 in two parts; the low 32 bits of the first are zero, so that its product with any exponent is exact.
constexpr double ln2_high = 6.93147180369123816490e-01;
constexpr double ln2_low = 1.90821492927058770002e-10;
constexpr double log2_of_e = 1.44269504088896340736;

// A value held as an unrounded sum, the second part under half a unit in the last place of the first.
struct Doubled {
  double high = 0, low = 0;
};

// Knuth's and Dekker's error-free sum and product (T. J. Dekker, Numerische Mathematik 18, 1971).
Doubled exact_sum(double a, double b) {
  const double sum = a + b;
  const double of_b = sum - a;
  return {sum, (a - (sum - of_b)) + (b - of_b)};
}
std::pair<double, double> halves(double a) {
  const double shifted = a * 134217729.0;
  const double upper = shifted - (shifted - a);
  return {upper, a - upper};
}
Doubled exact_product(double a, double b) {
  const double product = a * b;
  const auto [a_high, a_low] = halves(a);
  const auto [b_high, b_low] = halves(b);
  return {product, ((a_high * b_high - product) + a_high * b_low + a_low * b_high) + a_low * b_low};
}

// Taylor sums: on the quarter turn about zero (|x| <= pi/4) the first term left out is below 1e-19.
// What takes one term to the next, less the square: a division by each would take most of the time.
constexpr double factor(int n) { return -1.0 / ((n - 1) * n); }
constexpr std::array<double, 8> sine_factors{factor(3),  factor(5),  factor(7),  factor(9),
                                             factor(11), factor(13), factor(15), factor(17)};
constexpr std::array<double, 8> cosine_factors{factor(4),  factor(6),  factor(8),  factor(10),
                                               factor(12), factor(14), factor(16), factor(18)};
double sine_near_zero(double x) {
  const double s = x * x;
  double sum = 0;
  for (std::size_t i = sine_factors.size(); i-- > 0;) sum = (1 + sum) * (s * sine_factors[i]);
  return x + x * sum;
}
double cosine_near_zero(double x) {
  const double s = x * x;
  double sum = 0;
  for (std::size_t i = cosine_factors.size(); i-- > 0;) sum = (1 + sum) * (s * cosine_factors[i]);
  return 1 - s / 2 * (1 + sum);
}

// The sine of `angle` plus so many quarter turns. Taking whole quarters off degrees is exact, which is why the
// reduction is done before the change to radians.
double sine_of_quarters(Degrees angle, std::int64_t quarters_more) {
  if (!(std::fabs(angle.value) < 1e15)) return not_a_number;
  const double turns = std::nearbyint(angle.value / 90);
  const double rest = (angle.value - turns * 90) * radians_in_degree;
  const std::int64_t quarter = (static_cast<std::int64_t>(turns) + quarters_more) & 3;
  const double size = quarter % 2 == 0 ? sine_near_zero(rest) : cosine_near_zero(rest);
  // Adding zero turns -0 into 0.
  return (quarter < 2 ? size : -size) + 0.0;
}

constexpr std::array<double, 9> arc_tangent_of_eighths = {
    0.0,
    0.12435499454676144,
    0.24497866312686414,
    0.35877067027057225,
    0.4636476090008061,
    0.5585993153435624,
    0.6435011087932844,
    0.7188299996216245,
    0.7853981633974483,
};

// For 0 <= t <= 1, in radians: atan t = atan c + atan((t - c)/(1 + tc)), with c the nearest eighth.
double arc_tangent_below_one(double t) {
  const double eighths = std::nearbyint(t * 8);
  const double c = eighths / 8;
  const double rest = (t - c) / (1 + t * c);
  const double s = rest * rest;
  double sum = 0;
  for (int n = 15; n >= 3; n -= 2) sum = s * (1.0 / n - sum);
  return arc_tangent_of_eighths[static_cast<std::size_t>(eighths)] + (rest - rest * sum);
}

double power_of_two(int exponent) { return std::bit_cast<double>(static_cast<std::uint64_t>(exponent + 1023) << 52); }

// e^(x.high + x.low).
double exponential_of(Doubled x) {
  if (std::isnan(x.high)) return x.high;
  if (x.high > 709.9) return infinity;
  if (x.high < -745.2) return 0;
  const double halvings = std::nearbyint(x.high * log2_of_e);
  const double rest = ((x.high - halvings * ln2_high) - halvings * ln2_low) + x.low;
  double sum = 0;
  for (int n = 15; n >= 2; --n) sum = (1 + sum) * (rest / n);
  const double value = 1 + (rest + rest * sum);
  // In two steps, so that neither end of the range is met too early.
  const int exponent = static_cast<int>(halvings);
  return value * power_of_two(exponent / 2) * power_of_two(exponent - exponent / 2);
}

// value = mantissa · 2^exponent with mantissa in sqrt(1/2)..sqrt(2). Requires a finite value > 0.
struct Parts {
  double mantissa = 1;
  int exponent = 0;
};
Parts parts_of(double value) {
  int exponent = 0;
  if (value < std::numeric_limits<double>::min()) {
    value *= 18014398509481984.0;
    exponent = -54;
  }
  const auto bits = std::bit_cast<std::uint64_t>(value);
  exponent += static_cast<int>(bits >> 52) - 1023;
  double mantissa = std::bit_cast<double>((bits & 0x000fffffffffffffULL) | 0x3ff0000000000000ULL);
  if (mantissa > 1.41421356237309504880) {
    mantissa /= 2;
    ++exponent;
  }
  return {mantissa, exponent};
}

// ln m = 2 artanh f with f = (m - 1)/(m + 1), |f| < 0.172; the series' first term left out is below 1e-19.
Doubled natural_log_of_mantissa(double m) {
  const double below = m + 1;
  const double f = (m - 1) / below;
  // What rounding left out of f and of m + 1.
  const Doubled back = exact_product(f, below);
  const double lost_in_sum = exact_sum(m, 1).low;
  const double f_low = (((m - 1) - back.high) - back.low - f * lost_in_sum) / below;
  const double s = f * f;
  double sum = 0;
  for (int n = 23; n >= 3; n -= 2) sum = s * (1.0 / n + sum);
  return exact_sum(2 * f, 2 * (f_low + f * sum));
}

Doubled natural_log_of(double value) {
  const Parts parts = parts_of(value);
  const Doubled of_mantissa = natural_log_of_mantissa(parts.mantissa);
  const Doubled upper = exact_sum(parts.exponent * ln2_high, of_mantissa.high);
  return exact_sum(upper.high, upper.low + (parts.exponent * ln2_low + of_mantissa.low));
}

bool is_whole(double value) { return std::floor(value) == value; }
bool is_odd(double value) { return is_whole(value) && !is_whole(value / 2); }

// For base > 0, neither 1 nor infinite, and a finite exponent.
double power_of_positive(double base, double exponent) {
  const Doubled log = natural_log_of(base);
  const double roughly = exponent * log.high;
  if (roughly > 800) return infinity;
  if (roughly < -800) return 0;
  const Doubled product = exact_product(exponent, log.high);
  return exponential_of({product.high, product.low + exponent * log.low});
}

}  // namespace

double sine(Degrees angle) { return sine_of_quarters(angle, 0); }
double cosine(Degrees angle) { return sine_of_quarters(angle, 1); }
double tangent(Degrees angle) { return sine(angle) / cosine(angle); }

Degrees arc_tangent(double y, double x) {
  if (std::isnan(x) || std::isnan(y)) return Degrees{not_a_number};
  const double across = std::fabs(x), up = std::fabs(y);
  if (across == 0 && up == 0) return Degrees{0};
  double angle = up <= across ? arc_tangent_below_one(up / across) * degrees_in_radian
                              : 90 - arc_tangent_below_one(across / up) * degrees_in_radian;
  if (x < 0) angle = 180 - angle;
  return Degrees{y < 0 && angle < 180 ? -angle : angle};
}

Degrees arc_cosine(double cosine) {
  if (cosine >= 1) return Degrees{0};
  if (cosine <= -1) return Degrees{180};
  return arc_tangent(std::sqrt((1 - cosine) * (1 + cosine)), cosine);
}
Degrees arc_sine(double sine) {
  if (sine >= 1) return Degrees{90};
  if (sine <= -1) return Degrees{-90};
  return arc_tangent(sine, std::sqrt((1 - sine) * (1 + sine)));
}

double exponential(double x) { return exponential_of({x, 0}); }

double natural_log(double x) {
  if (std::isnan(x) || x == infinity) return x;
  if (x <= 0) return -infinity;
  return natural_log_of(x).high;
}

double log2(double x) {
  if (std::isnan(x) || x == infinity) return x;
  if (x <= 0) return -infinity;
  const Parts parts = parts_of(x);
  return parts.exponent + natural_log_of_mantissa(parts.mantissa).high * log2_of_e;
}

double power(double base, double exponent) {
  if (exponent == 0 || base == 1) return 1;
  if (std::isnan(base) || std::isnan(exponent)) return not_a_number;
  const double size = std::fabs(base);
  const double sign = base < 0 && is_odd(exponent) ? -1 : 1;
  if (size == 0 || std::isinf(size)) return ((size == 0) == (exponent > 0) ? 0 : infinity) * sign;
  if (std::isinf(exponent)) return size == 1 ? 1 : ((size > 1) == (exponent > 0) ? infinity : 0);
  if (base < 0 && !is_whole(exponent)) return not_a_number;
  return size == 1 ? sign : sign * power_of_positive(size, exponent);
}

Degrees bearing_of(Vec2 direction) { return arc_tangent(direction.x, direction.y); }
Vec2 direction_of(Degrees bearing) { return {sine(bearing), cosine(bearing)}; }

Degrees wrapped(Degrees angle) {
  double rest = angle.value - 360 * std::nearbyint(angle.value / 360);
  if (rest > 180) rest -= 360;
  if (rest <= -180) rest += 360;
  return Degrees{rest + 0.0};
}

Degrees as_bearing(Degrees angle) {
  const Degrees part = wrapped(angle);
  return part.value < 0 ? part + Degrees{360} : part;
}

}  // namespace lensward
