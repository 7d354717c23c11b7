#include "pages/overhead.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/quantity_text.h"
#include "pages/draw.h"
#include "pages/overhead_parts.h"
#include "pages/words.h"

namespace lensward {
namespace {

constexpr double foot_height = 9;  // of the scale bar and compass under the drawing, mm

Beat beat_or_whole(const Plan& plan, int beat) {
  if (beat >= 0 && beat < static_cast<int>(plan.beats.size())) return plan.beats[static_cast<std::size_t>(beat)];
  Beat whole;
  whole.end = plan.duration();
  return whole;
}

void draw_compass(Vec2 at, Group& group) {
  constexpr double radius = 2.6;
  group.items.push_back(shape(circle(at, radius), {}, pen(Ink::dark, hairline)));
  group.items.push_back(
      shape(polygon({at + Vec2{0, -radius}, at + Vec2{0.8, 0}, at + Vec2{-0.8, 0}}), flat(Ink::black), no_stroke()));
  group.items.push_back(shape(polygon({at + Vec2{0, radius}, at + Vec2{0.8, 0}, at + Vec2{-0.8, 0}}), flat(Ink::paper),
                              pen(Ink::dark, hairline)));
  group.items.push_back(words(at + Vec2{radius + 0.9, 1}, "north", Face::sans, 2.5, Ink::dark));
}

// People's names matter most, then marks, then the camera, then what passes from hand to hand, then what stands about.
int importance(const OverheadScene::Wish& wish) {
  const auto has = [&](const char* part) { return wish.id.find(part) != std::string::npos; };
  if (has("/person-")) return 0;
  if (has("/mark-")) return 1;
  if (has("/camera-")) return 2;
  return has("/prop-") ? 3 : 4;
}

void draw_labels(OverheadScene& scene, Overhead& drawing) {
  std::stable_sort(scene.wishes.begin(), scene.wishes.end(),
                   [](const auto& a, const auto& b) { return importance(a) < importance(b); });
  std::vector<LabelWish> wishes;
  wishes.reserve(scene.wishes.size());
  for (const auto& wish : scene.wishes) wishes.push_back(wish.label);
  const std::vector<PlacedLabel> labels = place_labels(scene.ground, wishes);
  for (std::size_t i = 0; i < labels.size(); ++i) {
    Group group = drawn_label(labels[i], wishes[i]);
    group.id = scene.wishes[i].id + "/name";
    drawing.group.items.push_back({std::move(group)});
    if (labels[i].is_short && !scene.wishes[i].key.empty()) drawing.key.push_back(scene.wishes[i].key);
  }
}

std::string description_of(const OverheadScene& scene) {
  std::string text = fmt::format("Overhead at {}.", clock_text(scene.moment));
  for (int index = 0; index < static_cast<int>(scene.plan.people.size()); ++index) {
    const PersonState state = person_at(scene.plan, PersonId{index}, scene.moment);
    if (!state.present) continue;
    text +=
        fmt::format(" {} is {} at ({}, {}) m facing {}", called(scene.plan, PersonId{index}), spelling(state.posture),
                    number(state.at.x, 2), number(state.at.y, 2), compass_words(state.facing));
    if (state.gaze.kind != Target::Kind::nothing) text += " and looks at " + called(scene.plan, state.gaze);
    text += ".";
  }
  return text;
}

}  // namespace

void OverheadScene::drawn_mm(const std::vector<Vec2>& points) {
  for (std::size_t i = 1; i < points.size(); ++i) ground.drawn.push_back({points[i - 1], points[i]});
}

void OverheadScene::take(const std::vector<Item>& items) {
  const std::vector<LabelArea> areas = areas_of(items);
  ground.taken.insert(ground.taken.end(), areas.begin(), areas.end());
}

void OverheadScene::take(const std::vector<Item>& items, LabelWish& wish) {
  wish.own_begin = ground.taken.size();
  take(items);
  wish.own_end = ground.taken.size();
}

void OverheadScene::drawn(const std::vector<Vec2>& floor_points) {
  std::vector<Vec2> points;
  points.reserve(floor_points.size());
  for (const Vec2 point : floor_points) points.push_back(paper.mm(point));
  drawn_mm(points);
}

// Five steps of the bar, whole or half metres, as long as fits 50 mm: by it a print can be checked with any ruler.
Group draw_scale(const OverheadScene& scene, Vec2 at, double width) {
  const double mm_a_metre = scene.paper.scale();
  const double whole = std::min(50.0, width * 0.5);
  double step = 0.1;
  for (const double metres : {0.1, 0.2, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0})
    if (metres * mm_a_metre * 5 <= whole + 1e-6) step = metres;
  Group group;
  group.id = scene.id + "/scale";
  const double part = step * mm_a_metre;
  for (int i = 0; i < 5; ++i)
    group.items.push_back(shape(rectangle(at + Vec2{part * i, -1.1}, {part, 1.1}),
                                flat(i % 2 == 0 ? Ink::black : Ink::paper), pen(Ink::black, hairline)));
  const Vec2 below = at + Vec2{0, 3.1};
  group.items.push_back(words(below, "0", Face::sans, 2.5, Ink::dark));
  group.items.push_back(
      words(below + Vec2{part * 5, 0}, number(step * 5, 2) + " m", Face::sans, 2.5, Ink::dark, Text::Anchor::middle));
  const std::string stated = fmt::format("1:{}", scene.paper.denominator());
  group.items.push_back(words(at + Vec2{part * 5 + 6, 0}, stated, Face::sans_bold, 3.2));
  group.items.push_back(words(at + Vec2{part * 5 + 6, 3.1}, fmt::format("bar {} mm in print", number(part * 5, 1)),
                              Face::sans, 2.5, Ink::dark));
  return group;
}

Overhead draw_overhead(const Results& results, int beat, Moment moment, Vec2 at, Vec2 most) {
  const Plan& plan = results.plan;
  const Beat whole = beat_or_whole(plan, beat);
  const FloorExtent extent = extent_of(plan, whole.begin, whole.end);
  const FloorPaper paper = fitted(extent, at, most - Vec2{0, foot_height});
  OverheadScene scene{results, plan, beat, whole.begin, whole.end, moment, paper, {}, {}, {}};
  scene.id = "floor-" + id_part(whole.name.empty() ? "scene" : whole.name);
  // Labels may use the whole width given, not only the room's.
  scene.ground.sheet = {at, at + Vec2{most.x, paper.size().y}};

  Overhead drawing;
  drawing.denominator = paper.denominator();
  drawing.size = {most.x, paper.size().y + foot_height};
  drawing.group.id = scene.id;
  drawing.group.title = "overhead" + (whole.name.empty() ? std::string() : " of " + whole.name);
  drawing.group.figure = true;
  drawing.group.description = description_of(scene);
  Group angles = draw_angles(scene);
  angles.clip = std::pair{paper.area().low, paper.size()};
  auto& items = drawing.group.items;
  items.push_back({std::move(angles)});
  items.push_back({draw_furniture(scene)});
  items.push_back({draw_walls(scene)});
  items.push_back({draw_paths(scene)});
  items.push_back({draw_marks(scene)});
  items.push_back({draw_lamps(scene)});
  items.push_back({draw_people(scene)});
  items.push_back({draw_props(scene)});
  items.push_back({draw_cameras(scene)});
  draw_labels(scene, drawing);
  const double foot = at.y + paper.size().y + 4.5;
  items.push_back({draw_scale(scene, {at.x, foot}, most.x)});
  Group compass;
  draw_compass({at.x + most.x - 10.5, foot}, compass);
  items.push_back({std::move(compass)});
  return drawing;
}

}  // namespace lensward
