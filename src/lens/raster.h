// Solids -> which one each pixel shows, and how far it is. Exact per pixel centre; nothing is approximated by meshes.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "base/vec.h"
#include "figure/solid.h"
#include "optics/pinhole.h"

namespace lensward {

// What a pixel shows: index into the solids handed in; -1: nothing.
struct Raster {
  int width = 0, height = 0;
  std::vector<std::int32_t> solid;
  std::vector<float> depth;  // metres along the lens axis; infinity where nothing is

  std::int32_t solid_at(int x, int y) const {
    return solid[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)];
  }
};

// Draws every solid. Pixel (x, y) looks through ((x + .5) / width, (y + .5) / height) of the picture. Parts of a solid
// nearer than 5 cm to the lens plane are cut away.
Raster rasterise(const std::vector<Solid>& solids, const Pinhole& lens, int width, int height);

// The same over a larger field: `margin` 0.5 adds half a frame on every side, for outlines that leave the frame. The
// raster then covers -margin .. 1 + margin of the picture.
Raster rasterise(const std::vector<Solid>& solids, const Pinhole& lens, int width, int height, double margin);

// A rectangle of the picture cut into cells; cell (x, y) looks through its middle.
struct Field {
  double left = 0, top = 0, right = 1, bottom = 1;
  int width = 0, height = 0;
};
// The same over any rectangle, inside the frame or out of it. The rasters above are the fields 0..1 and -margin .. 1 +
// margin.
Raster rasterise(std::span<const Solid> solids, const Pinhole& lens, const Field& field);

// Surface normal of a solid where the ray of the pixel meets it, unit, toward the lens.
Vec3 normal_at(const Solid& solid, const Pinhole& lens, PicturePoint point);

// Does anything stand between two points? `skip` is the index of a solid not to count, -1: none. The ends' first and
// last 2 cm do not count.
bool blocked(const std::vector<Solid>& solids, Vec3 from, Vec3 to, std::int32_t skip);

}  // namespace lensward
