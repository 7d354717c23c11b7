#include "pages/thumbnail_ink.h"

#include <array>
#include <map>

namespace lensward {
namespace {

using Key = std::array<int, 7>;

Vec3 outward(const Solid& solid, std::uint8_t side) {
  const std::array<Vec3, 3> axes{solid.x_axis, solid.y_axis, solid.z_axis};
  return axes[side / 2] * (side % 2 == 1 ? 1.0 : -1.0);
}

double half_extent(const Solid& solid, std::uint8_t side) {
  const std::array<double, 3> radii{solid.radii.x, solid.radii.y, solid.radii.z};
  return radii[side / 2];
}

int rounded(double value) { return static_cast<int>(std::lround(value)); }

// People are one area a material; furniture one a side of a board; a wall one a plane, however many boxes it is of.
Key key_of(const ScenePicture& picture, std::size_t pixel) {
  const std::int32_t shown = picture.raster.solid[pixel];
  if (shown < 0) return {-1, 0, 0, 0, 0, 0, 0};
  const Solid& solid = picture.scene.solids[static_cast<std::size_t>(shown)];
  const Target& owner = picture.scene.owner[static_cast<std::size_t>(shown)];
  const int kind = static_cast<int>(owner.kind), material = static_cast<int>(solid.material);
  if (owner.kind == Target::Kind::person) return {kind, owner.index, material, 0, 0, 0, 0};
  const std::uint8_t side = picture.side[pixel];
  if (owner.kind != Target::Kind::nothing || side > 5) return {kind, owner.index, material, shown, side, 0, 0};
  const Vec3 normal = outward(solid, side);
  const double plane = dot(solid.a, normal) + half_extent(solid, side);
  return {
      kind, -1, material, rounded(20 * normal.x), rounded(20 * normal.y), rounded(20 * normal.z), rounded(50 * plane)};
}

// The mean of the light over a few pixels of the same area: a tone's edge is drawn by a hand, not by a grid.
std::vector<float> softened_light(const ScenePicture& picture, const InkMap& ink) {
  constexpr int reach = 3;
  std::vector<float> from = picture.light, to(from.size());
  for (const bool across : {true, false}) {
    for (int y = 0; y < picture.height; ++y) {
      for (int x = 0; x < picture.width; ++x) {
        const int label = ink.map.at(x, y);
        float sum = 0, count = 0;
        for (int step = -reach; step <= reach; ++step) {
          const int nx = across ? x + step : x, ny = across ? y : y + step;
          if (ink.map.at(nx, ny) != label) continue;
          sum += from[picture.pixel(nx, ny)];
          count += 1;
        }
        to[picture.pixel(x, y)] = sum / count;
      }
    }
    std::swap(from, to);
  }
  return from;
}

int tone_of(const InkLabel& label, double light) {
  if (label.nothing_there || label.material == Material::hair || label.material == Material::shoe) return 0;
  // Faces stay open longest; a room is kept lighter than the people in it.
  const bool skin = label.material == Material::skin;
  const bool set = label.owner.kind != Target::Kind::person;
  const double half = skin ? 0.36 : set ? 0.26 : 0.48, full = skin ? 0.10 : set ? 0.06 : 0.15;
  return light < full ? 2 : light < half ? 1 : 0;
}

}  // namespace

InkMap ink_map(const ScenePicture& picture) {
  InkMap ink;
  ink.map.width = picture.width;
  ink.map.height = picture.height;
  ink.map.label.resize(picture.raster.solid.size());
  std::map<Key, int> known;
  Key last{};
  int last_label = -1;
  for (std::size_t i = 0; i < ink.map.label.size(); ++i) {
    const Key key = key_of(picture, i);
    if (last_label < 0 || key != last) {
      const auto [at, added] = known.emplace(key, static_cast<int>(ink.labels.size()));
      last = key;
      last_label = at->second;
      const std::int32_t shown = picture.raster.solid[i];
      if (added && shown < 0) ink.labels.push_back({{}, Material::wall, true});
      if (added && shown >= 0) {
        const auto solid = static_cast<std::size_t>(shown);
        ink.labels.push_back({picture.scene.owner[solid], picture.scene.solids[solid].material, false});
      }
    }
    ink.map.label[i] = last_label;
  }
  return ink;
}

LabelMap tone_map(const ScenePicture& picture, const InkMap& ink) {
  const std::vector<float> light = softened_light(picture, ink);
  LabelMap tones{picture.width, picture.height, std::vector<int>(light.size(), 0)};
  for (std::size_t i = 0; i < light.size(); ++i) {
    const InkLabel& label = ink.labels[static_cast<std::size_t>(ink.map.label[i])];
    const int owner = label.owner.kind == Target::Kind::person ? 1 + label.owner.index : 0;
    tones.label[i] = tone_count * owner + tone_of(label, static_cast<double>(light[i]));
  }
  return tones;
}

bool stands_out(const ScenePicture& picture, int x, int y, int other_x, int other_y) {
  const std::size_t a = picture.pixel(x, y), b = picture.pixel(other_x, other_y);
  const std::int32_t solid_a = picture.raster.solid[a], solid_b = picture.raster.solid[b];
  if (solid_a == solid_b || solid_a < 0 || solid_b < 0) return false;
  const auto index = static_cast<std::size_t>(solid_a);
  if (picture.scene.owner[index].kind != Target::Kind::person) return false;
  const Part part_a = picture.scene.solids[index].part;
  const Part part_b = picture.scene.solids[static_cast<std::size_t>(solid_b)].part;
  const auto both = [&](Part one, Part other) {
    return (part_a == one || part_a == other) && (part_b == one || part_b == other);
  };
  const bool fine = both(Part::face, Part::neck) || both(Part::hand, Part::hand);
  return std::fabs(picture.raster.depth[a] - picture.raster.depth[b]) > (fine ? 0.007F : 0.022F);
}

}  // namespace lensward
