#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "figure/proportions.h"
#include "optics/pinhole.h"
#include "plan/areas.h"
#include "plan/measures.h"

namespace lensward {
namespace {

constexpr double nearest_to_lens = 0.6;
constexpr double depth_without_walls = 8;
constexpr double size_slack = 0.15;
constexpr double line_slack = 0.02;
// Lines are given as long stretches.
constexpr double far_away = 60;

// The picture of one camera, for points at the height of the subject's eyes.
class Picture {
 public:
  Picture(const CameraState& camera, double height, Vec2 ground_middle)
      : lens_(pinhole_of(camera)), axes_(axes_of(lens_)), height_(height), ground_middle_(ground_middle) {
    lens_.focal = Millimetres{std::max(lens_.focal.value, 1.0)};
  }

  // To the right of `u` across the picture, below `v` down it, beyond `depth`: each as the plane through the lens meets
  // the floor.
  HalfPlane right_of(double u) const {
    return beyond(axes_.right - axes_.forward * ((u - 0.5) * (lens_.gate_width / lens_.focal)), 0);
  }
  HalfPlane below(double v) const {
    return beyond((axes_.up - axes_.forward * ((0.5 - v) * (lens_.gate_height / lens_.focal))) * -1, 0);
  }
  HalfPlane beyond_depth(double depth) const { return beyond(axes_.forward, depth); }

  // The edge of a half plane as a long stretch, its middle near the middle of the ground.
  std::vector<Vec2> edge(const HalfPlane& side) const {
    const double size = dot(side.normal, side.normal);
    if (size < 1e-12) return {ground_middle_};
    const Vec2 near = ground_middle_ + side.normal * ((side.limit - dot(side.normal, ground_middle_)) / size);
    const Vec2 way = unit(left_of(side.normal)) * far_away;
    return {near - way, near + way};
  }

 private:
  HalfPlane beyond(Vec3 normal, double least) const {
    const double at_lens = normal.x * lens_.at.x + normal.y * lens_.at.y;
    return {{-normal.x, -normal.y}, normal.z * (height_ - lens_.at.z) - at_lens - least};
  }

