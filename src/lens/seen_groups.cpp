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

// A fire burns in its fireplace and a lamp stands on its table.
bool holds(const SeenGroup& group, Vec3 lamp) {
  const Vec3 up{0, 0, 0.03};
  return blocked(group.solids, lamp - up, lamp + up, -1);
}

// Of more forms of one owner than this the oldest is forgotten.
constexpr std::size_t kept_at_most = 192;

// People, pieces, props, walls and openings, each in the stage's order.
std::size_t number_of(const Stage& stage, const Recipe& recipe) {
  const auto index = static_cast<std::size_t>(recipe.owner.index);
  const std::size_t people = stage.people.size(), pieces = people + stage.pieces.size();
  const std::size_t props = pieces + stage.props.size(), walls = props + stage.walls.size();
  switch (recipe.owner.kind) {
    case Target::Kind::person:
      return index;
    case Target::Kind::piece:
      return people + index;
    case Target::Kind::prop:
      return pieces + index;
    case Target::Kind::opening:
      return walls + index;
    default:
      return props + static_cast<std::size_t>(recipe.wall.index);
  }
}

SeenGroup group_from(const Plan& plan, const Recipe& recipe, std::int64_t number) {
  SeenGroup group;
  group.number = number;
  group.owner = recipe.owner;
  group.made = std::make_shared<const Made>(made_from(plan.stage, recipe));
  group.solids = group.made->solids;
  group.lets_through = lets_light_through(plan, group);
  add_ball(group);
  return group;
}

}  // namespace

std::vector<SeenGroup> GroupMaker::groups(const Plan& plan, Moment moment) {
  const std::vector<Recipe> recipes = recipes_of(plan, moment);
  std::vector<SeenGroup> groups;
  groups.reserve(recipes.size());
  for (const Recipe& recipe : recipes) {
    const std::size_t number = number_of(plan.stage, recipe);
    if (number >= kept_.size()) kept_.resize(number + 1);
    auto& kept = kept_[number];
    // The latest first: most of what is asked for has just been there.
    const auto known = std::find_if(kept.rbegin(), kept.rend(), [&](const auto& one) { return one.first == recipe; });
    const bool is_new = known == kept.rend();
    if (is_new && kept.size() == kept_at_most) kept.pop_front();
    const SeenGroup& group =
        is_new ? kept.emplace_back(recipe, group_from(plan, recipe, ++made_)).second : known->second;
    if (!group.solids.empty()) groups.push_back(group);
  }
  return groups;
}

std::vector<SeenGroup> groups_of(const Plan& plan, Moment moment) { return GroupMaker().groups(plan, moment); }

int group_of(const std::vector<SeenGroup>& groups, const Target& owner) {
  for (std::size_t i = 0; i < groups.size(); ++i) {
    if (groups[i].owner == owner) return static_cast<int>(i);
  }
  return -1;
}

bool passes_near(const SeenGroup& group, Vec3 from, Vec3 to, Metres reach) {
  const Vec3 way = to - from;
  const double square = dot(way, way);
  const double share = square > 0 ? std::clamp(dot(group.middle - from, way) / square, 0.0, 1.0) : 0;
  const Vec3 off = from + way * share - group.middle;
  const double near = group.radius.value + reach.value;
  return dot(off, off) <= near * near;
}

bool shaded(const std::vector<SeenGroup>& groups, Vec3 lamp, Vec3 point, const Target& own) {
  return std::any_of(groups.begin(), groups.end(), [&](const SeenGroup& group) {
    const bool counts = !group.lets_through && (own.kind == Target::Kind::nothing || group.owner != own);
    return counts && passes_near(group, lamp, point) && blocked(group.solids, lamp, point, -1) && !holds(group, lamp);
  });
}

}  // namespace lensward
