#include "figure/body_parts.h"

namespace lensward {

void SolidMaker::ellipsoid(const BodyFrame& frame, Vec3 middle, Vec3 radii, Part part, Material material) {
  Solid solid;
  solid.shape = Solid::Shape::ellipsoid;
  solid.part = part;
  solid.material = material;
  solid.a = solid.b = frame.at(middle * stature);
  solid.radii = radii * stature;
  solid.x_axis = frame.right;
  solid.y_axis = frame.forward;
  solid.z_axis = frame.up;
  solids.push_back(solid);
}

void SolidMaker::cone(Vec3 a, double ra, Vec3 b, double rb, double flat, Vec3 flat_toward, Part part,
                      Material material) {
  Solid solid;
  solid.shape = Solid::Shape::round_cone;
  solid.part = part;
  solid.material = material;
  solid.a = a;
  solid.b = b;
  solid.ra = ra * stature;
  solid.rb = rb * stature;
  const Vec3 axis = unit(b - a);
  const Vec3 across = flat_toward - axis * dot(flat_toward, axis);
  if (length(across) > 1e-6) {
    solid.flat = flat;
    solid.flat_axis = unit(across);
  }
  solids.push_back(solid);
}

void SolidMaker::tube(Vec3 a, double ra, Vec3 b, double rb, double flat, Vec3 flat_toward, Part part,
                      Material material) {
  cone(a, ra, b, rb, flat, flat_toward, part, material);
  solids.back().shape = Solid::Shape::frustum;
}

void SolidMaker::round_cone(Vec3 a, double ra, Vec3 b, double rb, Part part, Material material) {
  cone(a, ra, b, rb, 1, {0, 0, 0}, part, material);
}

}  // namespace lensward
