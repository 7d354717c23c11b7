// The program's own light on points of matte surfaces, among solids printed by `dump view --solids --as json`. Reads
// that print with one more key, "probes": [{"at": [x, y, z], "facing": [x, y, z], "own": an owner's number or -1}];
// prints the lux of each on a line of its own, without what the walls give back.
#include <cstdio>
#include <iostream>

#include "lens/light.h"
#include "solids_read.h"

namespace lensward {
namespace {

Target owner_number(int index) { return {Target::Kind::piece, index, {}}; }

std::vector<SeenGroup> groups_read(const ReadSolids& read) {
  std::vector<SeenGroup> groups;
  for (std::size_t first = 0; first < read.solids.size();) {
    std::size_t end = first;
    while (end < read.solids.size() && read.owner[end] == read.owner[first]) ++end;
    // Round everything, so that no group is passed over.
    groups.push_back({owner_number(read.owner[first] - 1),
                      std::span(read.solids).subspan(first, end - first),
                      false,
                      {},
                      Metres{1e6}});
    first = end;
  }
  return groups;
}

LitLamp lamp_read(const Json& json) {
  LitLamp lamp;
  lamp.at = vec(json["at_m"]);
  lamp.intensity = Candela{json["candela"]};
  return lamp;
}

int print(const Json& dump) {
  const ReadSolids read = solids_read(dump, -1);
  const std::vector<SeenGroup> groups = groups_read(read);
  SceneLight light;
  for (const Json& lamp : dump["lamps"]) light.lamps.push_back(lamp_read(lamp));
  for (const Json& probe : dump["probes"]) {
    const int own = probe["own"];
    const Target excepted = own < 0 ? Target{} : owner_number(own);
    std::printf("%.9g\n", light_on(light, groups, vec(probe["at"]), vec(probe["facing"]), excepted).value);
  }
  return 0;
}

}  // namespace
}  // namespace lensward

int main() { return lensward::print(lensward::Json::parse(std::cin)); }
