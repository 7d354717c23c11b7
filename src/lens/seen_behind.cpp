#include "lens/seen_behind.h"

#include <algorithm>
#include <array>

#include "base/angle.h"
#include "optics/light.h"

namespace lensward {
namespace {

// Round the head from one shoulder over the crown to the other: below it is the person's own body.
constexpr std::array<double, 7> round_about{-100, -65, -30, 0, 30, 65, 100};
constexpr double outside = 1.3;
constexpr double open_floor = 0.25, ceiling = 0.7;

double dress_reflectance(Tone tone) {
  switch (tone) {
    case Tone::dark:
      return 0.05;
    case Tone::mid:
      return 0.2;
    case Tone::light:
      return 0.6;
  }
  return 0.2;
}

struct Surface {
  Vec3 point, normal;
  Share reflectance;
  Target owner;
};

// Floor and ceiling are no solids.
std::optional<Surface> bare_room(const Looking& looking, Vec3 ray) {
  const Room& room = looking.plan.stage.room;
  const Vec3 from = looking.lens.at;
  if (ray.z < 0 && from.z > 0) {
    return Surface{from + ray * (from.z / -ray.z), {0, 0, 1}, Share{open_floor}, {}};
  }
  const double above = room.height.value - from.z;
  if (ray.z > 0 && above > 0 && room.outline.size() > 2) {
    return Surface{from + ray * (above / ray.z), {0, 0, -1}, Share{ceiling}, {}};
  }
  return std::nullopt;
}

std::optional<Surface> surface_at(const Looking& looking, PicturePoint at) {
  const auto cell = cell_at(looking.frame, at);
  if (!cell) return std::nullopt;
  const Vec3 ray = ray_through(looking.lens, looking.axes, at);
  if (cell->group < 0) return bare_room(looking, ray);
  const SeenGroup& group = looking.groups[static_cast<std::size_t>(cell->group)];
  const Solid& solid = group.solids[static_cast<std::size_t>(cell->solid)];
  const Vec3 point = looking.lens.at + ray * (cell->depth.value / dot(ray, looking.axes.forward));
  return Surface{point, normal_at(solid, looking.lens.at, ray),
                 reflectance_of(looking.plan, group.owner, solid.material), group.owner};
}

Lux open_light(const SceneLight& light, const Surface& surface) {
  static const std::vector<SeenGroup> no_shadows;
  return light_on(light, no_shadows, surface.point, surface.normal, surface.owner);
}

}  // namespace

Share reflectance_of(const Plan& plan, const Target& owner, Material material) {
  const auto index = static_cast<std::size_t>(owner.index);
  const bool person = owner.kind == Target::Kind::person && index < plan.stage.people.size();
  switch (material) {
    case Material::skin:
      return Share{person ? std::clamp(0.18 * power(2, plan.stage.people[index].skin.value), 0.01, 0.95) : 0.18};
    case Material::dress_upper:
    case Material::dress_lower:
      return Share{dress_reflectance(person ? plan.stage.people[index].dress : Tone::mid)};
    case Material::hair:
    case Material::shoe:
      return Share{0.06};
    case Material::wall:
      return wall_reflectance(plan.stage.room.walls);
    case Material::wood:
    case Material::fabric:
    case Material::floor:
      return Share{0.25};
    case Material::metal:
      return Share{0.4};
    case Material::glass:
      return Share{0.1};
  }
  return Share{0.25};
}

Nits behind(const Looking& looking, const PersonSeen& seen) {
  const Box& head = seen.head_box;
  if (!(head.left < head.right && head.top < head.bottom)) return seen.luminance;
  const PicturePoint middle{(head.left + head.right) / 2, (head.top + head.bottom) / 2};
  const double across = (head.right - head.left) / 2 * outside, down = (head.bottom - head.top) / 2 * outside;
  double sum = 0;
  int count = 0;
  for (const double turn : round_about) {
    const auto surface =
        surface_at(looking, {middle.u + across * sine(Degrees{turn}), middle.v - down * cosine(Degrees{turn})});
    const bool own =
        surface && surface->owner.kind == Target::Kind::person && surface->owner.index == seen.person.index;
    if (!surface || own) continue;
    sum += reflected(surface->reflectance, open_light(looking.light, *surface)).value;
    ++count;
  }
  return count > 0 ? Nits{sum / count} : seen.luminance;
}

}  // namespace lensward
