// The pinhole projection of a rectilinear lens, from its entrance pupil (docs/model.md, "projection").
#pragma once

#include <optional>

#include "base/units.h"
#include "base/vec.h"

namespace lensward {

// A lens in the room. Pan is a bearing (0 north, clockwise), tilt is up positive, roll clockwise positive.
struct Pinhole {
  Vec3 at;
  Degrees pan, tilt, roll;
  Millimetres focal{35}, gate_width{24.89}, gate_height{13.454};

  bool operator==(const Pinhole&) const = default;
};

// A point of the picture; 0..1 from the left and the top edge, beyond that outside the frame.
struct PicturePoint {
  double u = 0, v = 0;

  bool operator==(const PicturePoint&) const = default;
};

struct Projected {
  PicturePoint at;
  Metres depth;  // along the lens axis, positive
};

// The lens's own axes in the world: unit vectors.
struct LensAxes {
  Vec3 forward, right, up;
};
LensAxes axes_of(const Pinhole& lens);

// Nothing for points less than 1 mm before the lens plane or behind it. Requires focal, gate_width, gate_height > 0.
std::optional<Projected> project(const Pinhole& lens, Vec3 point);
// The same where the lens's axes are at hand. Requires axes_of(lens).
std::optional<Projected> project(const Pinhole& lens, const LensAxes& axes, Vec3 point);

// Unit direction from the lens through a point of the picture.
Vec3 ray_through(const Pinhole& lens, PicturePoint point);
// The same where the lens's axes are at hand. Requires axes_of(lens).
Vec3 ray_through(const Pinhole& lens, const LensAxes& axes, PicturePoint point);

// 2·atan(d / 2f), focus at infinity.
Degrees angle_of_view(Millimetres gate, Millimetres focal);

// Pan and tilt that put `point` in the middle of the picture, roll being 0.
struct Aim {
  Degrees pan, tilt;
};
Aim aim_at(Vec3 from, Vec3 point);

}  // namespace lensward
