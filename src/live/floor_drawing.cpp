#include "live/floor_drawing.h"

#include <set>

#include "export/export.h"
#include "pages/overhead.h"
#include "pages/overhead_parts.h"

namespace lensward {
namespace {

// Of paper: small, so that words drawn in millimetres are large enough on a phone.
constexpr Vec2 most{96, 132};

using Drawing = std::vector<Item>;

OverheadScene scene_of(const Results& results, const FloorPaper& paper, int beat) {
  OverheadScene scene{results, results.plan, beat, {}, results.plan.duration(), {}, paper, {}, {}, {}};
  if (beat >= 0) {
    scene.begin = scene.moment = results.plan.beats[static_cast<std::size_t>(beat)].begin;
    scene.end = results.plan.beats[static_cast<std::size_t>(beat)].end;
  }
  scene.id = "floor";
  scene.ground.sheet = {{}, paper.size()};
  return scene;
}

Drawing room_of(OverheadScene scene) {
  Drawing items{{draw_furniture(scene)}, {draw_walls(scene)}};
  std::vector<LabelWish> wishes;
  for (const auto& wish : scene.wishes) wishes.push_back(wish.label);
  const std::vector<PlacedLabel> labels = place_labels(scene.ground, wishes);
  for (std::size_t i = 0; i < labels.size(); ++i) items.push_back({drawn_label(labels[i], wishes[i])});
  return items;
}

// Without their names: on a phone the people need the room.
Drawing lamps_of(OverheadScene scene) { return {{draw_lamps(scene)}}; }

Drawing ways_of(OverheadScene scene) { return {{draw_paths(scene)}, {draw_marks(scene)}}; }

std::set<std::pair<int, Posture>> postures_of(const Show& show) {
  std::set<std::pair<int, Posture>> taken;
  for (std::size_t person = 0; person < show.people.size(); ++person)
    for (const ShownPlace& place : show.people[person].track)
      if (place.present) taken.insert({static_cast<int>(person), place.posture});
  return taken;
}

// Body and head of somebody who stands in the sheet's corner, facing up.
Drawing figure_of(const Plan& plan, const FloorPaper& paper, int person, Posture posture, bool favoured) {
  const FloorPaper corner(paper.denominator(), {}, {}, {});
  PersonState state;
  state.posture = posture;
  return person_symbol(corner, state, Degrees{0},
                       {plan.stage.people[static_cast<std::size_t>(person)].dress, false, favoured});
}

FloorDrawing measured(const FloorPaper& paper) {
  FloorDrawing floor;
  floor.size = paper.size();
  floor.scale = paper.scale();
  floor.low = paper.low();
  floor.high = paper.high();
  floor.figure = person_radius(paper);
  return floor;
}

// What the page says in words beside the drawing is taken off it.
Drawing overhead_of(const Results& results, int beat, Moment moment, FloorDrawing& floor) {
  Overhead drawing = draw_overhead(results, beat, moment, {}, most);
  floor.beats.push_back({"", drawing.group.description, drawing.size, std::move(drawing.key)});
  drawing.group.figure = false;
  drawing.group.description.clear();
  drawing.group.title.clear();
  return {{std::move(drawing.group)}};
}

// Two for each, plain and favoured, and the head after all of them.
std::vector<Drawing> figures_of(const Plan& plan, const FloorPaper& paper,
                                const std::set<std::pair<int, Posture>>& all) {
  std::vector<Drawing> figures;
  Drawing head;
  for (const auto& [person, posture] : all)
    for (const bool favoured : {false, true}) {
      Drawing body = figure_of(plan, paper, person, posture, favoured);
      head = {body.back()};
      body.pop_back();
      figures.push_back(std::move(body));
    }
  figures.push_back(std::move(head));
  return figures;
}

}  // namespace

FloorDrawing floor_drawing(const Results& results, const Show& show) {
  const Plan& plan = results.plan;
  const FloorPaper centred = fitted(extent_of(plan, {}, plan.duration()), {}, most);
  const FloorPaper paper(centred.denominator(), centred.low(), centred.high(), {});
  FloorDrawing floor = measured(paper);
  const int beats = static_cast<int>(show.beats.size());
  const auto postures = postures_of(show);

  std::vector<Drawing> drawings{room_of(scene_of(results, paper, -1)), lamps_of(scene_of(results, paper, -1))};
  for (int beat = 0; beat < beats; ++beat) drawings.push_back(ways_of(scene_of(results, paper, beat)));
  for (int beat = 0; beat < beats; ++beat)
    drawings.push_back(overhead_of(results, beat, show.beats[static_cast<std::size_t>(beat)].decided, floor));
  for (Drawing& figure : figures_of(plan, paper, postures)) drawings.push_back(std::move(figure));

  SvgParts parts = to_svg_parts(drawings, "f-");
  floor.definitions = std::move(parts.definitions);
  auto next = parts.drawings.begin();
  floor.room = std::move(*next++);
  floor.lamps = std::move(*next++);
  for (int beat = 0; beat < beats; ++beat) floor.ways.push_back(std::move(*next++));
  for (FloorDrawing::BeatFloor& beat : floor.beats) beat.drawing = std::move(*next++);
  for (const auto& key : postures) {
    std::string plain = std::move(*next++);
    floor.bodies[key] = {std::move(plain), std::move(*next++)};
  }
  floor.head = std::move(*next);
  return floor;
}

}  // namespace lensward
