#include <cmath>
#include <nlohmann/json.hpp>

#include "lens/dump.h"
#include "lens/light.h"
#include "lens/seen_groups.h"

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;

// Fine enough that a picture made from the print differs from ours in no more than the last of a million pixels.
double micro(double value) { return std::round(value * 1e6) / 1e6 + 0.0; }
double nano(double value) { return std::round(value * 1e9) / 1e9 + 0.0; }
Json dump_point(Vec3 v) { return {micro(v.x), micro(v.y), micro(v.z)}; }
Json dump_axis(Vec3 v) { return {nano(v.x), nano(v.y), nano(v.z)}; }

const char* name_of_part(Part part) {
  constexpr const char* names[part_count] = {"face", "hair", "neck", "chest", "waist", "arm",
                                             "hand", "leg",  "foot", "cloth", "set"};
  return names[static_cast<int>(part)];
}

const char* name_of_material(Material material) {
  constexpr const char* names[] = {"skin",  "hair",  "dress_upper", "dress_lower", "shoe", "wood",
                                   "metal", "glass", "fabric",      "wall",        "floor"};
  return names[static_cast<int>(material)];
}

const char* name_of_kind(Target::Kind kind) {
  switch (kind) {
    case Target::Kind::person:
      return "person";
    case Target::Kind::piece:
      return "piece";
    case Target::Kind::prop:
      return "prop";
    case Target::Kind::opening:
      return "opening";
    default:
      return "wall";
  }
}

void add_rounded(const Solid& solid, Json& shape) {
  shape["shape"] = solid.shape == Solid::Shape::frustum ? "frustum" : "round_cone";
  shape["a_m"] = dump_point(solid.a);
  shape["ra_m"] = micro(solid.ra);
  shape["b_m"] = dump_point(solid.b);
  shape["rb_m"] = micro(solid.rb);
  shape["flat"] = nano(solid.flat);
  shape["flat_axis"] = dump_axis(solid.flat_axis);
}

void add_straight(const Solid& solid, Json& shape) {
  shape["shape"] = solid.shape == Solid::Shape::box ? "box" : "ellipsoid";
  shape["middle_m"] = dump_point(solid.a);
  shape["half_m"] = dump_point(solid.radii);
  shape["axes"] = {dump_axis(solid.x_axis), dump_axis(solid.y_axis), dump_axis(solid.z_axis)};
}

Json dump_solid(const Solid& solid) {
  Json shape;
  const bool straight = solid.shape == Solid::Shape::box || solid.shape == Solid::Shape::ellipsoid;
  straight ? add_straight(solid, shape) : add_rounded(solid, shape);
  shape["part"] = name_of_part(solid.part);
  shape["material"] = name_of_material(solid.material);
  return shape;
}

Json dump_camera(const CameraState& state) {
  Json camera;
  camera["at_m"] = dump_point(state.at);
  camera["pan_deg"] = micro(state.pan.value);
  camera["tilt_deg"] = micro(state.tilt.value);
  camera["roll_deg"] = micro(state.roll.value);
  camera["focal_mm"] = micro(state.focal.value);
  camera["gate_mm"] = {micro(state.gate_width.value), micro(state.gate_height.value)};
  return camera;
}

Json dump_lamp(const LitLamp& lamp) {
  Json lit;
  lit["at_m"] = dump_point(lamp.at);
  lit["candela"] = micro(lamp.intensity.value);
  if (lamp.axis != Vec3{}) lit["axis"] = dump_axis(lamp.axis);
  if (lamp.beamed) lit["half_beam_deg"] = micro(lamp.half_beam.value);
  if (lamp.soft) lit["across_m"] = micro(lamp.across.value);
  return lit;
}

Json dump_group(const Plan& plan, const SeenGroup& group) {
  Json owner;
  owner["kind"] = name_of_kind(group.owner.kind);
  owner["name"] = group.owner.kind == Target::Kind::nothing ? "" : name_of(plan, group.owner);
  owner["see_through"] = group.lets_through;
  if (group.owner.kind == Target::Kind::person) {
    const PersonFigure& figure = group.made->figure;
    owner["eyes_m"] = dump_point(figure.eyes);
    owner["face_direction"] = dump_axis(figure.face_direction);
  }
  owner["solids"] = Json::array();
  for (const Solid& solid : group.solids) owner["solids"].push_back(dump_solid(solid));
  return owner;
}

}  // namespace

nlohmann::ordered_json dump_solids(const Plan& plan, Moment moment) {
  const SceneLight light = light_of(plan, moment);
  Json dumped;
  dumped["schema"] = "lensward/solids/1";
  dumped["moment_ms"] = moment.count;
  const CameraId camera = on_air(plan, moment);
  dumped["camera"] = camera.known() ? dump_camera(camera_at(plan, camera, moment)) : Json();
  dumped["lamps"] = Json::array();
  for (const LitLamp& lamp : light.lamps) dumped["lamps"].push_back(dump_lamp(lamp));
  dumped["indirect_lux"] = micro(light.indirect.value);
  dumped["owners"] = Json::array();
  for (const SeenGroup& group : groups_of(plan, moment)) dumped["owners"].push_back(dump_group(plan, group));
  return dumped;
}

}  // namespace lensward
