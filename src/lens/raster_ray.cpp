#include <algorithm>
#include <array>
#include <limits>
#include <optional>

#include "lens/raster.h"

namespace lensward {
namespace {

// Where a ray is inside a solid, as multiples of its direction, and which way the surface points where it enters.
struct Hit {
  double enter = 0, leave = 0;
  Vec3 normal;
};

void take(std::optional<Hit>& so_far, double t, Vec3 normal) {
  if (!so_far) {
    so_far = Hit{t, t, normal};
    return;
  }
  if (t < so_far->enter) {
    so_far->enter = t;
    so_far->normal = normal;
  }
  so_far->leave = std::max(so_far->leave, t);
}

void take_sphere(std::optional<Hit>& so_far, Vec3 from, Vec3 way, Vec3 middle, double radius) {
  const Vec3 offset = from - middle;
  const double a = dot(way, way), b = dot(offset, way), c = dot(offset, offset) - radius * radius;
  const double under_root = b * b - a * c;
  if (under_root < 0 || a == 0) return;
  const double root = std::sqrt(under_root);
  for (const double t : {(-b - root) / a, (-b + root) / a}) take(so_far, t, offset + way * t);
}

std::optional<Hit> hit_ellipsoid(const Solid& solid, Vec3 from, Vec3 way) {
  const auto rounded = [&](Vec3 v) {
    return Vec3{dot(v, solid.x_axis) / solid.radii.x, dot(v, solid.y_axis) / solid.radii.y,
                dot(v, solid.z_axis) / solid.radii.z};
  };
  std::optional<Hit> hit;
  take_sphere(hit, rounded(from - solid.a), rounded(way), {0, 0, 0}, 1);
  if (hit) {
    const Vec3 n = hit->normal;
    hit->normal = unit(solid.x_axis * (n.x / solid.radii.x) + solid.y_axis * (n.y / solid.radii.y) +
                       solid.z_axis * (n.z / solid.radii.z));
  }
  return hit;
}

// The side of a cone between the circles where it touches its spheres. A point p of the ray, counted from the first
// sphere's middle, has y = p·ba + ra·(rb - ra) along the axis, and lies on the side where
// (|ba|² - (ra - rb)²)·|p|² - y² is what it is on the circles: k2·t² + 2·k1·t + k0 = 0.
void take_side(std::optional<Hit>& so_far, Vec3 oa, Vec3 way, Vec3 ba, double ra, double rb) {
  const double rr = ra - rb, m0 = dot(ba, ba), m1 = dot(ba, oa), m2 = dot(ba, way), m3 = dot(way, oa), m5 = dot(oa, oa);
  const double d2 = m0 - rr * rr;
  if (d2 <= 0) return;
  const double k2 = d2 * dot(way, way) - m2 * m2;
  const double k1 = d2 * m3 - m1 * m2 + m2 * rr * ra;
  const double k0 = d2 * m5 - m1 * m1 + 2 * m1 * rr * ra - m0 * ra * ra;
  const double h = k1 * k1 - k0 * k2;
  if (h < 0 || k2 == 0) return;
  const double root = std::sqrt(h);
  for (const double t : {(-k1 - root) / k2, (-k1 + root) / k2}) {
    const double y = m1 - ra * rr + t * m2;
    if (y > 0 && y < d2) take(so_far, t, (oa + way * t) * d2 - ba * y);
  }
}

std::optional<Hit> hit_round_cone(const Solid& solid, Vec3 from, Vec3 way) {
  const double more = 1 / solid.flat - 1;
  const auto rounded = [&](Vec3 v) { return v + solid.flat_axis * (more * dot(v, solid.flat_axis)); };
  const Vec3 o = rounded(from - solid.a), d = rounded(way), b = rounded(solid.b - solid.a);
  std::optional<Hit> hit;
  take_sphere(hit, o, d, {0, 0, 0}, solid.ra);
  take_sphere(hit, o, d, b, solid.rb);
  take_side(hit, o, d, b, solid.ra, solid.rb);
  if (hit) hit->normal = unit(rounded(hit->normal));
  return hit;
}

// Between the planes of the discs, and no further from the axis than the radius there.
std::optional<Hit> hit_frustum(const Solid& solid, Vec3 from, Vec3 way) {
  const double more = 1 / solid.flat - 1;
  const auto rounded = [&](Vec3 v) { return v + solid.flat_axis * (more * dot(v, solid.flat_axis)); };
  const Vec3 o = rounded(from - solid.a), d = rounded(way), ba = rounded(solid.b - solid.a);
  const double m0 = dot(ba, ba), slope = (solid.rb - solid.ra) / m0;
  const double along = dot(o, ba), speed = dot(d, ba), radius = solid.ra + slope * along;
  const double k2 = dot(d, d) - speed * speed / m0 - slope * slope * speed * speed;
  const double k1 = dot(o, d) - along * speed / m0 - slope * speed * radius;
  const double k0 = dot(o, o) - along * along / m0 - radius * radius;
  const double h = k1 * k1 - k2 * k0;

  std::optional<Hit> hit;
  for (const double t : {-along / speed, (m0 - along) / speed}) {
    if (speed == 0) break;
    const Vec3 p = o + d * t;
    const bool far_disc = dot(p, ba) > 0.5 * m0;
    const double r = far_disc ? solid.rb : solid.ra;
    const Vec3 out = p - (far_disc ? ba : Vec3{});
    if (dot(out, out) <= r * r) take(hit, t, far_disc ? ba : ba * -1);
  }
  if (h >= 0 && k2 != 0) {
    for (const double t : {(-k1 - std::sqrt(h)) / k2, (-k1 + std::sqrt(h)) / k2}) {
      const double s = along + t * speed;
      if (s <= 0 || s >= m0) continue;
      const Vec3 p = o + d * t, out = p - ba * (s / m0);
      take(hit, t, out - ba * (slope * length(out)));
    }
  }
  if (hit) hit->normal = unit(rounded(hit->normal));
  return hit;
}

std::optional<Hit> hit_box(const Solid& solid, Vec3 from, Vec3 way) {
  const std::array<Vec3, 3> axes{solid.x_axis, solid.y_axis, solid.z_axis};
  const std::array<double, 3> radii{solid.radii.x, solid.radii.y, solid.radii.z};
  constexpr double far = std::numeric_limits<double>::infinity();
  Hit hit{-far, far, {}};
  for (std::size_t i = 0; i < 3; ++i) {
    const double offset = dot(from - solid.a, axes[i]), slope = dot(way, axes[i]);
    if (slope == 0) {
      if (std::fabs(offset) > radii[i]) return std::nullopt;
      continue;
    }
    const double t1 = (-radii[i] - offset) / slope, t2 = (radii[i] - offset) / slope;
    if (std::min(t1, t2) > hit.enter) {
      hit.enter = std::min(t1, t2);
      hit.normal = axes[i] * (slope > 0 ? -1.0 : 1.0);
    }
    hit.leave = std::min(hit.leave, std::max(t1, t2));
  }
  if (hit.enter > hit.leave) return std::nullopt;
  return hit;
}

std::optional<Hit> hit(const Solid& solid, Vec3 from, Vec3 way) {
  switch (solid.shape) {
    case Solid::Shape::ellipsoid:
      return hit_ellipsoid(solid, from, way);
    case Solid::Shape::round_cone:
      return hit_round_cone(solid, from, way);
    case Solid::Shape::frustum:
      return hit_frustum(solid, from, way);
    case Solid::Shape::box:
      return hit_box(solid, from, way);
  }
  return std::nullopt;
}

}  // namespace

Vec3 normal_at(const Solid& solid, const Pinhole& lens, PicturePoint point) {
  return normal_at(solid, lens.at, ray_through(lens, point));
}

Vec3 normal_at(const Solid& solid, Vec3 from, Vec3 way) {
  const std::optional<Hit> found = hit(solid, from, way);
  if (!found || found->enter <= 0 || length(found->normal) == 0) return unit(way * -1);
  return dot(found->normal, way) > 0 ? found->normal * -1 : found->normal;
}

bool blocked(std::span<const Solid> solids, Vec3 from, Vec3 to, std::int32_t skip) {
  const Vec3 way = to - from;
  const double distance = length(way);
  constexpr double ends = 0.02;
  if (distance <= 2 * ends) return false;
  const double first = ends / distance, last = 1 - first;
  for (std::size_t i = 0; i < solids.size(); ++i) {
    if (static_cast<std::int32_t>(i) == skip) continue;
    const std::optional<Hit> found = hit(solids[i], from, way);
    if (found && found->enter < last && found->leave > first) return true;
  }
  return false;
}

}  // namespace lensward
