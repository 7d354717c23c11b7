#include "lens/raster.h"

#include <algorithm>
#include <experimental/simd>
#include <limits>
#include <optional>
#include <utility>

namespace lensward {
namespace {

namespace simd = std::experimental;
using Lanes = simd::native_simd<float>;
constexpr int lane_count = static_cast<int>(Lanes::size());

constexpr double near_plane = 0.05;
constexpr float nothing_near = std::numeric_limits<float>::infinity();

// A ray through the picture is d(x, y) = (x, y, 1) in lens axes, so that its parameter is the distance along the lens
// axis. Everything asked of a ray is a polynomial of x and y: the coefficients are worked out once a solid, reduced to
// one variable once a row, and only then evaluated in floats, a few pixels at a time. x and y count from the solid's
// own middle, where the terms that cancel at its outline are small.

struct Linear {
  double one = 0, x = 0, y = 0;
};
struct Quadratic {
  double one = 0, x = 0, y = 0, xx = 0, xy = 0, yy = 0;
};
struct AffineVec {
  Vec3 one, x, y;
};

Linear operator*(Linear a, double k) { return {a.one * k, a.x * k, a.y * k}; }
Linear operator+(Linear a, Linear b) { return {a.one + b.one, a.x + b.x, a.y + b.y}; }
Quadratic operator*(Quadratic a, double k) { return {a.one * k, a.x * k, a.y * k, a.xx * k, a.xy * k, a.yy * k}; }
Quadratic operator-(Quadratic a, Quadratic b) {
  return {a.one - b.one, a.x - b.x, a.y - b.y, a.xx - b.xx, a.xy - b.xy, a.yy - b.yy};
}
Quadratic operator*(Linear a, Linear b) {
  return {a.one * b.one, a.one * b.x + a.x * b.one, a.one * b.y + a.y * b.one,
          a.x * b.x,     a.x * b.y + a.y * b.x,     a.y * b.y};
}
Linear dot(const AffineVec& a, Vec3 b) { return {dot(a.one, b), dot(a.x, b), dot(a.y, b)}; }
AffineVec cross(const AffineVec& a, Vec3 b) { return {cross(a.one, b), cross(a.x, b), cross(a.y, b)}; }
Quadratic squared(const AffineVec& a) {
  return {dot(a.one, a.one), 2 * dot(a.one, a.x), 2 * dot(a.one, a.y), dot(a.x, a.x), 2 * dot(a.x, a.y), dot(a.y, a.y)};
}

// One row's polynomial of x.
struct RowLinear {
  double one = 0, x = 0;
  Lanes at(Lanes v) const { return static_cast<float>(one) + static_cast<float>(x) * v; }
};
struct RowQuadratic {
  double one = 0, x = 0, xx = 0;
  Lanes at(Lanes v) const { return static_cast<float>(one) + v * (static_cast<float>(x) + v * static_cast<float>(xx)); }
};
RowLinear on_row(Linear form, double y) { return {form.one + y * form.y, form.x}; }
RowQuadratic on_row(Quadratic form, double y) {
  return {form.one + y * (form.y + y * form.yy), form.x + y * form.xy, form.xx};
}

struct Interval {
  double low = std::numeric_limits<double>::infinity(), high = -std::numeric_limits<double>::infinity();
  void take(Interval other) {
    low = std::min(low, other.low);
    high = std::max(high, other.high);
  }
};
constexpr Interval everything{-std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};

// Where a row's polynomial is not negative; the whole row when that is not one stretch.
Interval not_negative(RowQuadratic p) {
  if (!(p.xx < 0)) return everything;
  const double under_root = p.x * p.x - 4 * p.xx * p.one;
  if (under_root < 0) return {};
  const double root = std::sqrt(under_root);
  return {(-p.x + root) / (2 * p.xx), (-p.x - root) / (2 * p.xx)};
}

// ---- Solids in lens axes -------------------------------------------------------------------------------------------

// A linear map by its rows, which takes a squashed solid to a round one.
struct Map {
  Vec3 row_x{1, 0, 0}, row_y{0, 1, 0}, row_z{0, 0, 1};
  Vec3 operator()(Vec3 v) const { return {dot(row_x, v), dot(row_y, v), dot(row_z, v)}; }
};

Map stretch_along(Vec3 axis, double factor) {
  const double k = factor - 1;
  return {Vec3{1, 0, 0} + axis * (k * axis.x), Vec3{0, 1, 0} + axis * (k * axis.y),
          Vec3{0, 0, 1} + axis * (k * axis.z)};
}

// A sphere as a row sees it: the ray meets it at (b ± √disc) / q.
struct SphereForms {
  Quadratic disc;
  Linear b;
};
SphereForms sphere_forms(const AffineVec& ray, const Quadratic& q, Vec3 middle, double radius) {
  return {q * (radius * radius) - squared(cross(ray, middle)), dot(ray, middle)};
}

// The rays as a stretched space sees them, counted from the solid's middle.
AffineVec rays_in(const Map& map, double middle_x, double middle_y) {
  return {map({middle_x, middle_y, 1}), map({1, 0, 0}), map({0, 1, 0})};
}

struct Bounds {
  Interval x, y;
};

// The bounds of an ellipsoid's outline: tangent planes through the lens, from the dual conic m·mᵀ - E of its middle and
// its matrix E, whose entry ij is Σ axis_i·axis_j·radius².
Interval outline_bounds(double middle, double middle_z, double e, double e_z, double e_zz) {
  const double k = middle_z * middle_z - e_zz;
  const double half = middle * middle_z - e_z;
  const double root = std::sqrt(std::max(0.0, half * half - (middle * middle - e) * k));
  return {(half - root) / k, (half + root) / k};
}

struct Spread {
  double xx = 0, yy = 0, zz = 0, xz = 0, yz = 0;
  void add(Vec3 half_axis) {
    xx += half_axis.x * half_axis.x;
    yy += half_axis.y * half_axis.y;
    zz += half_axis.z * half_axis.z;
    xz += half_axis.x * half_axis.z;
    yz += half_axis.y * half_axis.z;
  }
};

// Nothing when all of it is cut away; everything when it reaches behind the lens.
std::optional<Bounds> bounds_of_ellipsoid(Vec3 middle, const Spread& e) {
  const double half_depth = std::sqrt(std::max(0.0, e.zz));
  if (middle.z + half_depth <= near_plane) return std::nullopt;
  if (middle.z - half_depth <= 1e-3) return Bounds{everything, everything};
  return Bounds{outline_bounds(middle.x, middle.z, e.xx, e.xz, e.zz),
                outline_bounds(middle.y, middle.z, e.yy, e.yz, e.zz)};
}

// ---- The picture being drawn ---------------------------------------------------------------------------------------

// A rectangle of pixels counted from the picture's top left corner; rows are padded to whole groups of lanes.
struct Canvas {
  int left = 0, top = 0, width = 0, height = 0, stride = 0;
  double tan_left = 0, tan_top = 0;  // x and y of the first pixel's middle
  double tan_step_x = 0, tan_step_y = 0;
  std::vector<float> depth, index;

