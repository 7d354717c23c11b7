#include "lens/light.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/angle.h"
#include "optics/light.h"
#include "plan/floor.h"

namespace lensward {
namespace {

LitLamp lit(const Plan& plan, LampId id, Moment moment) {
  const Lamp& lamp = plan.stage.lamps[static_cast<std::size_t>(id.index)];
  const LampState state = lamp_at(plan, id, moment);
  LitLamp result;
  result.lamp = id;
  result.at = state.at;
  result.intensity = lamp.intensity * std::clamp(state.level.value, 0.0, 1.0);
  result.across = lamp.across;
  result.beamed = lamp.beam.has_value();
  if (lamp.beam) result.half_beam = Degrees{std::clamp(lamp.beam->value / 2, 0.5, 180.0)};
  result.soft = lamp.kind == Lamp::Kind::soft;
  if (result.beamed || result.soft) result.axis = unit(state.aim - state.at);
  return result;
}

// Floor, ceiling and walls, in square metres.
double surface_of(const Room& room) {
  double twice_floor = 0, round = 0;
  for (std::size_t i = 0; i < room.outline.size(); ++i) {
    const Vec2 from = room.outline[i];
    const Vec2 to = room.outline[(i + 1) % room.outline.size()];
    twice_floor += cross(from, to);
    round += length(to - from);
  }
  return std::fabs(twice_floor) + round * std::max(room.height.value, 0.0);
}

// A photometric sphere's formula, for light that has been reflected at least once. A cupboard is counted as a metre
// square.
Lux indirect_of(const Room& room, const std::vector<LitLamp>& lamps) {
  if (room.outline.size() < 3) return Lux{0};
  double flux = 0;
  for (const LitLamp& lamp : lamps) flux += flux_of(lamp);
  const double rho = wall_reflectance(room.walls).value;
  return Lux{flux * rho / (std::max(surface_of(room), 1.0) * (1 - rho))};
}

// Share of the intensity along the axis that goes in a unit direction. By definition a beam is as wide as where half of
// it is left; the fall on either side of that is taken as a straight line a fifth of the beam each way.
double toward(const LitLamp& lamp, Vec3 direction) {
  if (lamp.axis == Vec3{}) return 1;
  const double along = dot(lamp.axis, direction);
  const double side = lamp.soft ? std::max(along, 0.0) : 1;
  if (!lamp.beamed || side == 0) return side;
  const double off = arc_cosine(along).value / lamp.half_beam.value;
  return side * std::clamp(0.5 + (1 - off) / 0.4, 0.0, 1.0);
}

// By day in the open, from sky and ground: a share of what its lamps give level ground in the middle.
Lux from_all_over(const Plan& plan, const std::vector<LitLamp>& lamps) {
  if (!open_ground(plan) || at_night(plan)) return Lux{0};
  Lux sum{0};
  const Vec3 ground = raised(middle_of(plan.stage), 0);
  for (const LitLamp& lamp : lamps) {
    const Lux level = illuminance(lamp.intensity * toward(lamp, unit(ground - lamp.at)), lamp.at, ground, {0, 0, 1});
    sum += level * (lamp.soft ? from_all_over_overcast : from_all_over_in_sun).value;
  }
  return sum;
}

Lux from_point(const LitLamp& lamp, const std::vector<SeenGroup>& groups, Vec3 source, Vec3 point, Vec3 normal,
               const Target& own) {
  const double share = toward(lamp, unit(point - source));
  if (share == 0) return Lux{0};
  const Lux open = illuminance(lamp.intensity * share, source, point, normal);
  if (open.value == 0 || shaded(groups, source, point, own)) return Lux{0};
  return open;
}

// A surface stands for its middle and four points half way out by area.
std::array<Vec3, 5> points_of(const LitLamp& lamp, Vec3 point) {
  const Vec3 axis = lamp.axis == Vec3{} ? unit(point - lamp.at) : lamp.axis;
  const Vec3 upright = std::fabs(axis.z) > 0.9 ? Vec3{1, 0, 0} : Vec3{0, 0, 1};
  const double out = lamp.across.value / 2 * 0.7071;
  const Vec3 side = unit(cross(axis, upright)) * out;
  const Vec3 over = unit(cross(side, axis)) * out;
  return {lamp.at, lamp.at + side, lamp.at - side, lamp.at + over, lamp.at - over};
}

Lux from_lamp(const LitLamp& lamp, const std::vector<SeenGroup>& groups, Vec3 point, Vec3 normal, const Target& own) {
  if (!lamp.soft || lamp.across.value <= 0.1) return from_point(lamp, groups, lamp.at, point, normal, own);
  Lux sum{0};
  const std::array<Vec3, 5> sources = points_of(lamp, point);
  for (const Vec3& source : sources) sum += from_point(lamp, groups, source, point, normal, own);
  return sum / static_cast<double>(sources.size());
}

// Ten at most: less than a thousandth is none.
Stops kept_off(Lux without, Lux with) {
  return stops_between(without.value, std::max(with.value, without.value / 1024));
}

// Of whoever works a camera, half a metre behind the lens, and of the camera itself; common practice, no source.
constexpr double operator_behind = 0.5, operator_radius = 0.25, over_the_lens = 0.2, camera_radius = 0.15;

Solid upright(Vec3 middle, double radius, double half_height) {
  Solid solid;
  solid.a = middle;
  solid.radii = {radius, radius, half_height};
  return solid;
}

std::vector<Solid> solids_of_camera(const Plan& plan, CameraId camera, const CameraState& state) {
  const Vec2 back = direction_of(state.pan) * -1.0;
  const Vec2 behind = floor_of(state.at) + back * (camera_radius + 0.05);
  std::vector<Solid> solids{upright({behind.x, behind.y, state.at.z}, camera_radius, camera_radius)};
  const Rig rig = plan.stage.cameras[static_cast<std::size_t>(camera.index)].support.rig;
  if (rig == Rig::jib || rig == Rig::crane) return solids;
  const Vec2 stands = floor_of(state.at) + back * operator_behind;
  const double half = (state.at.z + over_the_lens) / 2;
  solids.push_back(upright({stands.x, stands.y, half}, operator_radius, half));
  return solids;
}

}  // namespace

Share wall_reflectance(Tone tone) {
  switch (tone) {
    case Tone::dark:
      return Share{0.15};
    case Tone::mid:
      return Share{0.4};
    case Tone::light:
      return Share{0.7};
  }
  return Share{0.4};
}

double flux_of(const LitLamp& lamp) {
  if (lamp.axis == Vec3{}) return 4 * pi * lamp.intensity.value;
  if (lamp.beamed) return 2 * pi * (1 - cosine(lamp.half_beam)) * lamp.intensity.value;
  return pi * lamp.intensity.value;
}

SceneLight light_of(const Plan& plan, Moment moment) {
  SceneLight light;
  for (std::size_t i = 0; i < plan.stage.lamps.size(); ++i) {
    const LitLamp lamp = lit(plan, LampId{static_cast<int>(i)}, moment);
    if (lamp.intensity.value > 0) light.lamps.push_back(lamp);
  }
  light.indirect = indirect_of(plan.stage.room, light.lamps) + from_all_over(plan, light.lamps);
  return light;
}

Lux light_on(const SceneLight& light, const std::vector<SeenGroup>& groups, Vec3 point, Vec3 normal,
             const Target& own) {
  Lux sum = light.indirect;
  for (const LitLamp& lamp : light.lamps) sum += from_lamp(lamp, groups, point, normal, own);
  return sum;
}

Lux FaceLight::sum() const {
  Lux all = indirect;
  for (const auto& [lamp, light] : from) all += light;
  return all;
}

FaceLight face_light(const Plan& plan, PersonId person, Moment moment) {
  const Target own{Target::Kind::person, person.index, {}};
  const std::vector<SeenGroup> groups = groups_of(plan, moment);
  const int group = group_of(groups, own);
  if (group < 0) return {};
  const PersonFigure& figure = groups[static_cast<std::size_t>(group)].made->figure;
  const SceneLight light = light_of(plan, moment);
  FaceLight face;
  face.indirect = light.indirect;
  for (const LitLamp& lamp : light.lamps)
    face.from.emplace_back(lamp.lamp, from_lamp(lamp, groups, figure.eyes, figure.face_direction, own));
  return face;
}

std::optional<Stops> camera_shadow_on(const Plan& plan, PersonId person, Moment moment) {
  const Target own{Target::Kind::person, person.index, {}};
  const CameraId camera = on_air(plan, moment);
  std::vector<SeenGroup> groups = groups_of(plan, moment);
  const int group = group_of(groups, own);
  if (group < 0 || !camera.known()) return std::nullopt;
  const PersonFigure& figure = groups[static_cast<std::size_t>(group)].made->figure;
  const SceneLight light = light_of(plan, moment);
  const Lux without = light_on(light, groups, figure.eyes, figure.face_direction, own);
  const CameraState state = camera_at(plan, camera, moment);
  const std::vector<Solid> solids = solids_of_camera(plan, camera, state);
  const Vec3 middle = solids.back().a;
  groups.push_back(
      {{Target::Kind::lens, camera.index, {}}, solids, false, middle, Metres{length(state.at - middle) + 1}});
  const Lux with = light_on(light, groups, figure.eyes, figure.face_direction, own);
  if (with >= without) return std::nullopt;
  return kept_off(without, with);
}

std::optional<ShadowThrown> shadow_on(const Plan& plan, PersonId person, Moment moment) {
  const Target own{Target::Kind::person, person.index, {}};
  std::vector<SeenGroup> groups = groups_of(plan, moment);
  const int group = group_of(groups, own);
  if (group < 0) return std::nullopt;
  const PersonFigure& figure = groups[static_cast<std::size_t>(group)].made->figure;
  const SceneLight light = light_of(plan, moment);
  const Lux there = light_on(light, groups, figure.eyes, figure.face_direction, own);
  std::optional<ShadowThrown> most;
  for (SeenGroup& other : groups) {
    if (other.owner.kind != Target::Kind::person || other.owner == own) continue;
    const auto solids = std::exchange(other.solids, {});
    const Lux without = light_on(light, groups, figure.eyes, figure.face_direction, own);
    other.solids = solids;
    if (without <= there) continue;
    const Stops stops = kept_off(without, there);
    if (!most || stops > most->stops) most = ShadowThrown{other.owner, stops};
  }
  return most;
}

}  // namespace lensward
