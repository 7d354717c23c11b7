#include "lens/furniture_solids.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/angle.h"

namespace lensward {
namespace {

// A piece's own frame: x along its front to the right of one who stands behind it looking out, y to the front, z up.
// All measures are metres.
class Joiner {
 public:
  Joiner(Vec3 origin, Degrees front, Vec3 size) : origin_(origin), size_(size) {
    const Vec2 ahead = direction_of(front);
    forward_ = raised(ahead, 0);
    right_ = {ahead.y, -ahead.x, 0};
  }

  // A box between two corners, in metres.
  void box(Vec3 low, Vec3 high, Material material) {
    Solid solid;
    solid.shape = Solid::Shape::box;
    solid.material = material;
    solid.a = at((low + high) * 0.5);
    const Vec3 half = (high - low) * 0.5;
    solid.radii = {std::max(half.x, 0.005), std::max(half.y, 0.005), std::max(half.z, 0.005)};
    solid.x_axis = right_;
    solid.y_axis = forward_;
    solids.push_back(solid);
  }

  void tube(Vec3 a, double ra, Vec3 b, double rb, Material material) {
    Solid solid;
    solid.shape = Solid::Shape::frustum;
    solid.material = material;
    solid.a = at(a);
    solid.b = at(b);
    solid.ra = ra;
    solid.rb = rb;
    solids.push_back(solid);
  }

  void ellipsoid(Vec3 middle, Vec3 radii, Material material) {
    Solid solid;
    solid.material = material;
    solid.a = solid.b = at(middle);
    solid.radii = radii;
    solid.x_axis = right_;
    solid.y_axis = forward_;
    solids.push_back(solid);
  }

  Vec3 size() const { return size_; }
  std::vector<Solid> solids;

 private:
  Vec3 at(Vec3 local) const { return origin_ + right_ * local.x + forward_ * local.y + Vec3{0, 0, local.z}; }