  Canvas(const Pinhole& lens, int picture_width, int picture_height, int from_x, int from_y, int columns, int rows)
      : left(from_x), top(from_y), width(columns), height(rows) {
    stride = (columns + lane_count - 1) / lane_count * lane_count;
    const double half_x = 0.5 * lens.gate_width / lens.focal, half_y = 0.5 * lens.gate_height / lens.focal;
    tan_step_x = 2 * half_x / picture_width;
    tan_step_y = -2 * half_y / picture_height;
    tan_left = -half_x + (from_x + 0.5) * tan_step_x;
    tan_top = half_y + (from_y + 0.5) * tan_step_y;
    const std::size_t count = static_cast<std::size_t>(stride) * static_cast<std::size_t>(rows);
    depth.assign(count, nothing_near);
    index.assign(count, -1.0F);
  }

  double y_of(int row) const { return tan_top + row * tan_step_y; }
};

// First and last + 1 of the pixels whose middles lie in an interval, with half a pixel to spare against rounding.
std::pair<int, int> pixels_in(Interval interval, double first, double step, int count) {
  double low = (interval.low - first) / step, high = (interval.high - first) / step;
  if (step < 0) std::swap(low, high);
  const double last = count;
  // Rounded by hand: without newer instructions than the program asks for, ceil and floor are calls, and this is run
  // for every row.
  low = std::clamp(low - 0.5, 0.0, last);
  const int begin = static_cast<int>(low), end = static_cast<int>(std::clamp(high + 1.5, 0.0, last));
  return {begin < low ? begin + 1 : begin, end};
}

// Calls `meet(x)` for the lanes of one row: it gives where the ray enters and leaves the solid, entry after exit for a
// miss. The nearer surface is kept.
template <class Meet>
void draw_row(Canvas& canvas, int row, std::pair<int, int> pixels, double middle_x, float index, const Meet& meet) {
  const Lanes lane([](int i) { return static_cast<float>(i); });
  const float first = static_cast<float>(canvas.tan_left - middle_x), step = static_cast<float>(canvas.tan_step_x);
  const std::size_t base = static_cast<std::size_t>(row) * static_cast<std::size_t>(canvas.stride);
  for (int x = pixels.first / lane_count * lane_count; x < pixels.second; x += lane_count) {
    const auto [enter, leave] = meet(first + step * (lane + static_cast<float>(x)));
    float* depth = &canvas.depth[base + static_cast<std::size_t>(x)];
    float* shown = &canvas.index[base + static_cast<std::size_t>(x)];
    Lanes old_depth(depth, simd::element_aligned), old_shown(shown, simd::element_aligned);
    const Lanes at = simd::max(enter, Lanes(static_cast<float>(near_plane)));
    const auto nearer = enter <= leave && leave > Lanes(static_cast<float>(near_plane)) && at < old_depth;
    simd::where(nearer, old_depth) = at;
    simd::where(nearer, old_shown) = Lanes(index);
    old_depth.copy_to(depth, simd::element_aligned);
    old_shown.copy_to(shown, simd::element_aligned);
  }
}

struct Span1 {
  Lanes enter, leave;
};
const Lanes miss_enter(nothing_near), miss_leave(-1.0F);

Span1 meet_sphere(Lanes disc, Lanes b, Lanes one_over_q) {
  const Lanes root = simd::sqrt(simd::max(disc, Lanes(0.0F)));
  Span1 span{(b - root) * one_over_q, (b + root) * one_over_q};
  simd::where(disc < 0.0F, span.enter) = miss_enter;
  simd::where(disc < 0.0F, span.leave) = miss_leave;
  return span;
}

struct LensSolid {
  Vec3 a, b, x_axis, y_axis, z_axis, flat_axis;
};

class Artist {
 public:
  Artist(const Pinhole& lens, Canvas& canvas) : lens_(lens), axes_(axes_of(lens)), canvas_(canvas) {}

