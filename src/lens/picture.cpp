#include "lens/picture.h"

#include <algorithm>
#include <array>

#include "lens/furniture_solids.h"
#include "lens/light.h"

namespace lensward {
namespace {

constexpr double slab = 0.02;

struct Extent {
  Vec2 low{-30, -30}, high{30, 30};
};

Extent ground_of(const Room& room) {
  if (room.outline.size() < 3) return {};
  Extent extent{room.outline.front(), room.outline.front()};
  for (const Vec2& corner : room.outline) {
    extent.low = {std::min(extent.low.x, corner.x), std::min(extent.low.y, corner.y)};
    extent.high = {std::max(extent.high.x, corner.x), std::max(extent.high.y, corner.y)};
  }
  // As far as a camera may stand outside, so that the floor runs out under the frame.
  constexpr double beyond = 6;
  return {extent.low - Vec2{beyond, beyond}, extent.high + Vec2{beyond, beyond}};
}

void add_floor_and_ceiling(const Room& room, Vec3 lens, SceneSolids& scene) {
  const Extent extent = ground_of(room);
  const Vec2 middle = mix(extent.low, extent.high, 0.5), size = extent.high - extent.low;
  const auto add = [&](double z, Material material) {
    scene.solids.push_back(upright_box(raised(middle, z), {size.x, size.y, slab}, 0_deg, material));
    scene.owner.emplace_back();
  };
  add(-slab / 2, Material::floor);
  if (room.outline.size() >= 3 && lens.z < room.height.value) add(room.height.value + slab / 2, Material::wall);
}

// Everything one lamp sees, in six square pictures: what it does not see is in shadow.
class ShadowMap {
 public:
  ShadowMap(const std::vector<Solid>& casters, Vec3 lamp, Pains pains)
      : lamp_(lamp), pixels_(pains == Pains::full ? finest : finest / coarser), grace_(0.025 * finest / pixels_) {
    std::vector<Solid> around;
    for (const Solid& solid : casters) {
      if (!holds(solid, lamp)) around.push_back(solid);
    }
    for (std::size_t i = 0; i < faces_.size(); ++i) {
      Pinhole lens;
      lens.at = lamp;
      lens.focal = Millimetres{1};
      lens.gate_width = lens.gate_height = Millimetres{2};
      if (i < 4) lens.pan = Degrees{90.0 * static_cast<double>(i)};
      if (i >= 4) lens.tilt = Degrees{i == 4 ? 90.0 : -90.0};
      faces_[i].axes = axes_of(lens);
      faces_[i].raster = rasterise(around, lens, pixels_, pixels_);
    }
  }

  bool lit(Vec3 point) const {
    const Vec3 way = point - lamp_;
    const Face* face = &faces_.front();
    double depth = -1;
    for (const Face& other : faces_) {
      const double along = dot(way, other.axes.forward);
      if (along > depth) {
        depth = along;
        face = &other;
      }
    }
    if (depth < 0.05) return true;
    const double u = 0.5 + 0.5 * dot(way, face->axes.right) / depth, v = 0.5 - 0.5 * dot(way, face->axes.up) / depth;
    const auto at = [this](double share) {
      return static_cast<std::size_t>(std::clamp(static_cast<int>(share * pixels_), 0, pixels_ - 1));
    };
    const std::size_t index = at(v) * static_cast<std::size_t>(pixels_) + at(u);
    // A pixel is a centimetre or two wide in a room; surfaces seen at a slant need that much grace.
    return depth < static_cast<double>(face->raster.depth[index]) * 1.012 + grace_;
  }

 private:
  static constexpr int finest = 384, coarser = 4;
  struct Face {
    LensAxes axes;
    Raster raster;
  };

  // Whatever a lamp stands in, a shade or a fitting, lets its light out.
  static bool holds(const Solid& solid, Vec3 lamp) {
    return blocked(std::span(&solid, 1), lamp + Vec3{0, 0, 0.03}, lamp - Vec3{0, 0, 0.03});
  }

  Vec3 lamp_;
  int pixels_;
  double grace_;
  std::array<Face, 6> faces_;
};

class Lighting {
 public:
  Lighting(const Plan& plan, Moment moment, const std::vector<Solid>& casters, const LensAxes& axes, Pains pains)
      : over_the_shoulder_(unit(axes.up * 1.1 - axes.right * 0.7 - axes.forward * 0.8)) {
    const SceneLight light = light_of(plan, moment);
    given_back_ = light.indirect;
    for (const LitLamp& lamp : light.lamps) {
      lamps_.push_back({{lamp}, Lux{0}});
      shadows_.emplace_back(casters, lamp.at, pains);
    }
  }

  double at(Vec3 point, Vec3 normal) const {
    if (lamps_.empty()) return 0.25 + 0.75 * std::max(0.0, dot(normal, over_the_shoulder_));
    double sum = given_back_.value / 3;
    for (std::size_t i = 0; i < lamps_.size(); ++i) {
      const Lux open = light_on(lamps_[i], {}, point, normal, {});
      if (open.value > 0 && shadows_[i].lit(point + normal * 0.01)) sum += open.value;
    }
    return sum;
  }

