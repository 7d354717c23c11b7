#include <algorithm>

#include "base/angle.h"
#include "pages/draw.h"
#include "pages/overhead_parts.h"
#include "pages/words.h"
#include "plan/lane.h"

namespace lensward {
namespace {

// Millimetres of paper: half a mark's width, and the least between the middles of two.
constexpr double half_mark = 0.75, apart = 2.1;

Target prop_target(std::size_t index) { return {Target::Kind::prop, static_cast<int>(index), {}}; }

// Where it rests at the moment; nothing when it is not there, or is with somebody who is not.
Target rests_at(const OverheadScene& scene, std::size_t index) {
  const Target rests = stepped(scene.plan.props[index].rests, scene.moment, Target{});
  const bool with_somebody = rests.kind == Target::Kind::person;
  if (with_somebody && !person_at(scene.plan, PersonId{rests.index}, scene.moment).present) return {};
  return rests;
}

// What is in a hand stands ahead of its holder, what is worn or in a pocket at their side; neither on the symbol, which
// on small plans is drawn larger than people are.
Vec2 beside_holder(const OverheadScene& scene, const PersonState& holder, const Target& prop, Vec2 point) {
  const Vec2 middle = scene.paper.mm(holder.at);
  const Vec2 way = holds(holder, prop) ? scene.paper.mm(point) - middle
                                       : scene.paper.way(direction_of(holder.facing + Degrees{125}));
  const double least = person_radius(scene.paper) + half_mark;
  return middle + unit(way) * std::max(least, holds(holder, prop) ? length(way) : 0);
}

std::optional<Vec2> place_of(const OverheadScene& scene, std::size_t index) {
  const Target rests = rests_at(scene, index);
  const auto point = point_of(scene.plan, prop_target(index), scene.moment);
  if (rests.kind == Target::Kind::nothing || !point) return std::nullopt;
  if (rests.kind != Target::Kind::person) return scene.paper.mm(floor_of(*point));
  const PersonState holder = person_at(scene.plan, PersonId{rests.index}, scene.moment);
  return beside_holder(scene, holder, prop_target(index), floor_of(*point));
}

std::string described(const OverheadScene& scene, std::size_t index) {
  const Target rests = rests_at(scene, index);
  const std::string& name = scene.plan.stage.props[index].name;
  if (rests.kind == Target::Kind::point) return name + " lies there";
  if (rests.kind != Target::Kind::person) return name + " on " + called(scene.plan, rests);
  const bool held = holds(person_at(scene.plan, PersonId{rests.index}, scene.moment), prop_target(index));
  return name + (held ? " in the hand of " : " with ") + called(scene.plan, rests);
}

Group prop_mark(OverheadScene& scene, std::size_t index, Vec2 at) {
  const Prop& prop = scene.plan.stage.props[index];
  Group group;
  group.id = scene.id + "/prop-" + id_part(prop.name);
  group.title = prop.name;
  group.description = described(scene, index);
  if (!prop.declared.empty()) group.line = prop.declared;
  group.items.push_back(shape(
      polygon({at + Vec2{0, -half_mark}, at + Vec2{half_mark, 0}, at + Vec2{0, half_mark}, at + Vec2{-half_mark, 0}}),
      flat(Ink::black), pen(Ink::paper, thin_line)));
  LabelWish wish;
  scene.take(group.items, wish);
  wish.lines = break_lines(prop.name, Face::sans_italic, 2.5, 26);
  wish.about = at;
  wish.clear = half_mark;
  wish.face = Face::sans_italic;
  wish.size = 2.5;
  scene.wishes.push_back({wish, group.id, {}});
  return group;
}

}  // namespace

Group draw_props(OverheadScene& scene) {
  Group all;
  std::vector<Vec2> marks;
  for (std::size_t i = 0; i < std::min(scene.plan.props.size(), scene.plan.stage.props.size()); ++i) {
    std::optional<Vec2> at = place_of(scene, i);
    if (!at || !scene.paper.area().holds({*at, *at})) continue;
    // What lies in one place stands side by side.
    const auto taken = [&] { return std::ranges::any_of(marks, [&](Vec2 m) { return length(m - *at) < apart; }); };
    while (taken()) at->x += apart;
    marks.push_back(*at);
    all.items.push_back({prop_mark(scene, i, *at)});
  }
  return all;
}

}  // namespace lensward
