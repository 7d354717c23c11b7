// The program's own picture of solids printed by `dump view --solids --as json`, read from standard input: for each
// pixel two bytes, the owner counted from 1 and the part; 0 0 where nothing is.
//   solid_ids WIDTH HEIGHT MARGIN [OWNER] < solids.json > pixels
// MARGIN frames are added on each side; with OWNER, counted from 0, nobody else is drawn.
#include <cstdio>
#include <cstdlib>
#include <iostream>

#include "lens/raster.h"
#include "solids_read.h"

namespace lensward {
namespace {

Pinhole lens_of(const Json& camera) {
  Pinhole lens;
  lens.at = vec(camera["at_m"]);
  lens.pan = Degrees{camera["pan_deg"]};
  lens.tilt = Degrees{camera["tilt_deg"]};
  lens.roll = Degrees{camera["roll_deg"]};
  lens.focal = Millimetres{camera["focal_mm"]};
  lens.gate_width = Millimetres{camera["gate_mm"][0]};
  lens.gate_height = Millimetres{camera["gate_mm"][1]};
  return lens;
}

int print(int width, int height, double margin, int only) {
  const Json dump = Json::parse(std::cin);
  const ReadSolids read = solids_read(dump, only);
  const Raster raster = rasterise(read.solids, lens_of(dump["camera"]), width, height, margin);
  for (const std::int32_t shown : raster.solid) {
    const auto index = static_cast<std::size_t>(shown);
    std::putchar(shown < 0 ? 0 : read.owner[index]);
    std::putchar(shown < 0 ? 0 : static_cast<int>(read.solids[index].part));
  }
  return 0;
}

}  // namespace
}  // namespace lensward

int main(int argc, char** argv) {
  if (argc < 4) return 2;
  return lensward::print(std::atoi(argv[1]), std::atoi(argv[2]), std::atof(argv[3]),
                         argc > 4 ? std::atoi(argv[4]) : -1);
}
