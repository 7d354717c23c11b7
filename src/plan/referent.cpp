#include "plan/referent.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/angle.h"

namespace lensward {
namespace {

// An end or a side is the outer third of a piece; an edge or corner square is this deep.
constexpr double outer_share = 1.0 / 3;
constexpr double edge_depth = 0.02;
constexpr double corner_square = 0.4;
constexpr double room_corner_square = 0.8;
// Far enough to be later than anything in a scene.
constexpr Moment last_moment{std::int64_t{1} << 50};

Vec2 side_direction(const FloorBox& box, OwnSide side) {
  switch (side) {
    case OwnSide::left:
      return box.right * -1;
    case OwnSide::right:
      return box.right;
    case OwnSide::front:
      return box.front;
    case OwnSide::back:
      return box.front * -1;
  }
  return box.front;
}

// The one of a box's four sides that looks most nearly in a direction; equal ones in the order below.
Vec2 nearest_side(const FloorBox& box, Vec2 wanted) {
  const std::array<Vec2, 4> sides{box.front, box.front * -1, box.right * -1, box.right};
  Vec2 nearest = sides[0];
  for (Vec2 side : sides) {
    if (dot(side, wanted) > dot(nearest, wanted) + 1e-9) nearest = side;
  }
  return nearest;
}

// Cuts the box down to the stretch `share` of it deep at the side that looks `outward`.
FloorBox cut_down(const FloorBox& box, Vec2 outward, double deep) {
  FloorBox cut = box;
  const bool lengthwise = std::fabs(dot(outward, box.right)) > 0.5;
  const double half = lengthwise ? box.half_length : box.half_depth;
  const double kept = std::min(half, deep / 2);
  cut.at = box.at + outward * (half - kept);
  (lengthwise ? cut.half_length : cut.half_depth) = kept;
  return cut;
}

double full_extent(const FloorBox& box, Vec2 outward) { return 2 * reach_of(box, outward); }

Vec2 wanted_direction(const Thing& thing, const FloorBox& box, const PlaceContext& context, Findings& findings) {
  if (thing.kind == Thing::Kind::own_side) return side_direction(box, thing.own_side);
  const LensFloor lens = floor_of(camera_of(std::nullopt, context, findings));
  const Vec2 away = length(box.at - lens.at) > 1e-6 ? unit(box.at - lens.at) : lens.deeper;
  switch (thing.part_side) {
    case Thing::PartSide::compass:
      return direction_of(thing.compass);
    case Thing::PartSide::near_lens:
      return away * -1;
    case Thing::PartSide::far_from_lens:
      return away;
    case Thing::PartSide::camera_left:
      return lens.right * -1;
    case Thing::PartSide::camera_right:
      return lens.right;
  }
  return direction_of(thing.compass);
}

void cut_corner(Referent& whole, Vec2 wanted) {
  const FloorBox box = whole.box;
  const double side_length = dot(box.right, wanted) < 0 ? -1 : 1;
  const double side_depth = dot(box.front, wanted) < 0 ? -1 : 1;
  whole.box.half_length = std::min(box.half_length, corner_square / 2);
  whole.box.half_depth = std::min(box.half_depth, corner_square / 2);
  whole.box.at = box.point(side_length * (box.half_length - whole.box.half_length),
                           side_depth * (box.half_depth - whole.box.half_depth));
  whole.outward = nearest_side(box, wanted);
}

void cut_portion(Referent& whole, const Thing& thing, const PlaceContext& context, Findings& findings) {
  if (thing.part == Thing::Part::none) return;
  whole.is_portion = true;
  const Vec2 wanted = wanted_direction(thing, whole.box, context, findings);
  const Vec2 outward = nearest_side(whole.box, wanted);
  whole.outward = outward;
  switch (thing.part) {
    case Thing::Part::end:
      whole.box = cut_down(whole.box, outward, full_extent(whole.box, outward) * outer_share);
      break;
    case Thing::Part::side:
      whole.box = cut_down(whole.box, outward, full_extent(whole.box, outward) * outer_share);
      whole.only_outward = true;
      break;
    case Thing::Part::edge:
      whole.box = cut_down(whole.box, outward, edge_depth);
      whole.only_outward = true;
      break;
    case Thing::Part::half:
      whole.box = cut_down(whole.box, outward, full_extent(whole.box, outward) / 2);
      break;
    case Thing::Part::corner:
      cut_corner(whole, wanted);
      break;
    case Thing::Part::none:
      break;
  }
}

Referent piece_referent(const Stage& stage, PieceId id) {
  const Piece& piece = stage.pieces[static_cast<std::size_t>(id.index)];
  Referent referent;
  referent.box = box_of(piece);
  referent.has_front = piece.has_front;
  referent.piece = id;
  return referent;
}

Referent wall_referent(const Wall& wall) {
  Referent referent;
  const Vec2 along = length(wall.to - wall.from) > 0 ? unit(wall.to - wall.from) : Vec2{1, 0};
  referent.box = {mix(wall.from, wall.to, 0.5), along, left_of(along), length(wall.to - wall.from) / 2, 0};
  referent.has_front = true;
  referent.is_wall = true;
  return referent;
}

Referent opening_referent(const Stage& stage, OpeningId id) {
  const Opening& opening = stage.openings[static_cast<std::size_t>(id.index)];
  Referent referent;
  referent.box = {opening.middle, left_of(opening.into_room) * -1, opening.into_room, opening.width.value / 2, 0};
  referent.has_front = true;
  referent.is_wall = true;
  referent.opening = id;
  return referent;
}

Referent point_referent(Vec2 at, Referent::Kind kind) {
  Referent referent;
  referent.kind = kind;
  referent.box = {at, {1, 0}, {0, 1}, 0, 0};
  return referent;
}

void report_absent(const Name& name, Findings& findings) {
  Finding finding;
  finding.rule = "name.not-here";
  finding.where = name.span;
  finding.message = '`' + name.text + "` is not on the set then, so nobody can be placed by them";
  finding.next_step = "place them first, or name a piece of furniture or a measure: `at (3, 2) m`";
  findings.add(std::move(finding));
}

std::optional<Referent> person_referent(const Name& name, PersonId person, const PlaceContext& context,
                                        Findings& findings) {
  const auto index = static_cast<std::size_t>(person.index);
  if (index >= context.people.size() || !context.people[index].present) {
    report_absent(name, findings);
    return std::nullopt;
  }
  const PersonState& state = context.people[index];
  Referent referent = point_referent(state.at, Referent::Kind::body);
  referent.box.front = direction_of(state.facing);
  referent.box.right = left_of(referent.box.front) * -1;
  referent.has_front = true;
  referent.person = person;
  return referent;
}

std::optional<Referent> group_referent(const Name& name, GroupId group, const PlaceContext& context,
                                       Findings& findings) {
  Vec2 sum;
  int count = 0;
  for (PersonId person : context.names.members(group)) {
    const auto index = static_cast<std::size_t>(person.index);
    if (index >= context.people.size() || !context.people[index].present) continue;
    sum = sum + context.people[index].at;
    ++count;
  }
  if (count == 0) {
    report_absent(name, findings);
    return std::nullopt;
  }
  return point_referent(sum * (1.0 / count), Referent::Kind::body);
}

void report_nowhere(const Name& name, const Named& named, Findings& findings) {
  Finding finding;
  finding.rule = "name.wrong-kind";
  finding.where = name.span;
  finding.message = '`' + name.text + "` is " + kind_of(named) + " and has no place on the floor here";
  finding.next_step = "name a person, a piece of furniture, a door or a wall";
  findings.add(std::move(finding));
}

std::optional<Referent> named_referent(const Thing& thing, const PlaceContext& context, Findings& findings) {
  const Stage& stage = context.plan.stage;
  const Name& name = thing.name;
  // People are called without `the`.
  const char* const declared = thing.span.begin < name.span.begin ? "furniture " : "people ";
  const std::optional<Named> found = resolve_any(context.names, name, findings, declared);
  if (!found) return std::nullopt;
  if (const auto* piece = std::get_if<PieceId>(&*found)) return piece_referent(stage, *piece);
  if (const auto* person = std::get_if<PersonId>(&*found)) return person_referent(name, *person, context, findings);
  if (const auto* group = std::get_if<GroupId>(&*found)) return group_referent(name, *group, context, findings);
  if (const auto* opening = std::get_if<OpeningId>(&*found)) return opening_referent(stage, *opening);
  if (const auto* wall = std::get_if<WallId>(&*found)) {
    return wall_referent(stage.walls[static_cast<std::size_t>(wall->index)]);
  }
  if (const auto* spot = std::get_if<Id<Spot>>(&*found)) {
    return point_referent(stage.spots[static_cast<std::size_t>(spot->index)].at, Referent::Kind::spot);
  }
  if (const auto* prop = std::get_if<PropId>(&*found)) {
    if (const auto at = place_of(*prop, context)) return point_referent(*at, Referent::Kind::body);
  }
  if (const auto* lamp = std::get_if<LampId>(&*found)) {
    const auto index = static_cast<std::size_t>(lamp->index);
    if (index < context.plan.lamps.size() && !context.plan.lamps[index].place.empty()) {
      return point_referent(floor_of(context.plan.lamps[index].place.back().to), Referent::Kind::body);
    }
  }
  report_nowhere(name, *found, findings);
  return std::nullopt;
}

void report_no_walls(const Thing& thing, Findings& findings) {
  Finding finding;
  finding.rule = "name.unknown";
  finding.where = thing.span;
  finding.message = "there is no " + text_of(thing).substr(4) + ", for the set has no walls";
  finding.next_step = "`room 7 m by 5 m` above the first beat makes four";
  findings.add(std::move(finding));
}

std::optional<Referent> wall_named(const Thing& thing, const PlaceContext& context, Findings& findings) {
  const std::vector<Wall>& walls = context.plan.stage.walls;
  if (walls.empty()) {
    report_no_walls(thing, findings);
    return std::nullopt;
  }
  const Vec2 wanted = direction_of(thing.compass);
  const auto outward_share = [&](const Wall& wall) { return dot(left_of(unit(wall.to - wall.from)) * -1, wanted); };
  const Wall* best = &walls.front();
  for (const Wall& wall : walls) {
    if (outward_share(wall) > outward_share(*best) + 1e-9) best = &wall;
  }
  return wall_referent(*best);
}

std::optional<Referent> corner_named(const Thing& thing, const PlaceContext& context, Findings& findings) {
  const Outline& outline = context.plan.stage.room.outline;
  if (outline.empty()) {
    report_no_walls(thing, findings);
    return std::nullopt;
  }
  const Vec2 wanted = direction_of(thing.compass);
  Vec2 corner = outline.front();
  for (Vec2 candidate : outline) {
    if (dot(candidate, wanted) > dot(corner, wanted) + 1e-9) corner = candidate;
  }
  const Vec2 inward = centroid_of(outline) - corner;
  const double half = room_corner_square / 2;
  Referent referent = point_referent(corner, Referent::Kind::box);
  referent.box.at = corner + Vec2{std::copysign(half, inward.x), std::copysign(half, inward.y)};
  referent.box.half_length = half;
  referent.box.half_depth = half;
  referent.is_square = true;
  return referent;
}

std::optional<Referent> camera_referent(const std::optional<Name>& named, const PlaceContext& context,
                                        Findings& findings) {
  const LensFloor lens = floor_of(camera_of(named, context, findings));
  Referent referent = point_referent(lens.at, Referent::Kind::body);
  referent.box.front = lens.deeper;
  referent.box.right = lens.right;
  referent.has_front = true;
  return referent;
}

std::optional<Referent> unqualified(const Thing& thing, const PlaceContext& context, Findings& findings) {
  switch (thing.kind) {
    case Thing::Kind::named:
    case Thing::Kind::portion:
    case Thing::Kind::middle:
    case Thing::Kind::own_side:
      return named_referent(thing, context, findings);
    case Thing::Kind::lens:
      return camera_referent(std::nullopt, context, findings);
    case Thing::Kind::camera:
      return camera_referent(thing.name, context, findings);
    case Thing::Kind::wall:
      return wall_named(thing, context, findings);
    case Thing::Kind::corner:
      return corner_named(thing, context, findings);
    case Thing::Kind::everyone:
    case Thing::Kind::nobody:
      break;
  }
  Finding finding;
  finding.rule = "place.no-place";
  finding.where = thing.span;
  finding.message = '`' + text_of(thing) + "` is no place on the floor";
  finding.next_step = "name one person, a piece of furniture or a measure: `at (3, 2) m`";
  findings.add(std::move(finding));
  return std::nullopt;
}

}  // namespace

std::optional<Referent> referent_of(const Thing& thing, const PlaceContext& context, Findings& findings) {
  std::optional<Referent> referent = unqualified(thing, context, findings);
  if (!referent) return std::nullopt;
  referent->words = text_of(thing);
  if (thing.kind == Thing::Kind::middle) referent->kind = Referent::Kind::spot;
  if (thing.kind == Thing::Kind::own_side) referent->own_side = thing.own_side;
  if (referent->kind == Referent::Kind::box && !referent->is_square) cut_portion(*referent, thing, context, findings);
  return referent;
}

Vec2 direction_of(Compass compass) { return direction_of(Degrees{45.0 * static_cast<int>(compass)}); }

LensFloor floor_of(const CameraState& camera) {
  const Vec2 deeper = direction_of(camera.pan);
  return {floor_of(camera.at), deeper, left_of(deeper) * -1};
}

CameraState camera_of(const std::optional<Name>& named, const PlaceContext& context, Findings& findings) {
  if (!named || named->text.empty()) return context.camera;
  const auto camera = resolve<CameraId>(context.names, *named, findings);
  if (!camera) return context.camera;
  // A camera that is being worked out has its latest place at the end of its lane.
  return camera_at(context.plan, *camera, last_moment);
}

std::optional<Vec2> place_of(PropId prop, const PlaceContext& context) {
  const auto index = static_cast<std::size_t>(prop.index);
  if (index >= context.plan.props.size() || context.plan.props[index].rests.empty()) return std::nullopt;
  const Target rests = context.plan.props[index].rests.back().to;
  if (rests.kind == Target::Kind::person && static_cast<std::size_t>(rests.index) < context.people.size()) {
    return context.people[static_cast<std::size_t>(rests.index)].at;
  }
  if (rests.kind == Target::Kind::piece) return context.plan.stage.pieces[static_cast<std::size_t>(rests.index)].at;
  if (rests.kind == Target::Kind::point) return floor_of(rests.point);
  return std::nullopt;
}

}  // namespace lensward
