#include "lens/recipes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "base/angle.h"
#include "figure/proportions.h"
#include "lens/furniture_solids.h"
#include "plan/lane.h"
#include "plan/state.h"

namespace lensward {
namespace {

constexpr Metres wall_thickness{0.1};

// How near somebody's feet come to a door that is open for them.
constexpr double door_opens_within = 0.9;

Vec2 right_of(Degrees facing) { return left_of(direction_of(facing)) * -1; }

// Phase of the walk from the way gone: a stride, both feet, is about 0.83 of stature at an easy pace (common practice,
// no source).
double stride_of(const PersonTrack& track, Moment moment, double stature) {
  for (const Segment<Walk>& walk : track.feet) {
    if (moment < walk.begin || moment >= walk.end || walk.end == walk.begin) continue;
    const double share = to_seconds(moment - walk.begin) / to_seconds(walk.end - walk.begin);
    const double strides = share * walk.to.length().value / (0.83 * stature);
    return strides - std::floor(strides);
  }
  return 0;
}

bool has_top_for_hands(const Piece& piece) {
  constexpr std::array kinds{PieceKind::table, PieceKind::desk, PieceKind::counter,   PieceKind::bar,
                             PieceKind::stove, PieceKind::sink, PieceKind::sideboard, PieceKind::trolley};
  return std::find(kinds.begin(), kinds.end(), piece.kind) != kinds.end();
}

// The middle of the piece's edge before somebody, a hand's breadth in; nothing when it is out of reach.
std::optional<Vec3> edge_before(const Piece& piece, Vec2 at, Degrees facing, double reach) {
  const Vec2 front = direction_of(piece.front), side = right_of(piece.front);
  const double half_length = piece.length.value / 2, half_depth = piece.depth.value / 2;
  const Vec2 ahead = direction_of(facing), from = at + ahead * 0.1 - piece.at;
  const auto within = [](double value, double half) {
    const double limit = std::max(0.0, half - 0.11);
    return std::clamp(value, -limit, limit);
  };
  const Vec2 spot =
      piece.at + side * within(dot(from, side), half_length) + front * within(dot(from, front), half_depth);
  const Vec2 way = spot - at;
  if (length(way) > reach || length(way) < 0.05 || dot(unit(way), ahead) < 0.6) return std::nullopt;
  return raised(spot, piece.height.value);
}

std::optional<Vec3> surface_before(const Plan& plan, const PersonState& state, double reach) {
  for (std::size_t i = 0; i < plan.stage.pieces.size(); ++i) {
    const Piece& piece = plan.stage.pieces[i];
    if (!has_top_for_hands(piece) || static_cast<int>(i) == state.seat.index) continue;
    if (const auto edge = edge_before(piece, state.at, state.facing, reach)) return edge;
  }
  return std::nullopt;
}

struct Hands {
  std::optional<Vec3> left, right;
};

// Hands lie on the table sat at, work on the top stood before, hold what is held, and otherwise show what they do.
Hands hands_of(const Plan& plan, const PersonState& state, double stature) {
  const Vec3 ahead = raised(direction_of(state.facing), 0), right = raised(right_of(state.facing), 0);
  const bool sits = state.posture == Posture::sitting, busy = state.hands_moving > 0.2;
  const Vec3 chest{state.at.x, state.at.y,
                   (eye_height(Metres{stature}, state.posture, Metres{0}).value - 0.33 * stature)};
  Hands hands;
  if (sits || busy) {
    if (const auto edge = surface_before(plan, state, (sits ? 0.38 : 0.36) * stature)) {
      hands.left = *edge - right * 0.17 + Vec3{0, 0, 0.02};
      hands.right = *edge + right * 0.14 + Vec3{0, 0, busy ? 0.09 : 0.02};
      return hands;
    }
  }
  if (state.posture == Posture::lying) return hands;
  const Vec3 carried = chest + ahead * (0.20 * stature) + Vec3{0, 0, sits ? 0.03 : 0.0};
  if (state.left_hand.kind == Target::Kind::prop) hands.left = carried - right * (0.07 * stature);
  if (state.right_hand.kind == Target::Kind::prop) {
    hands.right = carried + right * (0.07 * stature);
  } else if (busy) {
    hands.right = chest + ahead * (0.22 * stature) + right * (0.12 * stature) + Vec3{0, 0, 0.07 * stature};
  }
  return hands;
}

Pose pose_of(const Plan& plan, PersonId id, const PersonState& state, Moment moment) {
  const auto index = static_cast<std::size_t>(id.index);
  const Person& person = plan.stage.people[index];
  const double stature = person.stature.value;
  Pose pose = bare_pose(plan, id, state);
  pose.stride = pose.walking ? stride_of(plan.people[index], moment, stature) : 0;
  pose.look = id.index;
  pose.dress = person.dress;
  const Hands hands = hands_of(plan, state, stature);
  if (hands.left) pose.left_hand_at = hands.left;
  if (hands.right) pose.right_hand_at = hands.right;
  return pose;
}

class Gatherer {
 public:
  Gatherer(const Plan& plan, Moment moment) : plan_(plan), moment_(moment) {
    const std::size_t count = plan.stage.people.size();
    states_.reserve(count);
    for (std::size_t i = 0; i < count; ++i) states_.push_back(person_at(plan, PersonId{static_cast<int>(i)}, moment));
  }