  Vec3 origin_, size_, forward_, right_;
};

struct Half {
  double x = 0, y = 0, z = 0;
};
Half half_of(const Joiner& make) { return {make.size().x / 2, make.size().y / 2, make.size().z}; }

// Four legs under a board of a thickness, in metres.
void board_on_legs(Joiner& make, double top, double thick, double leg) {
  const auto [x, y, z] = half_of(make);
  make.box({-x, -y, top - thick}, {x, y, top}, Material::wood);
  const double in = std::min(0.04, 0.15 * std::min(x, y));
  for (const double sx : {-1.0, 1.0}) {
    for (const double sy : {-1.0, 1.0}) {
      const double cx = sx * (x - in - leg / 2), cy = sy * (y - in - leg / 2);
      make.box({cx - leg / 2, cy - leg / 2, 0}, {cx + leg / 2, cy + leg / 2, top - thick}, Material::wood);
    }
  }
}

void table(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  board_on_legs(make, z, 0.04, 0.06);
  make.box({-x + 0.08, -y + 0.08, z - 0.13}, {x - 0.08, y - 0.08, z - 0.03}, Material::wood);
}

void chair(Joiner& make, double seat) {
  const auto [x, y, z] = half_of(make);
  board_on_legs(make, seat, 0.04, 0.045);
  for (const double side : {-1.0, 1.0}) {
    make.box({side * x - (side > 0 ? 0.045 : 0), -y, seat}, {side * x + (side > 0 ? 0 : 0.045), -y + 0.04, z},
             Material::wood);
  }
  make.box({-x, -y, z - 0.16}, {x, -y + 0.03, z}, Material::wood);
  make.box({-x, -y, seat + 0.14}, {x, -y + 0.025, seat + 0.20}, Material::wood);
}

void soft_seat(Joiner& make, double seat) {
  const auto [x, y, z] = half_of(make);
  const double arm = std::min(0.16, 0.2 * x * 2), back = std::min(0.22, 0.3 * y * 2);
  make.box({-x, -y, 0.06}, {x, y, seat - 0.12}, Material::fabric);
  make.box({-x + arm, -y + back, seat - 0.12}, {x - arm, y, seat}, Material::fabric);
  make.box({-x, -y, 0.06}, {x, -y + back, z}, Material::fabric);
  make.box({-x, -y, 0.06}, {-x + arm, y - 0.03, seat + 0.18}, Material::fabric);
  make.box({x - arm, -y, 0.06}, {x, y - 0.03, seat + 0.18}, Material::fabric);
}

void bed(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  make.box({-x, -y, 0.12}, {x, y, z - 0.16}, Material::wood);
  make.box({-x + 0.03, -y + 0.02, z - 0.16}, {x - 0.02, y - 0.02, z}, Material::fabric);
  make.box({-x, -y, 0}, {-x + 0.05, y, z + 0.40}, Material::wood);
  make.box({-x + 0.08, -y + 0.12, z}, {-x + 0.45, y - 0.12, z + 0.09}, Material::fabric);
}

void pew(Joiner& make, double seat) {
  const auto [x, y, z] = half_of(make);
  make.box({-x, -y + 0.04, seat - 0.04}, {x, y, seat}, Material::wood);
  make.box({-x, -y, 0.1}, {x, -y + 0.04, z}, Material::wood);
  make.box({-x, -y, 0}, {-x + 0.05, y, z - 0.2}, Material::wood);
  make.box({x - 0.05, -y, 0}, {x, y, z - 0.2}, Material::wood);
}

// A closed body on a plinth with an overhanging top.
void counter(Joiner& make, Material body, Material top) {
  const auto [x, y, z] = half_of(make);
  make.box({-x + 0.02, -y, 0}, {x - 0.02, y - 0.06, 0.1}, body);
  make.box({-x, -y, 0.1}, {x, y - 0.03, z - 0.04}, body);
  make.box({-x - 0.01, -y, z - 0.04}, {x + 0.01, y, z}, top);
}

// Doors on the front, as panels that stand out a little.
void panels(Joiner& make, int count, double from, double to, Material material) {
  const auto [x, y, z] = half_of(make);
  const double wide = 2 * x / count;
  for (int i = 0; i < count; ++i) {
    make.box({-x + i * wide + 0.015, y - 0.02, from}, {-x + (i + 1) * wide - 0.015, y + 0.008, to}, material);
  }
}

void stove(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  counter(make, Material::metal, Material::metal);
  make.box({-x + 0.06, y - 0.03, 0.2}, {x - 0.06, y - 0.005, z - 0.2}, Material::metal);
  make.tube({-x + 0.1, y + 0.02, z - 0.24}, 0.012, {x - 0.1, y + 0.02, z - 0.24}, 0.012, Material::metal);
  for (const double side : {-0.5, 0.5})
    make.tube({side * x, 0, z}, 0.11, {side * x, 0, z + 0.015}, 0.11, Material::metal);
  make.box({-x, -y, z}, {x, -y + 0.03, z + 0.12}, Material::metal);
}

void sink(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  counter(make, Material::wood, Material::metal);
  panels(make, 2, 0.14, z - 0.1, Material::wood);
  make.box({-0.26, -y + 0.1, z}, {0.26, y - 0.08, z + 0.012}, Material::metal);
  make.tube({0, -y + 0.06, z}, 0.014, {0, -y + 0.06, z + 0.26}, 0.012, Material::metal);
  make.tube({0, -y + 0.06, z + 0.25}, 0.012, {0, -y + 0.22, z + 0.22}, 0.012, Material::metal);
}

void basin(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  make.tube({0, 0, 0}, 0.1, {0, 0, z - 0.2}, 0.08, Material::metal);
  make.box({-x, -y, z - 0.2}, {x, y, z}, Material::metal);
}

void bath(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  make.box({-x, -y, 0.05}, {x, y, z - 0.04}, Material::metal);
  make.box({-x - 0.02, -y - 0.02, z - 0.04}, {x + 0.02, y + 0.02, z}, Material::metal);
}

void cabinet(Joiner& make, int doors) {
  const auto [x, y, z] = half_of(make);
  make.box({-x, -y, 0}, {x, y - 0.01, z}, Material::wood);
  panels(make, doors, 0.1, z - 0.06, Material::wood);
  make.box({-x - 0.015, -y, z - 0.04}, {x + 0.015, y + 0.02, z}, Material::wood);
}

void fridge(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  make.box({-x, -y, 0.04}, {x, y - 0.02, z}, Material::metal);
  make.box({-x, y - 0.02, 0.06}, {x, y, 0.62 * z}, Material::metal);
  make.box({-x, y - 0.02, 0.64 * z}, {x, y, z}, Material::metal);
  make.box({x - 0.08, y, 0.40 * z}, {x - 0.05, y + 0.035, 0.58 * z}, Material::metal);
}

void bookcase(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  make.box({-x, -y, 0}, {x, -y + 0.02, z}, Material::wood);
  make.box({-x, -y, 0}, {-x + 0.03, y, z}, Material::wood);
  make.box({x - 0.03, -y, 0}, {x, y, z}, Material::wood);
  const int shelves = std::max(2, static_cast<int>(z / 0.36));
  for (int i = 0; i <= shelves; ++i) {
    const double at = (z - 0.03) * i / shelves;
    make.box({-x, -y, at}, {x, y, at + 0.03}, Material::wood);
    if (i < shelves)
      make.box({-x + 0.03, -y, at + 0.03}, {x - 0.2 - 0.05 * (i % 3), y - 0.06, at + 0.26}, Material::fabric);
  }
}

void piano(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  make.box({-x, -y, 0}, {x, y - 0.22, z}, Material::wood);
  make.box({-x, y - 0.24, 0.62}, {x, y, 0.74}, Material::wood);
  for (const double side : {-1.0, 1.0})
    make.box({side * (x - 0.05) - 0.04, y - 0.1, 0}, {side * (x - 0.05) + 0.04, y - 0.02, 0.62}, Material::wood);
}

void lectern(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  make.box({-x * 0.6, -y * 0.6, 0}, {x * 0.6, y * 0.6, 0.05}, Material::wood);
  make.box({-x * 0.3, -y * 0.3, 0.05}, {x * 0.3, y * 0.3, z - 0.08}, Material::wood);
  make.box({-x, -y, z - 0.08}, {x, y, z}, Material::wood);
}

void trolley(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  board_on_legs(make, z, 0.03, 0.03);
  make.box({-x, -y, 0.22}, {x, y, 0.25}, Material::metal);
}

// Cloth that hangs in folds.
void curtain(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  const int folds = std::max(2, static_cast<int>(2 * x / 0.16));
  const double wide = 2 * x / folds;
  for (int i = 0; i < folds; ++i) {
    const double cx = -x + (i + 0.5) * wide;
    make.tube({cx, 0, 0.02}, wide * 0.62, {cx, 0, z}, wide * 0.56, Material::fabric);
  }
}

void folding_screen(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  for (int i = 0; i < 3; ++i) {
    make.box({-x + i * 2 * x / 3 + 0.01, -y, 0.04}, {-x + (i + 1) * 2 * x / 3 - 0.01, y, z}, Material::fabric);
  }
}

void rail(Joiner& make, int bars) {
  const auto [x, y, z] = half_of(make);
  make.box({-x, -0.025, z - 0.05}, {x, 0.025, z}, Material::wood);
  make.box({-x, -0.015, 0.12}, {x, 0.015, 0.16}, Material::wood);
  for (int i = 0; i <= bars; ++i) {
    const double cx = -x + 0.02 + i * (2 * x - 0.04) / bars;
    make.box({cx - 0.015, -0.015, 0}, {cx + 0.015, 0.015, z - 0.05}, Material::wood);
  }
}

void tree(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  make.tube({0, 0, 0}, x * 0.55, {0, 0, 0.5 * z}, x * 0.4, Material::wood);
  make.ellipsoid({0, 0, 0.68 * z}, {0.32 * z, 0.32 * z, 0.32 * z}, Material::fabric);
}

void steps(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  const int count = std::max(1, static_cast<int>(std::lround(z / 0.17)));
  for (int i = 0; i < count; ++i) {
    make.box({-x, -y, z * (count - 1 - i) / count}, {x, y - 2 * y * (count - 1 - i) / count, z * (count - i) / count},
             Material::wood);
  }
}

void ladder(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  for (const double side : {-1.0, 1.0})
    make.tube({side * (x - 0.02), y, 0}, 0.02, {side * (x - 0.02), -y, z}, 0.02, Material::wood);
  for (int i = 1; i * 0.3 < z; ++i) {
    const double at = i * 0.3, cy = y - 2 * y * at / z;
    make.tube({-x, cy, at}, 0.015, {x, cy, at}, 0.015, Material::wood);
  }
}

void fireplace(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  make.box({-x, -y, 0}, {-0.55 * x, y, z - 0.08}, Material::wall);
  make.box({0.55 * x, -y, 0}, {x, y, z - 0.08}, Material::wall);
  make.box({-0.55 * x, -y, 0.65 * z}, {0.55 * x, y, z - 0.08}, Material::wall);
  make.box({-0.55 * x, -y, 0}, {0.55 * x, -y + 0.05, 0.65 * z}, Material::metal);
  make.box({-x - 0.06, -y, z - 0.08}, {x + 0.06, y + 0.06, z}, Material::wood);
}

void barrel(Joiner& make) {
  const auto [x, y, z] = half_of(make);
  make.tube({0, 0, 0}, 0.86 * x, {0, 0, z / 2}, x, Material::wood);
  make.tube({0, 0, z / 2}, x, {0, 0, z}, 0.86 * x, Material::wood);
}

void plain(Joiner& make, Material material) {
  const auto [x, y, z] = half_of(make);
  make.box({-x, -y, 0}, {x, y, z}, material);
}

void join(Joiner& make, const Piece& piece) {
  const double z = make.size().z, seat = std::min(piece.seat_height.value, z);
  switch (piece.kind) {
    case PieceKind::table:
    case PieceKind::desk:
      return table(make);
    case PieceKind::counter:
    case PieceKind::bar:
      return counter(make, Material::wood, Material::wood);
    case PieceKind::stove:
      return stove(make);
    case PieceKind::sink:
      return sink(make);
    case PieceKind::basin:
      return basin(make);
    case PieceKind::bath:
      return bath(make);
    case PieceKind::fridge:
      return fridge(make);
    case PieceKind::cupboard:
    case PieceKind::wardrobe:
      return cabinet(make, 2);
    case PieceKind::sideboard:
      return cabinet(make, 3);
    case PieceKind::bookcase:
      return bookcase(make);
    case PieceKind::chair:
      return chair(make, seat);
    case PieceKind::armchair:
    case PieceKind::sofa:
      return soft_seat(make, seat);
    case PieceKind::stool:
    case PieceKind::bench:
      return board_on_legs(make, z, 0.04, 0.04);
    case PieceKind::bed:
    case PieceKind::bunk:
      return bed(make);
    case PieceKind::pew:
      return pew(make, seat);
    case PieceKind::piano:
      return piano(make);
    case PieceKind::lectern:
      return lectern(make);
    case PieceKind::trolley:
      return trolley(make);
    case PieceKind::screen:
      return folding_screen(make);
    case PieceKind::curtain:
      return curtain(make);
    case PieceKind::pillar:
      return make.tube({0, 0, 0}, make.size().x / 2, {0, 0, z}, make.size().x / 2, Material::wall);
    case PieceKind::rail:
      return rail(make, 8);
    case PieceKind::fence:
      return rail(make, 14);
    case PieceKind::tree:
      return tree(make);
    case PieceKind::steps:
      return steps(make);
    case PieceKind::ladder:
      return ladder(make);
    case PieceKind::fireplace:
      return fireplace(make);
    case PieceKind::barrel:
      return barrel(make);
    case PieceKind::cloth:
    case PieceKind::rug:
    case PieceKind::hedge:
      return plain(make, Material::fabric);
    case PieceKind::chest:
    case PieceKind::crate:
    case PieceKind::box:
      return plain(make, Material::wood);
  }
}

// An opening's own frame: x along the wall, y into the room, z up, its middle on the floor of the wall's line.
Joiner in_wall(const Opening& opening) {
  const Vec2 into = length(opening.into_room) > 0 ? opening.into_room : Vec2{0, 1};
  return Joiner(raised(opening.middle, 0), bearing_of(into), {opening.width.value, 0.1, opening.height.value});
}

}  // namespace

std::vector<Solid> solids_of(const Piece& piece) {
  constexpr double least = 0.01;
  const Vec3 size{std::max(piece.length.value, least), std::max(piece.depth.value, least),
                  std::max(piece.height.value, least)};
  Joiner make(raised(piece.at, 0), piece.front, size);
  join(make, piece);
  return make.solids;
}

std::vector<Solid> solids_of(const Opening& opening, bool open, Metres into_wall) {
  Joiner make = in_wall(opening);
  const double x = opening.width.value / 2, low = opening.sill.value, high = low + opening.height.value;
  const double out = -into_wall.value;
  constexpr double post = 0.06, proud = 0.02;
  make.box({-x - post, out, low}, {-x, proud, high + post}, Material::wood);
  make.box({x, out, low}, {x + post, proud, high + post}, Material::wood);
  make.box({-x - post, out, high}, {x + post, proud, high + post}, Material::wood);
  if (opening.kind == Opening::Kind::window) {
    make.box({-x - post - 0.04, out, low - 0.05}, {x + post + 0.04, proud + 0.06, low}, Material::wood);
    make.box({-0.02, out / 2 - 0.02, low}, {0.02, out / 2 + 0.02, high}, Material::wood);
    const double bar = mix(low, high, 0.62);
    make.box({-x, out / 2 - 0.015, bar - 0.015}, {x, out / 2 + 0.015, bar + 0.015}, Material::wood);
    return make.solids;
  }
  // Hung on the left of who comes in, as the floor plan draws it.
  constexpr double leaf = 0.04;
  if (open) {
    const double away = opening.inward ? 2 * x : -2 * x;
    make.box({-x, std::min(0.0, away), low + 0.01}, {-x + leaf, std::max(0.0, away), high - 0.01}, Material::wood);
    return make.solids;
  }
  make.box({-x, out / 2 - leaf / 2, low + 0.01}, {x, out / 2 + leaf / 2, high - 0.01}, Material::wood);
  for (const auto& [from, to] : {std::pair{0.08, 0.46}, std::pair{0.54, 0.93}}) {
    make.box({-x + 0.12, out / 2 - 0.03, mix(low, high, from)}, {x - 0.12, out / 2 + 0.03, mix(low, high, to)},
             Material::wood);
  }
  make.tube({x - 0.06, out / 2 - 0.07, low + 0.5 * (high - low)}, 0.02,
            {x - 0.06, out / 2 + 0.07, low + 0.5 * (high - low)}, 0.02, Material::metal);
  return make.solids;
}

std::vector<Solid> solids_of(const Wall& wall, WallId id, const std::vector<Opening>& openings, Metres height,
                             Metres thickness) {
  const Vec2 along = unit(wall.to - wall.from);
  const double whole = length(wall.to - wall.from);
  if (whole <= 0) return {};
  // The room lies to the left of from -> to; y points into it.
  Joiner make(raised(mix(wall.from, wall.to, 0.5), 0), bearing_of(left_of(along)),
              {whole, thickness.value, height.value});
  const double out = -thickness.value;

  struct Hole {
    double from, to, low, high;
  };
  std::vector<Hole> holes;
  for (const Opening& opening : openings) {
    if (opening.wall != id) continue;
    const double middle = dot(opening.middle - mix(wall.from, wall.to, 0.5), along);
    const double half = opening.width.value / 2;
    holes.push_back({middle - half, middle + half, opening.sill.value, opening.sill.value + opening.height.value});
  }
  std::sort(holes.begin(), holes.end(), [](const Hole& a, const Hole& b) { return a.from < b.from; });
  // A frame whose y axis points left of `along` has `along` as its x axis.
  double at = -whole / 2;
  for (const Hole& hole : holes) {
    const double from = std::clamp(hole.from, at, whole / 2), to = std::clamp(hole.to, from, whole / 2);
    if (from > at + 1e-6) make.box({at, out, 0}, {from, 0, height.value}, Material::wall);
    if (to <= from) continue;
    if (hole.high < height.value) make.box({from, out, hole.high}, {to, 0, height.value}, Material::wall);
    if (hole.low > 0) make.box({from, out, 0}, {to, 0, std::min(hole.low, height.value)}, Material::wall);
    at = to;
  }
  if (at < whole / 2 - 1e-6) make.box({at, out, 0}, {whole / 2, 0, height.value}, Material::wall);
  return make.solids;
}

Solid upright_box(Vec3 middle, Vec3 size, Degrees bearing, Material material) {
  Joiner make(middle, bearing, size);
  make.box(size * -0.5, size * 0.5, material);
  return make.solids.front();
}

}  // namespace lensward
