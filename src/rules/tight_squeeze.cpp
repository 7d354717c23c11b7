#include <cmath>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "plan/floor.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage tight_squeeze_page{
    .sees = "A walk through a door, or a gap between furniture and walls, narrower than 0.55 m.",
    .why = "They would go through it sideways, slowly, and look at it.",
    .example = "door Hatch, in the north wall, 2 m along, width 0.5 m",
    .better = "door Hatch, in the north wall, 2 m along, width 0.8 m",
    .source =
        "shoulders in clothes are about 0.5 m broad (ANSUR II: bideltoid 0.277 to 0.291 of stature); the rest "
        "common practice, no source.",
};

namespace {

constexpr double limit = 0.55, step = 0.1, at_the_ends = 0.3, low = 0.1, nothing_near = 9;

// How far along a ray a box begins; `nothing_near` when it is not met.
double ray_to(const FloorBox& box, Vec2 from, Vec2 way) {
  const Vec2 off = from - box.at;
  double enters = 0, leaves = nothing_near;
  const auto slab = [&](Vec2 axis, double half) {
    const double at = dot(off, axis), speed = dot(way, axis);
    if (std::fabs(speed) < 1e-9) {
      if (std::fabs(at) > half) leaves = -1;
      return;
    }
    const double a = (-half - at) / speed, b = (half - at) / speed;
    enters = std::max(enters, std::min(a, b));
    leaves = std::min(leaves, std::max(a, b));
  };
  slab(box.right, box.half_length);
  slab(box.front, box.half_depth);
  return leaves >= enters ? enters : nothing_near;
}

double ray_to(const Wall& wall, Vec2 from, Vec2 way) {
  const Vec2 along = wall.to - wall.from, off = wall.from - from;
  const double across = way.x * along.y - way.y * along.x;
  if (std::fabs(across) < 1e-9) return nothing_near;
  const double far = (off.x * along.y - off.y * along.x) / across;
  const double share = (off.x * way.y - off.y * way.x) / across;
  return far >= 0 && share >= 0 && share <= 1 ? far : nothing_near;
}

double free_to(const Stage& stage, Vec2 from, Vec2 way) {
  double nearest = nothing_near;
  for (const Piece& piece : stage.pieces) {
    if (piece.height.value > low) nearest = std::min(nearest, ray_to(box_of(piece), from, way));
  }
  for (const Wall& wall : stage.walls) nearest = std::min(nearest, ray_to(wall, from, way));
  return nearest;
}

struct Squeeze {
  double width = nothing_near;
  double gone = 0;
  std::string door;
};

const Opening* door_crossed(const Stage& stage, const Walk& walk) {
  for (const Opening& opening : stage.openings) {
    if (opening.kind != Opening::Kind::door) continue;
    for (std::size_t i = 1; i < walk.path.size(); ++i) {
      const double before = dot(walk.path[i - 1] - opening.middle, opening.into_room);
      const double after = dot(walk.path[i] - opening.middle, opening.into_room);
      if (before * after >= 0) continue;
      const Vec2 crossing = mix(walk.path[i - 1], walk.path[i], before / (before - after));
      if (length(crossing - opening.middle) <= opening.width.value) return &opening;
    }
  }
  return nullptr;
}

Squeeze narrowest(const Stage& stage, const Walk& walk) {
  Squeeze squeeze;
  if (const Opening* door = door_crossed(stage, walk)) {
    if (door->width.value < limit) return {door->width.value, 0, door->name};
  }
  const double whole = walk.length().value;
  const int steps = static_cast<int>(std::ceil((whole - 2 * at_the_ends) / step));
  for (int i = 0; i < steps; ++i) {
    const double gone = at_the_ends + i * step;
    const Vec2 at = walk.at(gone / whole);
    const Vec2 ahead = walk.at(std::min(1.0, (gone + 0.01) / whole)) - at;
    if (length(ahead) < 1e-6) continue;
    const Vec2 side = left_of(unit(ahead));
    const double width = free_to(stage, at, side) + free_to(stage, at, side * -1);
    if (width < squeeze.width) squeeze = {width, gone, {}};
  }
  return squeeze;
}

}  // namespace

void tight_squeeze(const Checked& checked, Reporter& report) {
  const Plan& plan = checked.plan;
  for (std::size_t i = 0; i < plan.people.size(); ++i) {
    for (const auto& walk : plan.people[i].feet) {
      if (walk.to.path.size() < 2 || walk.end <= walk.begin) continue;
      const Squeeze squeeze = narrowest(plan.stage, walk.to);
      if (squeeze.width >= limit - 1e-6) continue;
      const Target who{Target::Kind::person, static_cast<int>(i), {}};
      const int beat = beat_at(plan, walk.begin);
      const Vec2 at = walk.to.at(squeeze.gone / std::max(walk.to.length().value, 1e-6));
      const std::string where = squeeze.door.empty() ? "a gap at (" + number(at.x, 2) + ", " + number(at.y, 2) + ") m"
                                                     : "`" + squeeze.door + "`";
      Finding& finding =
          report.add(walk.said_at, {beat, walk.begin, {who}},
                     quoted(checked, who) + " goes through " + where + " of " + text_of(Metres{squeeze.width}) +
                         " in " + beat_words(checked, beat) + ", limit 0.55 m");
      finding.next_step = squeeze.door.empty() ? "make room there, or send them another way with `via …`"
                                               : "make it wider: `width 0.8 m`";
    }
  }
}

}  // namespace lensward
