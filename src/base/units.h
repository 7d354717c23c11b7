// Numbers with units. A bare double never crosses a header: every quantity says what it measures in its type.
#pragma once

#include <cmath>
#include <compare>
#include <cstdint>

namespace lensward {

// A quantity of one dimension, held in the unit its type is named for. Adding two quantities of different types does
// not compile; the ratio of two of the same type is a plain number.
template <class Unit>
struct Quantity {
  double value = 0;

  constexpr Quantity() = default;
  constexpr explicit Quantity(double in_unit) : value(in_unit) {}

  constexpr auto operator<=>(const Quantity&) const = default;
  constexpr Quantity operator-() const { return Quantity{-value}; }
  constexpr Quantity& operator+=(Quantity other) {
    value += other.value;
    return *this;
  }
  constexpr Quantity& operator-=(Quantity other) {
    value -= other.value;
    return *this;
  }
};

template <class Unit>
constexpr Quantity<Unit> operator+(Quantity<Unit> a, Quantity<Unit> b) {
  return Quantity<Unit>{a.value + b.value};
}
template <class Unit>
constexpr Quantity<Unit> operator-(Quantity<Unit> a, Quantity<Unit> b) {
  return Quantity<Unit>{a.value - b.value};
}
template <class Unit>
constexpr Quantity<Unit> operator*(Quantity<Unit> a, double factor) {
  return Quantity<Unit>{a.value * factor};
}
template <class Unit>
constexpr Quantity<Unit> operator*(double factor, Quantity<Unit> a) {
  return Quantity<Unit>{a.value * factor};
}
template <class Unit>
constexpr Quantity<Unit> operator/(Quantity<Unit> a, double divisor) {
  return Quantity<Unit>{a.value / divisor};
}
template <class Unit>
constexpr double operator/(Quantity<Unit> a, Quantity<Unit> b) {
  return a.value / b.value;
}
template <class Unit>
inline Quantity<Unit> abs(Quantity<Unit> a) {
  return Quantity<Unit>{std::fabs(a.value)};
}

using Metres = Quantity<struct MetresUnit>;
using Millimetres = Quantity<struct MillimetresUnit>;
using Degrees = Quantity<struct DegreesUnit>;
using Seconds = Quantity<struct SecondsUnit>;
using MetresPerSecond = Quantity<struct MetresPerSecondUnit>;
using Lux = Quantity<struct LuxUnit>;
using Candela = Quantity<struct CandelaUnit>;
using Nits = Quantity<struct NitsUnit>;  // luminance, cd/m²
using Stops = Quantity<struct StopsUnit>;
using Kelvin = Quantity<struct KelvinUnit>;
using Watts = Quantity<struct WattsUnit>;
using WordsPerMinute = Quantity<struct WordsPerMinuteUnit>;
using Share = Quantity<struct ShareUnit>;      // 0..1 of some whole
using Points = Quantity<struct PointsUnit>;    // 0..100, see emphasis/tally.h
using FNumber = Quantity<struct FNumberUnit>;  // T and f stops alike

constexpr Metres operator""_m(long double v) { return Metres{static_cast<double>(v)}; }
constexpr Metres operator""_m(unsigned long long v) { return Metres{static_cast<double>(v)}; }
constexpr Millimetres operator""_mm(long double v) { return Millimetres{static_cast<double>(v)}; }
constexpr Millimetres operator""_mm(unsigned long long v) { return Millimetres{static_cast<double>(v)}; }
constexpr Degrees operator""_deg(long double v) { return Degrees{static_cast<double>(v)}; }
constexpr Degrees operator""_deg(unsigned long long v) { return Degrees{static_cast<double>(v)}; }

constexpr Metres to_metres(Millimetres length) { return Metres{length.value / 1000}; }
constexpr Millimetres to_millimetres(Metres length) { return Millimetres{length.value * 1000}; }

// Time is counted in whole milliseconds, so that sums never drift. A moment is counted from the start of the scene.
struct Milliseconds {
  std::int64_t count = 0;

  constexpr auto operator<=>(const Milliseconds&) const = default;
  constexpr Milliseconds operator-() const { return Milliseconds{-count}; }
  constexpr Milliseconds& operator+=(Milliseconds other) {
    count += other.count;
    return *this;
  }
};
using Moment = Milliseconds;

constexpr Milliseconds operator+(Milliseconds a, Milliseconds b) { return {a.count + b.count}; }
constexpr Milliseconds operator-(Milliseconds a, Milliseconds b) { return {a.count - b.count}; }
constexpr Milliseconds operator""_ms(unsigned long long v) { return {static_cast<std::int64_t>(v)}; }
constexpr Seconds to_seconds(Milliseconds time) { return Seconds{static_cast<double>(time.count) / 1000}; }

// Rounds to the nearest whole millisecond, halves away from zero.
inline Milliseconds to_milliseconds(Seconds time) { return {std::llround(time.value * 1000)}; }

// A small typed index into one of the plan's vectors; -1 is nobody.
template <class Of>
struct Id {
  int index = -1;

  constexpr auto operator<=>(const Id&) const = default;
  constexpr bool known() const { return index >= 0; }
};

}  // namespace lensward
