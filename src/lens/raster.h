// Solids -> which one each pixel shows, and how far it is. Exact per pixel centre; nothing is approximated by meshes.
#pragma once

#include <array>
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
// nearer than 5 cm to the lens plane are cut away and the cut is closed, so a solid the lens stands in fills the frame.
// Where two are equally far the earlier one shows. Requires width, height > 0 and no more than 2^24 solids.
Raster rasterise(std::span<const Solid> solids, const Pinhole& lens, int width, int height);

// The same over a larger field: `margin` 0.5 adds half a frame on every side, for outlines that leave the frame. The
// raster then covers -margin .. 1 + margin of the picture. `width` and `height` are the picture's, so that pixels keep
// their size; the raster has 2·round(margin·width) more columns and 2·round(margin·height) more rows.
Raster rasterise(std::span<const Solid> solids, const Pinhole& lens, int width, int height, double margin);

// A rectangle of pixels counted from the picture's top left corner, inside the frame or out of it.
struct CellWindow {
  int left = 0, top = 0, width = 0, height = 0;

  bool operator==(const CellWindow&) const = default;
};
// The same over any window. `width` and `height` are the picture's; the raster is as large as the window, whose sides
// may be 0.
Raster rasterise(std::span<const Solid> solids, const Pinhole& lens, int width, int height, const CellWindow& window);

// Bounds of each solid's outline, as shares of the picture; +-1000 where it reaches behind the lens, left > right where
// nothing of it is before the lens.
struct OutlineBounds {
  double left = 1, top = 1, right = 0, bottom = 0;
};
std::vector<OutlineBounds> bounds_of(std::span<const Solid> solids, const Pinhole& lens);

// Surface normal of a solid where the ray of the pixel meets it, unit, toward the lens. A ray that misses gives the
// direction to the lens.
Vec3 normal_at(const Solid& solid, const Pinhole& lens, PicturePoint point);
// The same of a ray from `from` along `way`, which may have any length but 0.
Vec3 normal_at(const Solid& solid, Vec3 from, Vec3 way);

// Does anything stand between two points? `skip` is the index of a solid not to count, -1: none. The ends' first and
// last 2 cm do not count.
bool blocked(std::span<const Solid> solids, Vec3 from, Vec3 to, std::int32_t skip = -1);

}  // namespace lensward
