#include <algorithm>

#include "figure/body_parts.h"

namespace lensward {
namespace {

// Middle and half axes, as fractions of stature in the head's frame.
struct Oval {
  Vec3 middle, radii;
};
constexpr Oval skull{{0, -0.006, 0.011}, {0.0425, 0.053, 0.053}};
constexpr Oval mask{{0, 0.010, -0.018}, {0.0372, 0.0385, 0.0455}};

// How far forward the oval's surface stands over a point of its outline plane.
double forward_of(const Oval& oval, double x, double z) {
  const double u = (x - oval.middle.x) / oval.radii.x, w = (z - oval.middle.z) / oval.radii.z;
  return oval.middle.y + oval.radii.y * std::sqrt(std::max(0.0, 1 - u * u - w * w));
}

// Breadth 0.088 and length 0.114 of stature (ANSUR II head breadth and length), chin to crown 0.13.
void add_skull(SolidMaker& make, const Skeleton& bones) {
  const double h = make.stature;
  const BodyFrame& head = bones.head;
  const auto at = [&](double x, double y, double z) { return head.at(Vec3{x, y, z} * h); };
  const auto face = [&](Vec3 a, double ra, Vec3 b, double rb) {
    make.round_cone(a, ra, b, rb, Part::face, Material::skin);
  };

  make.ellipsoid(head, skull.middle, skull.radii, Part::face, Material::skin);
  make.ellipsoid(head, mask.middle, mask.radii, Part::face, Material::skin);
  face(at(0, 0.004, -0.034), 0.0295, at(0, 0.0275, -0.0495), 0.0155);
  face(at(0, 0.0445, 0.003), 0.0045, at(0, 0.0530, -0.0195), 0.0066);
  for (const double side : {-1.0, 1.0}) {
    make.ellipsoid(head, {side * 0.0415, -0.005, -0.008}, {0.0055, 0.0115, 0.0175}, Part::face, Material::skin);
  }
}

void add_neck(SolidMaker& make, const Skeleton& bones, const Look& look) {
  const double h = make.stature;
  const Vec3 top = bones.head.at({0, -0.014 * h, -0.035 * h});
  const Vec3 base = bones.torso.at({0, -0.016 * h, 0.292 * h});
  make.round_cone(top, 0.0270, base, 0.0320, Part::neck, Material::skin);
  if (look.cut == Cut::jumper) {
    make.round_cone(mix(base, top, 0.05), 0.040, mix(base, top, 0.42), 0.0335, Part::chest, Material::dress_upper);
  }
}

// The cap all hair grows from stands behind and above the skull, so that the face is what sticks out of it.
void add_hair(SolidMaker& make, const Skeleton& bones, const Look& look) {
  const BodyFrame& head = bones.head;
  const auto lump = [&](Vec3 middle, Vec3 radii) { make.ellipsoid(head, middle, radii, Part::hair, Material::hair); };
  switch (look.hair) {
    case Hair::crop:
      lump({0, -0.011, 0.0195}, {0.0472, 0.0540, 0.0525});
      lump({0, -0.024, -0.004}, {0.0450, 0.0430, 0.0400});
      break;
    case Hair::bowl:
      lump({0, -0.010, 0.022}, {0.0505, 0.0585, 0.0485});
      lump({0, -0.022, 0.0}, {0.049, 0.048, 0.044});
      break;
    case Hair::curls:
      lump({0, -0.012, 0.023}, {0.0550, 0.0570, 0.0560});
      for (const double side : {-1.0, 1.0}) lump({side * 0.032, -0.020, -0.006}, {0.028, 0.038, 0.040});
      break;
  }
}

}  // namespace

void add_head(SolidMaker& make, const Skeleton& bones, const Look& look) {
  add_neck(make, bones, look);
  add_skull(make, bones);
  add_hair(make, bones, look);
}

Vec3 on_face(const PersonFigure& figure, Metres stature, Metres across, Metres up) {
  const double h = stature.value, x = across.value / h, z = up.value / h;
  const double y = std::max(forward_of(skull, x, z), forward_of(mask, x, z));
  const Vec3 right = cross(figure.face_direction, figure.head_up);
  return figure.head_middle + right * across.value + figure.face_direction * (y * h) + figure.head_up * up.value;
}

}  // namespace lensward