  void draw(const Solid& solid, float index) {
    const LensSolid seen{place(solid.a),          place(solid.b),          direction(solid.x_axis),
                         direction(solid.y_axis), direction(solid.z_axis), direction(solid.flat_axis)};
    switch (solid.shape) {
      case Solid::Shape::ellipsoid:
        draw_ellipsoid(solid, seen, index);
        break;
      case Solid::Shape::round_cone:
        draw_round_cone(solid, seen, index);
        break;
      case Solid::Shape::frustum:
        draw_frustum(solid, seen, index);
        break;
      case Solid::Shape::box:
        draw_box(solid, seen, index);
        break;
    }
  }

  // The bounds of a solid's outline in x and y of rays.
  std::optional<Bounds> bounds(const Solid& solid) const {
    const LensSolid seen{place(solid.a),          place(solid.b),          direction(solid.x_axis),
                         direction(solid.y_axis), direction(solid.z_axis), direction(solid.flat_axis)};
    if (solid.shape == Solid::Shape::ellipsoid) return ellipsoid_bounds(solid, seen);
    if (solid.shape != Solid::Shape::box) return cone_bounds(solid, seen);
    return box_bounds(solid, seen);
  }

 private:
  Vec3 direction(Vec3 v) const { return {dot(v, axes_.right), dot(v, axes_.up), dot(v, axes_.forward)}; }
  Vec3 place(Vec3 v) const { return direction(v - lens_.at); }

  static std::optional<Bounds> ellipsoid_bounds(const Solid& solid, const LensSolid& seen) {
    Spread spread;
    spread.add(seen.x_axis * solid.radii.x);
    spread.add(seen.y_axis * solid.radii.y);
    spread.add(seen.z_axis * solid.radii.z);
    return bounds_of_ellipsoid(seen.a, spread);
  }

