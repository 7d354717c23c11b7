#include <fmt/core.h>

#include <algorithm>
#include <limits>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "optics/pinhole.h"
#include "pages/draw.h"
#include "pages/overhead_parts.h"
#include "pages/words.h"

namespace lensward {
namespace {

// How far a ray goes until it leaves the room: the farthest wall it meets; without a room, out of the picture.
double reach_of(const OverheadScene& scene, Vec2 from, Vec2 way) {
  double reach = 0;
  const std::vector<Vec2>& outline = scene.plan.stage.room.outline;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2 a = outline[i], edge = outline[(i + 1) % outline.size()] - a;
    const double slope = cross(way, edge);
    if (std::fabs(slope) < 1e-9) continue;
    const double along = cross(a - from, edge) / slope, share = cross(a - from, way) / slope;
    if (along > 0 && share >= 0 && share <= 1) reach = std::max(reach, along);
  }
  return reach > 0 ? reach : length(scene.paper.high() - scene.paper.low());
}

CameraId camera_on_air(const OverheadScene& scene) {
  return scene.plan.cameras.empty() ? CameraId{} : on_air(scene.plan, scene.moment);
}

// An edge of the picture on the floor: a line with a hatched hem on its inner side.
void draw_edge(OverheadScene& scene, Vec2 from, Degrees bearing, double inner_side, Group& group) {
  const Vec2 way = direction_of(bearing);
  const double reach = reach_of(scene, from, way);
  const Vec2 start = scene.paper.mm(from), end = scene.paper.mm(from + way * reach);
  const Vec2 along = unit(end - start);
  // y grows downward on paper, so the left of a bearing is on the other hand.
  const Vec2 inner = left_of(along) * inner_side;
  constexpr double hem = 1.9, first = 5;
  if (length(end - start) <= first) return;
  const Vec2 hem_start = start + along * first;
  group.items.push_back(shape(polygon({hem_start, end, end + inner * hem, hem_start + inner * (hem * 0.6)}),
                              hatched(Ink::mid, 0.75, inner_side > 0 ? 60 : 120, 0.12), no_stroke()));
  group.items.push_back(line(start, end, pen(Ink::dark, thin_line)));
  scene.drawn_mm({start, end});
}

void draw_focus(OverheadScene& scene, const CameraState& camera, Degrees half_angle, Group& group) {
  const double depth = camera.focus.value;
  if (depth <= 0 || depth > 40) return;
  const Vec2 ahead = direction_of(camera.pan);
  const Vec2 middle = floor_of(camera.at) + ahead * depth;
  const Vec2 half = left_of(ahead) * (depth * tangent(half_angle));
  group.items.push_back(line(scene.paper.mm(middle - half), scene.paper.mm(middle + half),
                             dashed(Ink::dark, hairline, {2.4, 0.8, 0.3, 0.8})));
  scene.drawn({middle - half, middle + half});
}

void draw_body(const FloorPaper& paper, const CameraState& camera, bool ghost, Group& group) {
  const Vec2 forward = direction_of(camera.pan);
  const Vec2 ahead = unit(paper.way(forward)), right = left_of(ahead);
  const Vec2 pupil = paper.mm(floor_of(camera.at));
  const auto at = [&](double x, double y) { return pupil + right * x + ahead * y; };
  const Stroke edge = ghost ? dashed(Ink::mid, hairline, {0.5, 0.4}) : pen(Ink::black, plain_line);
  const Fill fill = ghost ? Fill{} : flat(Ink::black);
  group.items.push_back(shape(polygon({at(-1.5, 0.6), at(1.5, 0.6), at(0.8, -1.2), at(-0.8, -1.2)}), fill, edge));
  group.items.push_back(shape(polygon({at(-1.6, -1.5), at(1.6, -1.5), at(1.6, -5.2), at(-1.6, -5.2)}), fill, edge));
}

Vec2 body_middle(const FloorPaper& paper, const CameraState& camera) {
  return paper.mm(floor_of(camera.at)) - unit(paper.way(direction_of(camera.pan))) * 2.3;
}

void wish_for_words(OverheadScene& scene, CameraId id, const CameraState& camera, const std::string& group_id) {
  Group body;
  draw_body(scene.paper, camera, false, body);
  const Camera& kit = scene.plan.stage.cameras[static_cast<std::size_t>(id.index)];
  LabelWish wish;
  wish.lines = {kit.name + "  " + optics_words(camera)};
  const std::string support = support_words(scene.plan, id);
  if (!support.empty()) wish.lines.push_back(support);
  wish.short_lines = {kit.name};
  wish.about = body_middle(scene.paper, camera);
  wish.clear = 3.4;
  wish.size = 2.5;
  scene.take(body.items, wish);
  scene.wishes.push_back({wish, group_id, {}});
}

void draw_camera(OverheadScene& scene, CameraId id, Group& all) {
  const Camera& kit = scene.plan.stage.cameras[static_cast<std::size_t>(id.index)];
  const CameraState now = camera_at(scene.plan, id, scene.moment);
  const CameraState before = camera_at(scene.plan, id, scene.begin), after = camera_at(scene.plan, id, scene.end);
  Group group;
  group.id = scene.id + "/camera-" + id_part(kit.name);
  group.title = "camera " + kit.name;
  group.description = fmt::format("Camera {}, {} at T{}, {} up, aimed {}", kit.name, text_of(now.focal),
                                  number(now.stop.value, 1), text_of(Metres{now.at.z}), compass_words(now.pan));
  const std::string support = support_words(scene.plan, id);
  if (!support.empty()) group.description += ", " + support;
  if (!kit.declared.empty()) group.line = kit.declared;
  const Vec2 from = floor_of(before.at), to = floor_of(after.at);
  if (length(to - from) > 0.05) {
    group.items.push_back(line(scene.paper.mm(from), scene.paper.mm(to), pen(Ink::black, heavy_line)));
    scene.drawn({from, to});
    draw_body(scene.paper, length(floor_of(now.at) - from) > 0.05 ? before : after, true, group);
    scene.take(group.items);
  }
  draw_body(scene.paper, now, false, group);
  wish_for_words(scene, id, now, group.id);
  all.items.push_back({std::move(group)});
}

}  // namespace