 private:
  std::vector<SceneLight> lamps_;
  std::vector<ShadowMap> shadows_;
  Lux given_back_;
  Vec3 over_the_shoulder_;
};

std::uint8_t side_of(const Solid& solid, Vec3 normal) {
  if (solid.shape != Solid::Shape::box) return 6;
  const std::array<double, 3> along{dot(normal, solid.x_axis), dot(normal, solid.y_axis), dot(normal, solid.z_axis)};
  std::size_t most = 0;
  for (std::size_t i = 1; i < 3; ++i) {
    if (std::fabs(along[i]) > std::fabs(along[most])) most = i;
  }
  return static_cast<std::uint8_t>(2 * most + (along[most] > 0 ? 1 : 0));
}

// Light is worked out once for each two by two pixels of one surface, quickly for each four by four: its edges are
// drawn softer than that.
class LightMeter {
 public:
  LightMeter(ScenePicture& picture, const Lighting& lighting, Pains pains)
      : picture_(picture),
        lighting_(lighting),
        first_of_(pains == Pains::full ? ~1 : ~3),
        side_of_(pains == Pains::full ? ~0 : ~1),
        axes_(axes_of(picture.lens)),
        half_x_(0.5 * picture.lens.gate_width / picture.lens.focal),
        half_y_(0.5 * picture.lens.gate_height / picture.lens.focal) {}

  void measure() {
    for (int y = 0; y < picture_.height; ++y) {
      for (int x = 0; x < picture_.width; ++x) measure_at(x, y);
    }
  }

 private:
  void measure_at(int x, int y) {
    const std::size_t i = picture_.pixel(x, y), first = picture_.pixel(x & first_of_, y & first_of_);
    const std::int32_t shown = picture_.raster.solid[i];
    if (shown < 0) return;
    const Solid& solid = picture_.scene.solids[static_cast<std::size_t>(shown)];
    const bool follows = i != first && picture_.raster.solid[first] == shown;
    if (follows && solid.shape != Solid::Shape::box) {
      picture_.light[i] = picture_.light[first];
      return;
    }
    const std::size_t beside = picture_.pixel(x & side_of_, y & side_of_);
    if (i != beside && picture_.raster.solid[beside] == shown) {
      picture_.side[i] = picture_.side[beside];
      picture_.light[i] = picture_.light[beside];
      return;
    }
    const Vec3 way = axes_.forward + axes_.right * (half_x_ * (2 * (x + 0.5) / picture_.width - 1)) -
                     axes_.up * (half_y_ * (2 * (y + 0.5) / picture_.height - 1));
    const Vec3 normal = normal_at(solid, picture_.lens.at, way);
    picture_.side[i] = side_of(solid, normal);
    if (follows && picture_.side[i] == picture_.side[first]) {
      picture_.light[i] = picture_.light[first];
      return;
    }
    const Vec3 point = picture_.lens.at + way * static_cast<double>(picture_.raster.depth[i]);
    picture_.light[i] = static_cast<float>(lighting_.at(point, normal));
  }

  ScenePicture& picture_;
  const Lighting& lighting_;
  int first_of_, side_of_;  // masks of a pixel's place: whose light it takes, and whose side of a box
  LensAxes axes_;
  double half_x_, half_y_;
};

// The light that nine in ten pixels of people, or of everything when nobody shows, have less of.
double key_of(const ScenePicture& picture) {
  std::vector<float> people, all;
  for (std::size_t i = 0; i < picture.light.size(); ++i) {
    const std::int32_t shown = picture.raster.solid[i];
    if (shown < 0) continue;
    all.push_back(picture.light[i]);
    if (picture.scene.owner[static_cast<std::size_t>(shown)].kind == Target::Kind::person) people.push_back(all.back());
  }
  std::vector<float>& asked = people.empty() ? all : people;
  if (asked.empty()) return 1;
  const auto at = asked.begin() + static_cast<std::ptrdiff_t>(asked.size() * 9 / 10);
  std::nth_element(asked.begin(), at, asked.end());
  return std::max(1e-6, static_cast<double>(*at));
}

}  // namespace

ScenePicture picture_of(const Plan& plan, Moment moment, int width, Pains pains) {
  ScenePicture picture;
  picture.camera = camera_at(plan, on_air(plan, moment), moment);
  picture.lens = pinhole_of(picture.camera);
  picture.width = width;
  picture.height =
      std::max(1, static_cast<int>(std::lround(width * (picture.lens.gate_height / picture.lens.gate_width))));
  picture.scene = solids_of(plan, moment);
  const Lighting lighting(plan, moment, picture.scene.solids, axes_of(picture.lens), pains);
  add_floor_and_ceiling(plan.stage.room, picture.lens.at, picture.scene);
  picture.raster = rasterise(picture.scene.solids, picture.lens, picture.width, picture.height);
  picture.side.assign(picture.raster.solid.size(), 6);
  picture.light.assign(picture.raster.solid.size(), 0);
  LightMeter(picture, lighting, pains).measure();
  const double key = key_of(picture);
  for (std::size_t i = 0; i < picture.light.size(); ++i) {
    picture.light[i] = picture.raster.solid[i] < 0 ? 1 : static_cast<float>(picture.light[i] / key);
  }
  return picture;
}

}  // namespace lensward