  // A sphere squashed along one axis, or its cross-section through the middle, a disc round `disc_axis`.
  static std::optional<Bounds> squashed_bounds(Vec3 middle, double radius, double flat, Vec3 axis, Vec3 disc_axis) {
    const double r2 = radius * radius, k = r2 * (1 - flat * flat);
    const Vec3 f = axis, n = disc_axis * radius;
    const Spread spread{r2 - k * f.x * f.x - n.x * n.x, r2 - k * f.y * f.y - n.y * n.y, r2 - k * f.z * f.z - n.z * n.z,
                        -k * f.x * f.z - n.x * n.z, -k * f.y * f.z - n.y * n.z};
    return bounds_of_ellipsoid(middle, spread);
  }

  static std::optional<Bounds> cone_bounds(const Solid& solid, const LensSolid& seen) {
    const Vec3 axis = solid.shape == Solid::Shape::frustum ? unit(seen.b - seen.a) : Vec3{};
    const std::optional<Bounds> a = squashed_bounds(seen.a, solid.ra, solid.flat, seen.flat_axis, axis);
    const std::optional<Bounds> b = squashed_bounds(seen.b, solid.rb, solid.flat, seen.flat_axis, axis);
    if (!a && !b) return std::nullopt;
    if (!a || !b) return Bounds{everything, everything};
    Bounds both = *a;
    both.x.take(b->x);
    both.y.take(b->y);
    return both;
  }

  static std::optional<Bounds> box_bounds(const Solid& solid, const LensSolid& seen) {
    std::array<Vec3, 8> corners;
    for (std::size_t i = 0; i < 8; ++i) {
      corners[i] = seen.a + seen.x_axis * ((i & 1) != 0 ? solid.radii.x : -solid.radii.x) +
                   seen.y_axis * ((i & 2) != 0 ? solid.radii.y : -solid.radii.y) +
                   seen.z_axis * ((i & 4) != 0 ? solid.radii.z : -solid.radii.z);
    }
    Bounds bounds;
    const auto take = [&](Vec3 p) {
      bounds.x.take({p.x / p.z, p.x / p.z});
      bounds.y.take({p.y / p.z, p.y / p.z});
    };
    for (std::size_t i = 0; i < 8; ++i) {
      if (corners[i].z >= near_plane) take(corners[i]);
      for (const std::size_t bit : {std::size_t{1}, std::size_t{2}, std::size_t{4}}) {
        const Vec3 p = corners[i], q = corners[i ^ bit];
        if (p.z < near_plane && q.z > near_plane) take(mix(p, q, (near_plane - p.z) / (q.z - p.z)));
      }
    }
    if (bounds.x.low > bounds.x.high) return std::nullopt;
    return bounds;
  }

  std::pair<int, int> columns(Interval x) const {
    return pixels_in(x, canvas_.tan_left, canvas_.tan_step_x, canvas_.width);
  }
  std::pair<int, int> rows(Interval y) const {
    return pixels_in(y, canvas_.tan_top, canvas_.tan_step_y, canvas_.height);
  }

  // Narrowing a row to where its outline is costs more than a few lanes drawn in vain.
  static bool is_narrow(std::pair<int, int> pixels) { return pixels.second - pixels.first <= 4 * lane_count; }

  void draw_ellipsoid(const Solid& solid, const LensSolid& seen, float index) {
    const std::optional<Bounds> bounds = ellipsoid_bounds(solid, seen);
    if (!bounds) return;
    const auto [first, last] = rows(bounds->y);
    const std::pair<int, int> across = columns(bounds->x);
    if (first >= last || across.first >= across.second) return;
    const bool few = is_narrow(across);
    const Map map{seen.x_axis * (1 / solid.radii.x), seen.y_axis * (1 / solid.radii.y),
                  seen.z_axis * (1 / solid.radii.z)};
    const auto [middle_x, middle_y] = origin_for(seen.a);
    const AffineVec ray = rays_in(map, middle_x, middle_y);
    const Quadratic q = squared(ray);
    const SphereForms sphere = sphere_forms(ray, q, map(seen.a), 1);
    for (int row = first; row < last; ++row) {
      const double y = canvas_.y_of(row) - middle_y;
      const RowQuadratic disc = on_row(sphere.disc, y), row_q = on_row(q, y);
      const RowLinear b = on_row(sphere.b, y);
      const auto pixels = few ? across : columns(clipped(shifted(not_negative(disc), middle_x), bounds->x));
      draw_row(canvas_, row, pixels, middle_x, index,
               [&](Lanes x) { return meet_sphere(disc.at(x), b.at(x), 1.0F / row_q.at(x)); });
    }
  }