Group draw_angles(OverheadScene& scene) {
  Group all;
  const CameraId id = camera_on_air(scene);
  if (!id.known()) return all;
  const CameraState camera = camera_at(scene.plan, id, scene.moment);
  const Degrees half = angle_of_view(camera.gate_width, camera.focal) / 2;
  all.id = scene.id + "/angle-of-view";
  all.title = "angle of view of " + scene.plan.stage.cameras[static_cast<std::size_t>(id.index)].name;
  all.description = text_of(half * 2) + " across";
  draw_edge(scene, floor_of(camera.at), camera.pan - half, 1, all);
  draw_edge(scene, floor_of(camera.at), camera.pan + half, -1, all);
  draw_focus(scene, camera, half, all);
  return all;
}

Group draw_cameras(OverheadScene& scene) {
  Group all;
  for (int index = 0; index < static_cast<int>(scene.plan.cameras.size()); ++index)
    draw_camera(scene, CameraId{index}, all);
  return all;
}

namespace {

void draw_lamp(OverheadScene& scene, LampId id, Group& all) {
  const Lamp& lamp = scene.plan.stage.lamps[static_cast<std::size_t>(id.index)];
  const LampState state = lamp_at(scene.plan, id, scene.moment);
  const Vec2 at = scene.paper.mm(floor_of(state.at));
  if (!scene.paper.area().holds({at, at})) return;
  Group group;
  group.id = scene.id + "/lamp-" + id_part(lamp.name);
  group.title = lamp.name;
  group.description = fmt::format("{}, {} up, at {}", lamp.name, text_of(Metres{state.at.z}), text_of(state.level));
  if (!lamp.declared.empty()) group.line = lamp.declared;
  const bool lit = state.level.value > 0;
  const Fill fill = flat(lit ? Ink::paper : Ink::mid);
  const Vec2 aim = floor_of(state.aim) - floor_of(state.at);
  const bool aimed = lamp.kind != Lamp::Kind::practical && length(aim) > 0.01;
  const Vec2 ahead = aimed ? unit(scene.paper.way(aim)) : Vec2{0, 1};
  if (aimed && lit) {
    const Degrees half = lamp.beam ? *lamp.beam / 2 : Degrees{25};
    for (const double side : {-1.0, 1.0}) {
      const Vec2 edge = direction_of(bearing_of(aim) + half * side);
      group.items.push_back(line(at + unit(scene.paper.way(edge)) * 2, at + unit(scene.paper.way(edge)) * 12,
                                 dashed(Ink::mid, hairline, {2, 0.7})));
    }
    group.items.push_back(line(at + ahead * 2, at + ahead * 7, pen(Ink::mid, hairline)));
  }
  if (lamp.kind == Lamp::Kind::soft) {
    const Vec2 wide = left_of(ahead) * 2.4, deep = ahead * 0.8;
    group.items.push_back(shape(polygon({at - wide - deep, at + wide - deep, at + wide + deep, at - wide + deep}), fill,
                                pen(Ink::black, plain_line)));
  } else {
    group.items.push_back(shape(circle(at, 1.3), fill, pen(Ink::black, plain_line)));
    constexpr int rays = 8;
    for (int ray = 0; ray < rays && lit && lamp.kind == Lamp::Kind::practical; ++ray) {
      const Vec2 way = direction_of(Degrees{360.0 / rays * ray});
      group.items.push_back(line(at + way * 1.9, at + way * 2.8, pen(Ink::black, hairline)));
    }
    if (lamp.kind == Lamp::Kind::hard)
      group.items.push_back(line(at - left_of(ahead) * 1.3 + ahead * 1.3, at + left_of(ahead) * 1.3 + ahead * 1.3,
                                 pen(Ink::black, heavy_line)));
  }
  LabelWish wish;
  scene.take(group.items, wish);
  wish.lines = break_lines(lamp.name, Face::sans_italic, 2.5, 26);
  wish.about = at;
  wish.clear = 2.6;
  wish.size = 2.5;
  wish.face = Face::sans_italic;
  wish.ink = Ink::dark;
  scene.wishes.push_back({wish, group.id, {}});
  all.items.push_back({std::move(group)});
}

}  // namespace

Group draw_lamps(OverheadScene& scene) {
  Group all;
  for (int index = 0; index < static_cast<int>(scene.plan.lamps.size()); ++index) draw_lamp(scene, LampId{index}, all);
  return all;
}

}  // namespace lensward
