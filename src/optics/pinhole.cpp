#include "optics/pinhole.h"

#include "base/angle.h"

namespace lensward {
namespace {

constexpr double nearest_depth = 0.001;

}  // namespace

LensAxes axes_of(const Pinhole& lens) {
  const double level = cosine(lens.tilt);
  const Vec3 forward{sine(lens.pan) * level, cosine(lens.pan) * level, sine(lens.tilt)};
  const Vec3 right{cosine(lens.pan), -sine(lens.pan), 0};
  const Vec3 up = cross(right, forward);
  const double roll_sine = sine(lens.roll);
  const double roll_cosine = cosine(lens.roll);
  return {forward, right * roll_cosine - up * roll_sine, up * roll_cosine + right * roll_sine};
}

std::optional<Projected> project(const Pinhole& lens, Vec3 point) { return project(lens, axes_of(lens), point); }

std::optional<Projected> project(const Pinhole& lens, const LensAxes& axes, Vec3 point) {
  const Vec3 away = point - lens.at;
  const double depth = dot(away, axes.forward);
  // Written so that a depth that is not a number is refused too.
  if (!(depth >= nearest_depth)) return std::nullopt;
  const double width_at_one = lens.gate_width / lens.focal;
  const double height_at_one = lens.gate_height / lens.focal;
  const PicturePoint at{0.5 + dot(away, axes.right) / (depth * width_at_one),
                        0.5 - dot(away, axes.up) / (depth * height_at_one)};
  return Projected{at, Metres{depth}};
}

Vec3 ray_through(const Pinhole& lens, PicturePoint point) { return ray_through(lens, axes_of(lens), point); }

Vec3 ray_through(const Pinhole& lens, const LensAxes& axes, PicturePoint point) {
  const double across = (point.u - 0.5) * (lens.gate_width / lens.focal);
  const double upward = (0.5 - point.v) * (lens.gate_height / lens.focal);
  return unit(axes.forward + axes.right * across + axes.up * upward);
}

Degrees angle_of_view(Millimetres gate, Millimetres focal) { return arc_tangent(gate.value, 2 * focal.value) * 2; }

Aim aim_at(Vec3 from, Vec3 point) {
  const Vec3 away = point - from;
  return {bearing_of(floor_of(away)), arc_tangent(away.z, length(floor_of(away)))};
}

}  // namespace lensward