  std::vector<Recipe> recipes() {
    add_people();
    add_pieces();
    add_props();
    add_walls();
    return std::move(recipes_);
  }

 private:
  Recipe& add(const Target& owner) { return recipes_.emplace_back(Recipe{owner, {}, {}, false, {}, {}}); }

  void add_people() {
    for (std::size_t i = 0; i < states_.size(); ++i) {
      const PersonId id{static_cast<int>(i)};
      if (!states_[i].present || !(plan_.stage.people[i].stature.value > 0)) continue;
      Recipe& recipe = add({Target::Kind::person, id.index, {}});
      recipe.pose = pose_of(plan_, id, states_[i], moment_);
      add_held(states_[i], recipe.pose);
    }
  }

  // A cloth that is lifted or a curtain that is drawn hangs there no more; what has fallen lies on its back.
  void add_pieces() {
    for (std::size_t i = 0; i < plan_.stage.pieces.size(); ++i) {
      const PieceKind kind = plan_.stage.pieces[i].kind;
      const bool tracked = i < plan_.pieces.size();
      const bool hangs = kind == PieceKind::cloth || kind == PieceKind::curtain;
      if (tracked && hangs && is_open(plan_.pieces[i].open, 0)) continue;
      Recipe& recipe = add({Target::Kind::piece, static_cast<int>(i), {}});
      recipe.changed = tracked && stepped(plan_.pieces[i].fallen, moment_, false);
    }
  }

  bool is_open(const Lane<Share>& lane, double otherwise) const {
    return stepped(lane, moment_, Share{otherwise}, 0.5).value > 0.5;
  }

  // What both hands hold is between them.
  void add_held(const PersonState& state, const Pose& pose) {
    const bool left = state.left_hand.kind == Target::Kind::prop && pose.left_hand_at;
    const bool right = state.right_hand.kind == Target::Kind::prop && pose.right_hand_at;
    if (left && right && state.left_hand == state.right_hand) {
      held_.emplace_back(state.left_hand.index, (*pose.left_hand_at + *pose.right_hand_at) * 0.5);
      return;
    }
    if (left) held_.emplace_back(state.left_hand.index, *pose.left_hand_at);
    if (right) held_.emplace_back(state.right_hand.index, *pose.right_hand_at);
  }

  // Under what is put down there is something to put it on: the highest piece below the point, else the floor.
  double support_under(Vec3 point) const {
    double support = 0;
    for (const Piece& piece : plan_.stage.pieces) {
      const Vec2 off = floor_of(point) - piece.at, front = direction_of(piece.front);
      const bool over = std::fabs(dot(off, front)) <= piece.depth.value / 2 &&
                        std::fabs(dot(off, right_of(piece.front))) <= piece.length.value / 2;
      const double top = piece.seats > 0 ? std::min(piece.height.value, piece.seat_height.value) : piece.height.value;
      if (over && top <= point.z + 0.05) support = std::max(support, top);
    }
    return support;
  }