  void draw_round_cone(const Solid& solid, const LensSolid& seen, float index) {
    const std::optional<Bounds> bounds = cone_bounds(solid, seen);
    if (!bounds) return;
    const auto [first, last] = rows(bounds->y);
    const std::pair<int, int> across = columns(bounds->x);
    if (first >= last || across.first >= across.second) return;
    const bool few = is_narrow(across);
    const Map map = stretch_along(seen.flat_axis, 1 / solid.flat);
    const Vec3 middle = (seen.a + seen.b) * 0.5;
    const auto [middle_x, middle_y] = origin_for(middle);
    const AffineVec ray = rays_in(map, middle_x, middle_y);
    const Quadratic q = squared(ray);
    const Vec3 a = map(seen.a), ba = map(seen.b) - a;
    const SphereForms at_a = sphere_forms(ray, q, a, solid.ra), at_b = sphere_forms(ray, q, map(seen.b), solid.rb);

    // The side of the cone between the circles where it touches its two spheres, with the lens at the origin.
    const double rr = solid.ra - solid.rb, m0 = dot(ba, ba), d2 = m0 - rr * rr;
    const double m1 = -dot(ba, a), m5 = dot(a, a);
    const bool has_side = d2 > 1e-12;
    const Linear m2 = dot(ray, ba);
    const Quadratic k2 = q * d2 - m2 * m2;
    const Linear k1 = at_a.b * -d2 + m2 * (rr * solid.ra - m1);
    const double k0 = d2 * m5 - m1 * m1 + 2 * m1 * rr * solid.ra - m0 * solid.ra * solid.ra;
    const Quadratic h = has_side ? k1 * k1 - k2 * k0 : Quadratic{-1, 0, 0, 0, 0, 0};
    const float side_from = static_cast<float>(m1 - solid.ra * rr), side_to = static_cast<float>(d2);

    for (int row = first; row < last; ++row) {
      const double y = canvas_.y_of(row) - middle_y;
      const RowQuadratic disc_a = on_row(at_a.disc, y), disc_b = on_row(at_b.disc, y), row_q = on_row(q, y);
      const RowQuadratic row_h = on_row(h, y), row_k2 = on_row(k2, y);
      const RowLinear b_a = on_row(at_a.b, y), b_b = on_row(at_b.b, y), row_k1 = on_row(k1, y), row_m2 = on_row(m2, y);
      std::pair<int, int> pixels = across;
      if (!few) {
        Interval wide = not_negative(disc_a);
        wide.take(not_negative(disc_b));
        if (has_side) wide.take(not_negative(row_h));
        pixels = columns(clipped(shifted(wide, middle_x), bounds->x));
      }
      draw_row(canvas_, row, pixels, middle_x, index, [&](Lanes x) {
        const Lanes one_over_q = 1.0F / row_q.at(x);
        Span1 span = meet_sphere(disc_a.at(x), b_a.at(x), one_over_q);
        const Span1 other = meet_sphere(disc_b.at(x), b_b.at(x), one_over_q);
        span.enter = simd::min(span.enter, other.enter);
        span.leave = simd::max(span.leave, other.leave);
        const Lanes side = row_h.at(x);
        Lanes divisor = row_k2.at(x);
        simd::where(simd::abs(divisor) < 1e-20F, divisor) = Lanes(1e-20F);
        const Lanes root = simd::sqrt(simd::max(side, Lanes(0.0F))), minus_k1 = -row_k1.at(x), along = row_m2.at(x);
        const Lanes t_in = (minus_k1 - root) / divisor, t_out = (minus_k1 + root) / divisor;
        const Lanes y_in = side_from + t_in * along, y_out = side_from + t_out * along;
        const auto in = side >= 0.0F && y_in > 0.0F && y_in < side_to;
        const auto out = side >= 0.0F && y_out > 0.0F && y_out < side_to;
        simd::where(in, span.enter) = simd::min(span.enter, t_in);
        simd::where(in, span.leave) = simd::max(span.leave, t_in);
        simd::where(out, span.enter) = simd::min(span.enter, t_out);
        simd::where(out, span.leave) = simd::max(span.leave, t_out);
        return span;
      });
    }
  }

