// The pieces a figure is put together from. Each adds solids; lengths are fractions of stature.
#pragma once

#include <vector>

#include "figure/look.h"
#include "figure/skeleton.h"

namespace lensward {

// Shapes in a body frame, as fractions of stature.
struct SolidMaker {
  std::vector<Solid>& solids;
  double stature = 1.7;

  void ellipsoid(const BodyFrame& frame, Vec3 middle, Vec3 radii, Part part, Material material);
  // Squashed to `flat` of its thickness along `flat_toward`, as far as that is at right angles to the axis.
  void cone(Vec3 a, double ra, Vec3 b, double rb, double flat, Vec3 flat_toward, Part part, Material material);
  // The same with its ends cut flat.
  void tube(Vec3 a, double ra, Vec3 b, double rb, double flat, Vec3 flat_toward, Part part, Material material);
  void round_cone(Vec3 a, double ra, Vec3 b, double rb, Part part, Material material);
};

// Skull, jaw, nose, ears, neck and hair.
void add_head(SolidMaker& make, const Skeleton& bones, const Look& look);
// Trunk, arms, legs and what hangs over them.
void add_clothes(SolidMaker& make, const Skeleton& bones, const Look& look);
// Lines on the front of the clothes.
std::vector<std::vector<Vec3>> seams_of(const Skeleton& bones, const Look& look);
void add_hands(SolidMaker& make, const Skeleton& bones);
void add_feet(SolidMaker& make, const Skeleton& bones);

}  // namespace lensward
