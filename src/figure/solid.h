// The solids that bodies, furniture and props are made of. One model serves visibility, light, collision and drawing.
#pragma once

#include <vector>

#include "base/units.h"
#include "base/vec.h"
#include "base/words.h"

namespace lensward {

// What a solid belongs to on a body or a set, for what may be seen of it and how it is drawn.
enum class Part { face, hair, neck, chest, waist, arm, hand, leg, foot, cloth, set };
inline constexpr int part_count = 11;
enum class Material { skin, hair, dress_upper, dress_lower, shoe, wood, metal, glass, fabric, wall, floor };

// A convex solid in world coordinates, metres.
//   ellipsoid: middle a; half axes along x_axis, y_axis, z_axis (unit, orthogonal) of radii.x, radii.y, radii.z.
//   round_cone: the hull of a sphere of radius ra at a and one of radius rb at b, squashed by `flat` (0 < flat <= 1)
//     along flat_axis, a unit vector at right angles to b - a.
//   frustum: the same between discs at a and b, square to b - a, in place of the spheres.
//   box: middle a, half extents radii along the axes.
struct Solid {
  enum class Shape { ellipsoid, round_cone, frustum, box };
  Shape shape = Shape::ellipsoid;
  Part part = Part::set;
  Material material = Material::wood;
  Vec3 a, b;
  double ra = 0, rb = 0;
  double flat = 1;
  Vec3 flat_axis{1, 0, 0};
  Vec3 radii;
  Vec3 x_axis{1, 0, 0}, y_axis{0, 1, 0}, z_axis{0, 0, 1};
};

}  // namespace lensward