  // Between the planes of its discs, where the distance from the axis is at most the radius there: f(t) = k2·t² -
  // 2·k1·t
  // + k0 is not positive. Where k2 is negative the ray runs steeper than the side and is inside beyond the roots.
  void draw_frustum(const Solid& solid, const LensSolid& seen, float index) {
    const std::optional<Bounds> bounds = cone_bounds(solid, seen);
    if (!bounds) return;
    const auto [first, last] = rows(bounds->y);
    const std::pair<int, int> across = columns(bounds->x);
    if (first >= last || across.first >= across.second) return;
    const Map map = stretch_along(seen.flat_axis, 1 / solid.flat);
    const auto [middle_x, middle_y] = origin_for((seen.a + seen.b) * 0.5);
    const AffineVec ray = rays_in(map, middle_x, middle_y);
    const Vec3 a = map(seen.a), ba = map(seen.b) - a;
    const double m0 = dot(ba, ba), slope = (solid.rb - solid.ra) / m0, shrink = 1 / m0 + slope * slope;
    const double m1 = dot(ba, a), radius_at_lens = solid.ra - slope * m1;
    const Linear m2 = dot(ray, ba);
    const Quadratic k2 = squared(ray) - m2 * m2 * shrink;
    const Linear k1 = dot(ray, a) + m2 * (slope * radius_at_lens - m1 / m0);
    const double k0 = dot(a, a) - m1 * m1 / m0 - radius_at_lens * radius_at_lens;
    const Quadratic root_of = k1 * k1 - k2 * k0;
    const float near_disc = static_cast<float>(m1), far_disc = static_cast<float>(m1 + m0);

    for (int row = first; row < last; ++row) {
      const double y = canvas_.y_of(row) - middle_y;
      const RowQuadratic row_root = on_row(root_of, y), row_k2 = on_row(k2, y);
      const RowLinear row_k1 = on_row(k1, y), row_m2 = on_row(m2, y);
      draw_row(canvas_, row, across, middle_x, index, [&](Lanes x) {
        Lanes along = row_m2.at(x), divisor = row_k2.at(x);
        simd::where(simd::abs(along) < 1e-12F, along) = Lanes(1e-12F);
        simd::where(simd::abs(divisor) < 1e-12F, divisor) = Lanes(1e-12F);
        const Lanes over = 1.0F / along, t1 = near_disc * over, t2 = far_disc * over;
        Span1 span{simd::min(t1, t2), simd::max(t1, t2)};
        const Lanes root_squared = row_root.at(x), root = simd::sqrt(simd::max(root_squared, Lanes(0.0F)));
        const Lanes r1 = (row_k1.at(x) - root) / divisor, r2 = (row_k1.at(x) + root) / divisor;
        const Lanes low = simd::min(r1, r2), high = simd::max(r1, r2);
        const auto meets = root_squared >= 0.0F, steep = divisor < 0.0F;
        const auto before = steep && span.enter <= low;
        simd::where(meets && !steep, span.enter) = simd::max(span.enter, low);
        simd::where(meets && !steep, span.leave) = simd::min(span.leave, high);
        simd::where(meets && before, span.leave) = simd::min(span.leave, low);
        simd::where(meets && steep && !before, span.enter) = simd::max(span.enter, high);
        simd::where(!meets && !steep, span.leave) = miss_leave;
        simd::where(!meets && !steep, span.enter) = miss_enter;
        return span;
      });
    }
  }