  Pinhole lens_;
  LensAxes axes_;
  double height_;
  Vec2 ground_middle_;
};

HalfPlane other_side(const HalfPlane& side) { return {side.normal * -1, -side.limit}; }

// Everything before the lens, near enough to matter.
Outline seen_ground(const PlaceContext& context, const Picture& picture) {
  Outline ground = ground_of(context.plan.stage, 0);
  const Vec2 lens = floor_of(context.camera.at);
  double margin = 4;
  for (Vec2 corner : ground) margin = std::max(margin, length(corner - lens));
  ground = ground_of(context.plan.stage, std::min(margin, far_away));
  return clipped(ground, picture.beyond_depth(nearest_to_lens));
}

Area across(const Outline& ground, const Picture& picture, double from, double to, double middle) {
  Area area;
  area.shape = clipped(clipped(ground, picture.right_of(from)), other_side(picture.right_of(to)));
  area.middle = picture.edge(picture.right_of(middle));
  return area;
}

Area across_at(const Outline& ground, const Picture& picture, double u) {
  Area area = across(ground, picture, u - line_slack, u + line_slack, u);
  area.exact = true;
  return area;
}

double mirrored(double u, std::optional<Side> side) { return side == Side::right ? 1 - u : u; }

Area across_side(const Outline& ground, const Picture& picture, double from, double to, double middle,
                 std::optional<Side> side) {
  const double a = mirrored(from, side);
  const double b = mirrored(to, side);
  return across(ground, picture, std::min(a, b), std::max(a, b), mirrored(middle, side));
}

// Where the ray from the lens leaves the room for the last time, metres from the lens.
double far_wall(const Stage& stage, const LensFloor& lens) {
  const Outline& outline = stage.room.outline;
  double farthest = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec2 edge = outline[(i + 1) % outline.size()] - outline[i];
    const double turn = cross(lens.deeper, edge);
    if (std::fabs(turn) < 1e-12) continue;
    const double along = cross(outline[i] - lens.at, edge) / turn;
    const double share = cross(outline[i] - lens.at, lens.deeper) / turn;
    if (share >= 0 && share <= 1) farthest = std::max(farthest, along);
  }
  return farthest > nearest_to_lens + 0.3 ? farthest : depth_without_walls;
}

Area in_depth(const PlaceContext& context, const CameraState& camera, int third) {
  const LensFloor lens = floor_of(camera);
  const double deepest = far_wall(context.plan.stage, lens);
  const double slice = (deepest - nearest_to_lens) / 3;
  const double from = nearest_to_lens + slice * third;
  const double at_lens = dot(lens.deeper, lens.at);
  Area area;
  area.shape = clipped(ground_of(context.plan.stage, depth_without_walls), {lens.deeper * -1, -(at_lens + from)});
  area.shape = clipped(area.shape, {lens.deeper, at_lens + from + slice});
  const Vec2 middle = lens.at + lens.deeper * (from + slice / 2);
  area.middle = {middle - lens.right * far_away, middle + lens.right * far_away};
  area.longer = lens.right;
  return area;
}

std::optional<Area> framed(const Place& place, const Outline& ground, const Picture& picture, Findings& findings) {
  switch (place.frame_part) {
    case Place::FramePart::area:
      return across_side(ground, picture, 0.08, 0.40, 0.25, place.side);
    case Place::FramePart::edge:
      return across_side(ground, picture, 0.02, 0.15, 0.08, place.side);
    case Place::FramePart::quarter:
      return across_at(ground, picture, mirrored(0.25, place.side));
    case Place::FramePart::third:
      return across_at(ground, picture, mirrored(1.0 / 3, place.side));
    case Place::FramePart::centre:
      return across(ground, picture, 0.40, 0.60, 0.50);
    case Place::FramePart::percent: {
      const Limits limits{"place across the picture", Dimension::share, 0, 1, "frame 40%"};
      if (!place.percent) return std::nullopt;
      const std::optional<double> share = measured(*place.percent, limits, findings);
      return share ? std::optional{across_at(ground, picture, *share)} : std::nullopt;
    }
    case Place::FramePart::high:
    case Place::FramePart::low: {
      Area area = across(ground, picture, 0.02, 0.98, 0.5);
      const bool high = place.frame_part == Place::FramePart::high;
      const HalfPlane below_third = picture.below(high ? 1.0 / 3 : 2.0 / 3);
      area.shape = clipped(area.shape, high ? other_side(below_third) : below_third);
      area.middle = picture.edge(picture.below(high ? 1.0 / 6 : 5.0 / 6));
      return area;
    }
  }
  return std::nullopt;
}

}  // namespace

std::vector<Area> areas_in_picture(const Place& place, const PlaceContext& context, const Placing& placing,
                                   Findings& findings) {
  const CameraState camera = camera_of(place.camera, context, findings);
  switch (place.word) {
    case Place::Word::foreground:
      return {in_depth(context, camera, 0)};
    case Place::Word::middle_ground:
      return {in_depth(context, camera, 1)};
    case Place::Word::deep:
    case Place::Word::background:
      return {in_depth(context, camera, 2)};
    default:
      break;
  }
  const Picture picture(camera, placing.eyes.value, middle_of(context.plan.stage));
  std::optional<Area> area = framed(place, seen_ground(context, picture), picture, findings);
  if (!area) return {};
  return {std::move(*area)};
}

std::vector<Area> areas_of(ShotSize size, const PlaceContext& context, const Placing& placing) {
  const CameraState& camera = context.camera;
  const Picture picture(camera, placing.eyes.value, middle_of(context.plan.stage));
  const double distance = camera.focal.value *
                          frame_height_for(sizing_of(context.plan.settings, size), placing.stature).value /
                          camera.gate_height.value;
  // Sized people are in the picture, whatever else is said of where.
  Outline ground = ground_of(context.plan.stage, std::min(far_away, distance * 2 + 4));
  ground = clipped(clipped(ground, picture.right_of(0.02)), other_side(picture.right_of(0.98)));
  Area area;
  area.shape = clipped(ground, picture.beyond_depth(distance * (1 - size_slack)));
  area.shape = clipped(area.shape, other_side(picture.beyond_depth(distance * (1 + size_slack))));
  area.middle = picture.edge(picture.beyond_depth(distance));
  area.exact = true;
  area.longer = floor_of(camera).right;
  return {std::move(area)};
}

}  // namespace lensward
