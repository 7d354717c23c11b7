#include "lens/seen_groups.h"

#include <algorithm>

#include "lens/raster.h"

namespace lensward {
namespace {

struct Ball {
  Vec3 middle;
  double radius = 0;
};

Ball ball_round(const Solid& solid) {
  switch (solid.shape) {
    case Solid::Shape::ellipsoid:
      return {solid.a, std::max({solid.radii.x, solid.radii.y, solid.radii.z})};
    case Solid::Shape::box:
      return {solid.a, length(solid.radii)};
    case Solid::Shape::frustum:
    case Solid::Shape::round_cone:
      return {mix(solid.a, solid.b, 0.5), length(solid.b - solid.a) / 2 + std::max(solid.ra, solid.rb)};
  }
  return {};
}

// Not the least ball, but a near one: round the middle of the solids' own balls.
void add_ball(SeenGroup& group) {
  Vec3 low{1e9, 1e9, 1e9}, high{-1e9, -1e9, -1e9};
  for (const Solid& solid : group.solids) {
    const Ball ball = ball_round(solid);
    low = {std::min(low.x, ball.middle.x - ball.radius), std::min(low.y, ball.middle.y - ball.radius),
           std::min(low.z, ball.middle.z - ball.radius)};
    high = {std::max(high.x, ball.middle.x + ball.radius), std::max(high.y, ball.middle.y + ball.radius),
            std::max(high.z, ball.middle.z + ball.radius)};
  }
  group.middle = mix(low, high, 0.5);
  for (const Solid& solid : group.solids) {
    const Ball ball = ball_round(solid);
    group.radius.value = std::max(group.radius.value, length(ball.middle - group.middle) + ball.radius);
  }
}

bool lets_light_through(const Plan& plan, const SeenGroup& group) {
  if (group.owner.kind == Target::Kind::piece) {
    const auto index = static_cast<std::size_t>(group.owner.index);
    if (index < plan.stage.pieces.size() && plan.stage.pieces[index].see_through) return true;
  }
  return std::all_of(group.solids.begin(), group.solids.end(),
                     [](const Solid& solid) { return solid.material == Material::glass; });
}

bool passes_near(const SeenGroup& group, Vec3 from, Vec3 to) {
  const Vec3 way = to - from;
  const double square = dot(way, way);
  const double share = square > 0 ? std::clamp(dot(group.middle - from, way) / square, 0.0, 1.0) : 0;
  const Vec3 off = from + way * share - group.middle;
  return dot(off, off) <= group.radius.value * group.radius.value;
}

// A fire burns in its fireplace and a lamp stands on its table.
bool holds(const SeenGroup& group, Vec3 lamp) {
  const Vec3 up{0, 0, 0.03};
  return blocked(group.solids, lamp - up, lamp + up, -1);
}

}  // namespace

std::vector<SeenGroup> groups_of(const Plan& plan, const SceneSolids& scene) {
  std::vector<SeenGroup> groups;
  for (std::size_t first = 0; first < scene.solids.size();) {
    std::size_t end = first + 1;
    const Target& owner = scene.owner[first];
    while (owner.kind != Target::Kind::nothing && end < scene.solids.size() && scene.owner[end] == owner) ++end;
    SeenGroup group{owner, std::span(scene.solids).subspan(first, end - first), first, false, {}, {}};
    group.lets_through = lets_light_through(plan, group);
    add_ball(group);
    groups.push_back(group);
    first = end;
  }
  return groups;
}

bool shaded(const std::vector<SeenGroup>& groups, Vec3 lamp, Vec3 point, const Target& own) {
  return std::any_of(groups.begin(), groups.end(), [&](const SeenGroup& group) {
    const bool counts = !group.lets_through && (own.kind == Target::Kind::nothing || group.owner != own);
    return counts && passes_near(group, lamp, point) && blocked(group.solids, lamp, point, -1) && !holds(group, lamp);
  });
}

}  // namespace lensward
