// Points and directions. World axes: x to plan east, y to plan north, z up; lengths in metres (see docs/model.md).
#pragma once

#include <cmath>

namespace lensward {

struct Vec2 {
  double x = 0;
  double y = 0;

  constexpr bool operator==(const Vec2&) const = default;
};

struct Vec3 {
  double x = 0;
  double y = 0;
  double z = 0;

  constexpr bool operator==(const Vec3&) const = default;
};

constexpr Vec2 operator+(Vec2 a, Vec2 b) { return {a.x + b.x, a.y + b.y}; }
constexpr Vec2 operator-(Vec2 a, Vec2 b) { return {a.x - b.x, a.y - b.y}; }
constexpr Vec2 operator*(Vec2 a, double k) { return {a.x * k, a.y * k}; }
constexpr double dot(Vec2 a, Vec2 b) { return a.x * b.x + a.y * b.y; }
// Positive when b lies counter-clockwise of a, seen from above.
constexpr double cross(Vec2 a, Vec2 b) { return a.x * b.y - a.y * b.x; }
inline double length(Vec2 a) { return std::sqrt(dot(a, a)); }
// The zero vector stays zero.
inline Vec2 unit(Vec2 a) {
  const double size = length(a);
  return size > 0 ? a * (1 / size) : a;
}
// A quarter turn counter-clockwise.
constexpr Vec2 left_of(Vec2 a) { return {-a.y, a.x}; }

constexpr Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
constexpr Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
constexpr Vec3 operator*(Vec3 a, double k) { return {a.x * k, a.y * k, a.z * k}; }
constexpr double dot(Vec3 a, Vec3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
constexpr Vec3 cross(Vec3 a, Vec3 b) { return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x}; }
inline double length(Vec3 a) { return std::sqrt(dot(a, a)); }
// The zero vector stays zero.
inline Vec3 unit(Vec3 a) {
  const double size = length(a);
  return size > 0 ? a * (1 / size) : a;
}

constexpr Vec2 floor_of(Vec3 a) { return {a.x, a.y}; }
constexpr Vec3 raised(Vec2 a, double z) { return {a.x, a.y, z}; }

// Exactly b at t = 1.
constexpr Vec2 mix(Vec2 a, Vec2 b, double t) { return t == 1 ? b : a + (b - a) * t; }
constexpr Vec3 mix(Vec3 a, Vec3 b, double t) { return t == 1 ? b : a + (b - a) * t; }
constexpr double mix(double a, double b, double t) { return t == 1 ? b : a + (b - a) * t; }

}  // namespace lensward
