#include "lens/dump.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;

// Quantised, so that a difference in the last bit never shows; adding 0 makes "-0" zero. Dividing by a whole count, and
// not multiplying by a decimal step, keeps the shortest print.
double decimals(double value, double per_unit) { return std::round(value * per_unit) / per_unit + 0.0; }

double metres(Metres length) { return decimals(length.value, 1000); }
double degrees(Degrees angle) { return decimals(angle.value, 10); }
double share(Share part) { return decimals(part.value, 1000); }
double picture(double of_frame) { return decimals(of_frame, 1000); }
double stops(Stops difference) { return decimals(difference.value, 100); }
double micrometres(Millimetres length) { return decimals(length.value, 1000); }
// Three digits at least: light spans many powers of ten.
double light(double amount) {
  double per_unit = 1;
  while (amount * per_unit < 100 && per_unit < 1e6) per_unit *= 10;
  return decimals(amount, per_unit);
}

Json dump_box(const Box& box) { return {picture(box.left), picture(box.top), picture(box.right), picture(box.bottom)}; }
Json dump_point(const PicturePoint& point) { return {picture(point.u), picture(point.v)}; }

Json dump_camera(const Plan& plan, const View& view) {
  const CameraState& state = view.state;
  Json camera;
  const auto index = static_cast<std::size_t>(view.camera.index);
  camera["name"] = index < plan.stage.cameras.size() ? plan.stage.cameras[index].name : "";
  camera["at_m"] = {decimals(state.at.x, 1000), decimals(state.at.y, 1000), decimals(state.at.z, 1000)};
  camera["pan_deg"] = degrees(state.pan);
  camera["tilt_deg"] = degrees(state.tilt);
  camera["roll_deg"] = degrees(state.roll);
  camera["focal_mm"] = decimals(state.focal.value, 100);
  camera["stop"] = decimals(state.stop.value, 100);
  camera["focus_m"] = metres(state.focus);
  camera["gate_mm"] = {micrometres(state.gate_width), micrometres(state.gate_height)};
  return camera;
}

Json dump_placing(const Plan& plan, const PersonSeen& seen) {
  const Target target{Target::Kind::person, seen.person.index, {}};
  Json person;
  person["name"] = name_of(plan, target);
  person["in_front"] = seen.in_front;
  person["distance_m"] = metres(seen.distance);
  person["eyes"] = dump_point(seen.eyes);
  person["body_box"] = dump_box(seen.body_box);
  person["head_box"] = dump_box(seen.head_box);
  person["head_height"] = share(seen.head_height);
  return person;
}

void add_visibility(const Plan& plan, const PersonSeen& seen, Json& person) {
  person["head_in_frame"] = share(seen.head_in_frame);
  person["head_visible"] = share(seen.head_visible);
  person["face_visible"] = share(seen.face_visible);
  person["body_visible"] = share(seen.body_visible);
  person["head_and_chest_visible"] = share(seen.head_and_chest_visible);
  person["masked_by"] = Json::array();
  for (const Target& masker : seen.masked_by) person["masked_by"].push_back(name_of(plan, masker));
}

Json dump_person(const Plan& plan, const PersonSeen& seen) {
  Json person = dump_placing(plan, seen);
  add_visibility(plan, seen, person);
  person["face_angle_deg"] = degrees(seen.face_angle);
  person["body_angle_deg"] = degrees(seen.body_angle);
  person["view"] = spelling(seen.view);
  person["blur_mm"] = micrometres(seen.blur);
  person["blur_of_frame"] = decimals(seen.blur_of_frame.value, 10000);
  person["blur_of_head"] = share(seen.blur_of_head);
  person["incident_lux"] = light(seen.incident.value);
  person["luminance_nits"] = light(seen.luminance.value);
  person["exposure_stops"] = stops(seen.exposure);
  person["against_behind_stops"] = stops(seen.against_behind);
  person["screen_speed"] = picture(seen.screen_speed);
  person["gap"] = picture(seen.gap);
  return person;
}

Json dump_thing(const Plan& plan, const ThingSeen& seen) {
  Json thing;
  thing["name"] = name_of(plan, seen.target);
  thing["visible"] = share(seen.visible);
  thing["box"] = dump_box(seen.box);
  thing["middle"] = dump_point(seen.middle);
  thing["distance_m"] = metres(seen.distance);
  thing["blur_mm"] = micrometres(seen.blur);
  return thing;
}

}  // namespace

nlohmann::ordered_json dump_view(const Plan& plan, const View& view) {
  Json dumped;
  dumped["schema"] = "lensward/view/1";
  dumped["moment_ms"] = view.moment.count;
  dumped["camera"] = view.camera.known() ? dump_camera(plan, view) : Json();
  dumped["people"] = Json::array();
  for (const PersonSeen& seen : view.people) dumped["people"].push_back(dump_person(plan, seen));
  dumped["things"] = Json::array();
  for (const ThingSeen& seen : view.things) dumped["things"].push_back(dump_thing(plan, seen));
  return dumped;
}

}  // namespace lensward
