#include "lens/boom.h"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include "lens/light.h"
#include "optics/pinhole.h"
#include "plan/called.h"
#include "plan/floor.h"
#include "plan/state.h"

namespace lensward {
namespace {

// Between the eyes and the mouth; a share of stature (Drillis and Contini's eye 0.936 and chin 0.870: about half way).
constexpr double eyes_to_mouth = 0.04;
// The picture with the rim that operators keep free of a boom; common practice, no source.
constexpr double rim = 0.04;
// What a boom's head takes up, and how near to a lamp it is kept; common practice, no source.
constexpr double head_of_boom = 0.1, off_a_lamp = 0.3;
// From overhead unless another way is so much nearer; common practice, no source.
constexpr double clearly_nearer = 0.75;

Vec3 mouth_of(const Plan& plan, PersonId person, Moment moment) {
  const Vec3 eyes = sharp_point_of(plan, {Target::Kind::person, person.index, {}}, moment).value_or(Vec3{});
  return eyes - Vec3{0, 0, person_of(plan, person).stature.value * eyes_to_mouth};
}

bool in_picture(const Pinhole& lens, Vec3 point) {
  const auto seen = project(lens, point);
  return seen && seen->at.u > -rim && seen->at.u < 1 + rim && seen->at.v > -rim && seen->at.v < 1 + rim;
}

bool in_reach(const Plan& plan, Vec3 point) {
  constexpr double lowest = 0.3;
  const Room& room = plan.stage.room;
  if (point.z < lowest) return false;
  for (const Piece& piece : plan.stage.pieces)
    if (point.z < piece.height.value && holds(outline_of(box_of(piece)), floor_of(point), 0)) return false;
  if (room.outline.empty() || !encloses(room.outline, floor_of(point))) return room.outline.empty();
  return point.z < room.height.value - 0.1;
}

// The picture and the light of one moment.
struct Shot {
  Pinhole lens;
  std::vector<Vec3> hard_lamps, faces;
};

Shot shot_at(const Plan& plan, Moment moment) {
  Shot shot{pinhole_of(camera_at(plan, on_air(plan, moment), moment)), {}, {}};
  for (const LitLamp& lamp : light_of(plan, moment).lamps)
    if (!lamp.soft) shot.hard_lamps.push_back(lamp.at);
  for (std::size_t i = 0; i < plan.people.size(); ++i) {
    const int index = static_cast<int>(i);
    if (!person_at(plan, PersonId{index}, moment).present) continue;
    if (const auto eyes = sharp_point_of(plan, {Target::Kind::person, index, {}}, moment)) shot.faces.push_back(*eyes);
  }
  return shot;
}

double distance_to_way(Vec3 from, Vec3 to, Vec3 point) {
  const Vec3 along = to - from;
  const double share = std::clamp(dot(point - from, along) / std::max(dot(along, along), 1e-9), 0.0, 1.0);
  return length(point - (from + along * share));
}

bool in_the_light(const Shot& shot, Vec3 point) {
  return std::ranges::any_of(shot.hard_lamps, [&](Vec3 lamp) {
    return length(point - lamp) < off_a_lamp ||
           std::ranges::any_of(
               shot.faces, [&](Vec3 face) { return distance_to_way(lamp, face, point) < head_of_boom; });
  });
}

// The nearest place out of the picture in one direction from the mouth; nothing within 3 m, or within the room.
std::optional<Metres> out_of_picture(const Plan& plan, const Shot& shot, Vec3 mouth, Vec3 way) {
  constexpr int nearest = 30, farthest = 300, step = 2;  // cm, so that the far end is reached to the bit
  for (int gone = nearest; gone <= farthest; gone += step) {
    const Metres far{gone / 100.0};
    const Vec3 at = mouth + way * far.value;
    if (!in_reach(plan, at)) return std::nullopt;
    if (!in_picture(shot.lens, at) && !in_the_light(shot, at)) return far;
  }
  return std::nullopt;
}

std::optional<Boom> boom_at(const Plan& plan, PersonId person, Moment moment) {
  const Shot shot = shot_at(plan, moment);
  const Vec3 mouth = mouth_of(plan, person, moment), right = axes_of(shot.lens).right;
  const std::array<std::pair<Boom::From, Vec3>, 4> ways{{{Boom::From::over, {0, 0, 1}},
                                                         {Boom::From::below, {0, 0, -1}},
                                                         {Boom::From::frame_left, right * -1},
                                                         {Boom::From::frame_right, right}}};
  std::optional<Boom> best;
  for (const auto& [from, way] : ways) {
    const auto distance = out_of_picture(plan, shot, mouth, way);
    if (distance && (!best || *distance < best->distance * clearly_nearer)) best = Boom{*distance, from};
  }
  return best;
}

}  // namespace

const char* spelling(Boom::From from) {
  constexpr std::array<const char*, 4> names{"over", "below", "frame left", "frame right"};
  return names[static_cast<std::size_t>(from)];
}

std::optional<Boom> boom_for(const Plan& plan, const Speech& speech) {
  std::optional<Boom> worst;
  const Moment middle{(speech.begin.count + speech.end.count) / 2};
  for (const Moment moment : {speech.begin, middle, speech.end}) {
    const auto boom = boom_at(plan, speech.speaker, moment);
    if (!boom) return std::nullopt;
    if (!worst || boom->distance > worst->distance) worst = boom;
  }
  return worst;
}

}  // namespace lensward