  void draw_box(const Solid& solid, const LensSolid& seen, float index) {
    const std::optional<Bounds> bounds = box_bounds(solid, seen);
    if (!bounds) return;
    const std::array<Vec3, 3> axes{seen.x_axis, seen.y_axis, seen.z_axis};
    const std::array<double, 3> radii{solid.radii.x, solid.radii.y, solid.radii.z};
    const auto [first, last] = rows(bounds->y);
    const std::pair<int, int> across = columns(bounds->x);
    for (int row = first; row < last; ++row) {
      const double y = canvas_.y_of(row);
      const auto toward = [&](std::size_t i) { return RowLinear{y * axes[i].y + axes[i].z, axes[i].x}; };
      const std::array<RowLinear, 3> slopes{toward(0), toward(1), toward(2)};
      draw_row(canvas_, row, across, 0, index, [&](Lanes x) {
        Span1 span{Lanes(-nothing_near), Lanes(nothing_near)};
        for (std::size_t i = 0; i < 3; ++i) {
          const double middle = dot(axes[i], seen.a);
          Lanes slope = slopes[i].at(x);
          simd::where(simd::abs(slope) < 1e-12F, slope) = Lanes(1e-12F);
          const Lanes over = 1.0F / slope;
          const Lanes t1 = static_cast<float>(middle - radii[i]) * over,
                      t2 = static_cast<float>(middle + radii[i]) * over;
          span.enter = simd::max(span.enter, simd::min(t1, t2));
          span.leave = simd::min(span.leave, simd::max(t1, t2));
        }
        return span;
      });
    }
  }

  static std::pair<double, double> origin_for(Vec3 middle) {
    if (middle.z < near_plane) return {0, 0};
    return {middle.x / middle.z, middle.y / middle.z};
  }
  static Interval shifted(Interval interval, double by) { return {interval.low + by, interval.high + by}; }
  static Interval clipped(Interval a, Interval b) { return {std::max(a.low, b.low), std::min(a.high, b.high)}; }

  const Pinhole& lens_;
  LensAxes axes_;
  Canvas& canvas_;
};

std::size_t pixel(const Canvas& canvas, int x, int y) {
  return static_cast<std::size_t>(y) * static_cast<std::size_t>(canvas.stride) + static_cast<std::size_t>(x);
}

int rounded_margin(double margin, int pixels) { return static_cast<int>(std::lround(margin * pixels)); }

void draw_all(Canvas& canvas, std::span<const Solid> solids, const Pinhole& lens) {
  Artist artist(lens, canvas);
  for (std::size_t i = 0; i < solids.size(); ++i) artist.draw(solids[i], static_cast<float>(i));
}

}  // namespace

Raster rasterise(std::span<const Solid> solids, const Pinhole& lens, int width, int height) {
  return rasterise(solids, lens, width, height, 0);
}

Raster rasterise(std::span<const Solid> solids, const Pinhole& lens, int width, int height, double margin) {
  const int aside = rounded_margin(margin, width), above = rounded_margin(margin, height);
  return rasterise(solids, lens, width, height, CellWindow{-aside, -above, width + 2 * aside, height + 2 * above});
}

Raster rasterise(std::span<const Solid> solids, const Pinhole& lens, int width, int height, const CellWindow& window) {
  Canvas canvas(lens, width, height, window.left, window.top, window.width, window.height);
  draw_all(canvas, solids, lens);

  Raster raster;
  raster.width = canvas.width;
  raster.height = canvas.height;
  const std::size_t count = static_cast<std::size_t>(canvas.width) * static_cast<std::size_t>(canvas.height);
  raster.solid.resize(count);
  raster.depth.resize(count);
  std::size_t to = 0;
  for (int y = 0; y < canvas.height; ++y) {
    for (int x = 0; x < canvas.width; ++x, ++to) {
      const std::size_t from = pixel(canvas, x, y);
      raster.solid[to] = static_cast<std::int32_t>(canvas.index[from]);
      raster.depth[to] = canvas.depth[from];
    }
  }
  return raster;
}

std::vector<OutlineBounds> bounds_of(std::span<const Solid> solids, const Pinhole& lens) {
  constexpr double far = 1000;
  Canvas nothing(lens, 1, 1, 0, 0, 0, 0);
  const Artist measure(lens, nothing);
  const double half_x = 0.5 * lens.gate_width / lens.focal, half_y = 0.5 * lens.gate_height / lens.focal;
  std::vector<OutlineBounds> all;
  all.reserve(solids.size());
  for (const Solid& solid : solids) {
    const std::optional<Bounds> bounds = measure.bounds(solid);
    const auto across = [&](double x) { return std::clamp(0.5 + x / (2 * half_x), -far, far); };
    const auto down = [&](double y) { return std::clamp(0.5 - y / (2 * half_y), -far, far); };
    all.push_back(
        bounds ? OutlineBounds{across(bounds->x.low), down(bounds->y.high), across(bounds->x.high), down(bounds->y.low)}
               : OutlineBounds{});
  }
  return all;
}

}  // namespace lensward
