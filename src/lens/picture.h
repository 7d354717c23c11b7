// What a drawing of one moment is traced from: at every pixel what shows, how far it is, and how much light falls on
// it.
#pragma once

#include <vector>

#include "lens/raster.h"
#include "lens/scene_solids.h"
#include "plan/plan.h"

namespace lensward {

struct ScenePicture {
  int width = 0, height = 0;
  CameraState camera;
  Pinhole lens;
  SceneSolids scene;  // with a floor, and the ceiling when the lens is below it; both owned by nothing
  Raster raster;      // indices into scene.solids
  // For each pixel the side of a box that shows, 0..5; 6 for a rounded solid or nothing.
  std::vector<std::uint8_t> side;
  // For each pixel the light there as a share of the key, the light on the best lit people; shadows with hard edges.
  // Light given back by the room counts a third, so that shadows stay readable. 1 where nothing shows.
  std::vector<float> light;

  std::size_t pixel(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x);
  }
  // Index into scene.solids, or -1.
  std::int32_t solid_at(int x, int y) const { return raster.solid[pixel(x, y)]; }
};

// Quick: shadows and their edges are found less finely, for a drawing that is seen for a moment only.
enum class Pains { full, quick };

// Through the camera on air, `width` pixels across and as high as its gate asks for. Without a lit lamp light falls
// over the lens's left shoulder. Requires a plan with a camera and width >= 16.
ScenePicture picture_of(const Plan& plan, Moment moment, int width, Pains pains = Pains::full);

}  // namespace lensward
