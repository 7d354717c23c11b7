#include <fmt/core.h>

#include <algorithm>
#include <set>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "pages/draw.h"
#include "pages/overhead_parts.h"
#include "pages/words.h"

namespace lensward {
namespace {

constexpr double moved_at_all = 0.3;

std::set<int> favoured_at(const OverheadScene& scene) {
  std::set<int> people;
  for (const Target& target : asked_for(scene.plan, scene.beat, scene.moment))
    if (target.kind == Target::Kind::person) people.insert(target.index);
  return people;
}

// A line of sight, from the nose to just short of what is looked at, with a small open head.
void draw_gaze(OverheadScene& scene, const PersonState& state, Group& group) {
  const bool at_something = state.gaze.kind != Target::Kind::nothing;
  const Vec2 from_floor = state.at;
  Vec2 to_floor = floor_of(state.looks_at);
  if (!at_something) to_floor = from_floor + direction_of(head_bearing(state)) * 0.7;
  const Vec2 from = scene.paper.mm(from_floor), to = scene.paper.mm(to_floor);
  const double radius = person_radius(scene.paper);
  const double span = length(to - from);
  if (span < 2 * radius + 1.5) return;
  const Vec2 way = unit(to - from);
  const double stop = state.gaze.kind == Target::Kind::person ? radius + 0.4 : at_something ? 0.8 : 0;
  const Vec2 start = from + way * (radius * 0.75), end = to - way * stop;
  group.items.push_back(line(start, end, dashed(Ink::mid, hairline, {1.1, 0.7})));
  if (at_something) {
    const Vec2 wing = left_of(way) * 0.55;
    group.items.push_back(
        shape(polyline({end - way * 1.2 + wing, end, end - way * 1.2 - wing}), {}, pen(Ink::mid, hairline)));
  }
  scene.drawn_mm({start, end});
}

std::string name_with_mark(const OverheadScene& scene, PersonId person, const PersonState& state) {
  const Mark* here = nullptr;
  for (const Mark& mark : scene.plan.marks)
    if (mark.person == person && length(mark.at - state.at) < 0.25 && mark.reached <= scene.end) here = &mark;
  const std::string name = called(scene.plan, person);
  return here == nullptr || here->name.empty() ? name : name + " " + here->name;
}

void wish_for_name(OverheadScene& scene, PersonId person, const PersonState& state, bool favoured, const Group& group) {
  LabelWish wish;
  const std::string number = ordinal(scene.plan, person);
  wish.face = favoured ? Face::sans_bold : Face::sans;
  wish.size = 3.0;
  wish.lines = break_lines(name_with_mark(scene, person, state), wish.face, wish.size, 28);
  wish.short_lines = {number};
  wish.about = scene.paper.mm(state.at);
  wish.clear = person_radius(scene.paper);
  wish.ink = favoured ? Ink::accent : Ink::black;
  scene.take(group.items, wish);
  scene.wishes.push_back({wish, group.id, number + "  " + called(scene.plan, person)});
}

void draw_ghost(OverheadScene& scene, PersonId person, const PersonState& now, Group& all) {
  const PersonState before = person_at(scene.plan, person, scene.begin);
  if (!before.present || length(before.at - now.at) < moved_at_all) return;
  FigureLook look;
  look.ghost = true;
  Group group;
  group.id = scene.id + "/ghost-" + id_part(person_of(scene.plan, person).name);
  group.title = called(scene.plan, person) + " before";
  group.items = person_symbol(scene.paper, before, head_bearing(before), look);
  scene.take(group.items);
  all.items.push_back({std::move(group)});
}

// Paths of the beat ---------------------------------------------------------------------------------------------

std::vector<Vec2> steps_of(const Walk& walk, const FloorPaper& paper) {
  std::vector<Vec2> points;
  points.reserve(walk.path.size());
  for (const Vec2 point : walk.path) points.push_back(paper.mm(point));
  return points;
}

// One foot tick each second from the first step on, by turns to the left and the right of the way.
void draw_ticks(OverheadScene& scene, const Segment<Walk>& walk, Group& group) {
  const double seconds = to_seconds(walk.end - walk.begin).value;
  if (seconds <= 0) return;
  constexpr int most_ticks = 600;
  for (int second = 1; second < seconds && second <= most_ticks; ++second) {
    const double share = second / seconds;
    const Vec2 before = walk.to.at(std::max(0.0, share - 0.01)), after = walk.to.at(std::min(1.0, share + 0.01));
    const Vec2 way = unit(scene.paper.way(after - before));
    const Vec2 at = scene.paper.mm(walk.to.at(share));
    const Vec2 aside = left_of(way) * (second % 2 == 0 ? 1.0 : -1.0);
    group.items.push_back(line(at, at + aside * 1.3, pen(Ink::black, plain_line)));
  }
}

void draw_head(const std::vector<Vec2>& points, double short_of, Group& group) {
  const Vec2 end = points.back();
  Vec2 before = end;
  for (std::size_t i = points.size(); i-- > 0 && length(end - before) < 0.5;) before = points[i];
  const Vec2 way = unit(end - before);
  if (length(end - before) <= short_of) return;
  const Vec2 tip = end - way * short_of, wing = left_of(way) * 0.75;
  group.items.push_back(
      shape(polygon({tip, tip - way * 1.9 + wing, tip - way * 1.9 - wing}), flat(Ink::black), no_stroke()));
}

void draw_walk(OverheadScene& scene, PersonId person, const Segment<Walk>& walk, int number, Group& all) {
  const std::vector<Vec2> points = steps_of(walk.to, scene.paper);
  Group group;
  group.id = fmt::format("{}/way-{}-{}", scene.id, id_part(person_of(scene.plan, person).name), number);
  group.title = called(scene.plan, person) + " walks";
  group.description = fmt::format("{} walks {} from {} to {}", called(scene.plan, person), text_of(walk.to.length()),
                                  clock_text(walk.begin), clock_text(walk.end));
  if (!walk.said_at.empty()) group.line = walk.said_at;
  group.items.push_back(shape(polyline(points), {}, pen(Ink::dark, thin_line)));
  draw_ticks(scene, walk, group);
  draw_head(points, person_radius(scene.paper) * 0.9, group);
  scene.drawn_mm(points);
  all.items.push_back({std::move(group)});
}

std::string described(const OverheadScene& scene, PersonId person, const PersonState& state) {
  std::string text =
      fmt::format("{} {} facing {}", called(scene.plan, person), spelling(state.posture), compass_words(state.facing));
  if (state.gaze.kind != Target::Kind::nothing) text += ", looking at " + called(scene.plan, state.gaze);
  return text;
}

}  // namespace

Group draw_paths(OverheadScene& scene) {
  Group all;
  for (int index = 0; index < static_cast<int>(scene.plan.people.size()); ++index) {
    int number = 0;
    for (const Segment<Walk>& walk : scene.plan.people[static_cast<std::size_t>(index)].feet) {
      const bool in_beat = walk.begin < scene.end && walk.end > scene.begin;
      if (!in_beat || walk.to.path.size() < 2 || walk.to.length().value < 0.05) continue;
      draw_walk(scene, PersonId{index}, walk, ++number, all);
    }
  }
  return all;
}

Group draw_people(OverheadScene& scene) {
  Group all;
  const std::set<int> favoured = favoured_at(scene);
  std::vector<std::pair<PersonId, PersonState>> present;
  for (int index = 0; index < static_cast<int>(scene.plan.people.size()); ++index) {
    const PersonState state = person_at(scene.plan, PersonId{index}, scene.moment);
    if (state.present) present.push_back({PersonId{index}, state});
  }
  Group ghosts, gazes;
  for (const auto& [person, state] : present) {
    draw_ghost(scene, person, state, ghosts);
    draw_gaze(scene, state, gazes);
  }
  all.items.push_back({std::move(ghosts)});
  all.items.push_back({std::move(gazes)});
  for (const auto& [person, state] : present) {
    const bool is_favoured = favoured.contains(person.index);
    Group group;
    group.id = scene.id + "/person-" + id_part(person_of(scene.plan, person).name);
    group.title = called(scene.plan, person);
    group.description = described(scene, person, state);
    const Span declared = person_of(scene.plan, person).declared;
    if (!declared.empty()) group.line = declared;
    group.items = person_symbol(scene.paper, state, head_bearing(state),
                                {person_of(scene.plan, person).dress, false, is_favoured});
    wish_for_name(scene, person, state, is_favoured, group);
    all.items.push_back({std::move(group)});
  }
  return all;
}

Group draw_marks(OverheadScene& scene) {
  Group all;
  for (const Mark& mark : scene.plan.marks) {
    if (mark.reached < scene.begin || mark.reached > scene.end) continue;
    const PersonState now = person_at(scene.plan, mark.person, scene.moment);
    const Vec2 at = scene.paper.mm(mark.at);
    Group group;
    group.id = scene.id + "/mark-" + id_part(mark.name);
    group.title = "mark " + mark.name + " of " + called(scene.plan, mark.person);
    if (!mark.said_at.empty()) group.line = mark.said_at;
    if (now.present && length(now.at - mark.at) < 0.25) continue;
    const PersonState there = person_at(scene.plan, mark.person, mark.reached);
    const Vec2 ahead = unit(scene.paper.way(direction_of(there.facing)));
    const Vec2 bar = left_of(ahead) * 1.1;
    group.items.push_back(line(at - bar, at + bar, pen(Ink::black, heavy_line)));
    group.items.push_back(line(at, at - ahead * 1.4, pen(Ink::black, heavy_line)));
    scene.ground.taken.push_back(LabelArea{at, at}.grown(1.2));
    LabelWish wish;
    wish.lines = {mark.name};
    wish.about = at;
    wish.clear = 1.2;
    wish.size = 2.5;
    scene.wishes.push_back({wish, group.id, {}});
    all.items.push_back({std::move(group)});
  }
  return all;
}

}  // namespace lensward