  std::optional<Vec3> middle_of(const Target& prop, double height) const {
    const auto held = std::find_if(held_.begin(), held_.end(), [&](const auto& h) { return h.first == prop.index; });
    if (held != held_.end()) return held->second + Vec3{0, 0, height / 2};
    const auto index = static_cast<std::size_t>(prop.index);
    std::optional<Vec3> point = point_of(plan_, prop, moment_);
    const bool in_hand =
        index < plan_.props.size() && stepped(plan_.props[index].rests, moment_, Target{}).kind == Target::Kind::person;
    if (point && !in_hand) point->z = support_under(*point) + height / 2;
    return point;
  }

  void add_props() {
    for (std::size_t i = 0; i < plan_.stage.props.size(); ++i) {
      const Prop& prop = plan_.stage.props[i];
      const Target target{Target::Kind::prop, static_cast<int>(i), {}};
      const Vec3 size{std::max(prop.length.value, 0.01), std::max(prop.depth.value, 0.01),
                      std::max(prop.height.value, 0.01)};
      const std::optional<Vec3> middle = middle_of(target, size.z);
      if (!middle) continue;
      Recipe& recipe = add(target);
      recipe.middle = *middle;
      recipe.size = size;
    }
  }

  // As told, from the first line on that tells; else opened by whoever goes through.
  bool open_at(std::size_t index) const {
    const Opening& opening = plan_.stage.openings[index];
    const bool tracked = index < plan_.openings.size() && !plan_.openings[index].open.empty();
    if (tracked && plan_.openings[index].open.front().begin <= moment_) return is_open(plan_.openings[index].open, 0);
    return std::any_of(states_.begin(), states_.end(), [&](const PersonState& state) {
      return state.present && length(state.at - opening.middle) < door_opens_within;
    });
  }

  void add_walls() {
    const Stage& stage = plan_.stage;
    for (std::size_t i = 0; i < stage.walls.size(); ++i) {
      if (!stage.walls[i].wild) add({}).wall = WallId{static_cast<int>(i)};
    }
    for (std::size_t i = 0; i < stage.openings.size(); ++i) {
      const Opening& opening = stage.openings[i];
      const auto wall = static_cast<std::size_t>(opening.wall.index);
      if (opening.wall.known() && wall < stage.walls.size() && stage.walls[wall].wild) continue;
      add({Target::Kind::opening, static_cast<int>(i), {}}).changed = open_at(i);
    }
  }

  const Plan& plan_;
  Moment moment_;
  std::vector<PersonState> states_;
  std::vector<std::pair<int, Vec3>> held_;
  std::vector<Recipe> recipes_;
};

std::vector<Solid> solids_of_piece(Piece piece, bool fallen) {
  if (fallen) std::swap(piece.depth, piece.height);
  return solids_of(piece);
}

}  // namespace

std::vector<Recipe> recipes_of(const Plan& plan, Moment moment) { return Gatherer(plan, moment).recipes(); }

Made made_from(const Stage& stage, const Recipe& recipe) {
  const auto index = static_cast<std::size_t>(recipe.owner.index);
  Made made;
  switch (recipe.owner.kind) {
    case Target::Kind::person:
      made.figure = figure_of(recipe.pose);
      made.solids = std::move(made.figure.solids);
      break;
    case Target::Kind::piece:
      made.solids = solids_of_piece(stage.pieces[index], recipe.changed);
      break;
    case Target::Kind::prop:
      made.solids = {upright_box(recipe.middle, recipe.size, 0_deg, Material::fabric)};
      break;
    case Target::Kind::opening:
      made.solids = solids_of(stage.openings[index], recipe.changed, wall_thickness);
      break;
    default:
      made.solids = solids_of(stage.walls[static_cast<std::size_t>(recipe.wall.index)], recipe.wall, stage.openings,
                              stage.room.height, wall_thickness);
  }
  return made;
}

}  // namespace lensward
