// Reads solids as `dump view --solids --as json` prints them.
#pragma once

#include <cstdio>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "figure/solid.h"

namespace lensward {

using Json = nlohmann::json;

inline Vec3 vec(const Json& v) { return {v[0].get<double>(), v[1].get<double>(), v[2].get<double>()}; }

inline Part part_named(const std::string& name) {
  const char* names[part_count] = {"face", "hair", "neck", "chest", "waist", "arm",
                                   "hand", "leg",  "foot", "cloth", "set"};
  for (int i = 0; i < part_count; ++i) {
    if (name == names[i]) return static_cast<Part>(i);
  }
  std::fprintf(stderr, "no part is called %s\n", name.c_str());
  std::exit(2);
}

inline Solid solid_read(const Json& json) {
  Solid solid;
  const std::string shape = json["shape"];
  solid.part = part_named(json["part"]);
  if (shape == "box" || shape == "ellipsoid") {
    solid.shape = shape == "box" ? Solid::Shape::box : Solid::Shape::ellipsoid;
    solid.a = vec(json["middle_m"]);
    solid.radii = vec(json["half_m"]);
    solid.x_axis = vec(json["axes"][0]);
    solid.y_axis = vec(json["axes"][1]);
    solid.z_axis = vec(json["axes"][2]);
    return solid;
  }
  solid.shape = shape == "frustum" ? Solid::Shape::frustum : Solid::Shape::round_cone;
  solid.a = vec(json["a_m"]);
  solid.b = vec(json["b_m"]);
  solid.ra = json["ra_m"];
  solid.rb = json["rb_m"];
  solid.flat = json["flat"];
  solid.flat_axis = vec(json["flat_axis"]);
  return solid;
}

struct ReadSolids {
  std::vector<Solid> solids;
  std::vector<unsigned char> owner;  // of each, counted from 1
};

// Of every owner that is not see-through, or of `only` one, counted from 0; -1: of all.
inline ReadSolids solids_read(const Json& dump, int only) {
  ReadSolids read;
  const Json& owners = dump["owners"];
  for (std::size_t i = 0; i < owners.size(); ++i) {
    if (owners[i]["see_through"] || (only >= 0 && static_cast<std::size_t>(only) != i)) continue;
    for (const Json& solid : owners[i]["solids"]) {
      read.solids.push_back(solid_read(solid));
      read.owner.push_back(static_cast<unsigned char>(i + 1));
    }
  }
  return read;
}

}  // namespace lensward
