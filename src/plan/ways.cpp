// The shortest way round the furniture: corners of the pieces, grown by the body's clearance, and doors are the points
// it may turn at.
#include <algorithm>
#include <cmath>
#include <limits>

#include "plan/floor.h"
#include "plan/places.h"

namespace lensward {
namespace {

constexpr double hair = 1e-6;
// How far past a door the way turns.
constexpr double past_door = 0.35;
constexpr std::size_t most_turns = 600;

struct Barrier {
  Vec2 from, to;
};

bool crosses(Vec2 a, Vec2 b, const Barrier& barrier) {
  const Vec2 way = b - a;
  const Vec2 wall = barrier.to - barrier.from;
  const double turn = cross(way, wall);
  if (std::fabs(turn) < 1e-12) return false;
  const double along = cross(barrier.from - a, wall) / turn;
  const double across = cross(barrier.from - a, way) / turn;
  return along > hair && along < 1 - hair && across > -hair && across < 1 + hair;
}

// Walls with their doors cut out. A wild wall is taken out, and nobody meets it.
std::vector<Barrier> barriers_of(const Stage& stage) {
  std::vector<Barrier> barriers;
  for (std::size_t i = 0; i < stage.walls.size(); ++i) {
    const Wall& wall = stage.walls[i];
    const double whole = length(wall.to - wall.from);
    if (wall.wild || whole < hair) continue;
    const Vec2 along = unit(wall.to - wall.from);
    std::vector<std::pair<double, double>> gaps;
    for (const Opening& opening : stage.openings) {
      if (opening.kind != Opening::Kind::door || opening.wall.index != static_cast<int>(i)) continue;
      const double middle = dot(opening.middle - wall.from, along);
      gaps.emplace_back(middle - opening.width.value / 2, middle + opening.width.value / 2);
    }
    std::sort(gaps.begin(), gaps.end());
    double from = 0;
    for (const auto& [begin, end] : gaps) {
      if (begin > from) barriers.push_back({wall.from + along * from, wall.from + along * begin});
      from = std::max(from, end);
    }
    if (from < whole) barriers.push_back({wall.from + along * from, wall.to});
  }
  return barriers;
}

class WayFinder {
 public:
  WayFinder(const Stage& stage, Vec2 from, Vec2 to, double clearance) : from_(from), to_(to) {
    for (const Piece& piece : stage.pieces) {
      if (stands_in_the_way(piece)) add_obstacle(box_of(piece), clearance);
    }
    barriers_ = barriers_of(stage);
    turns_ = {from, to};
    for (const Outline& round : turned_round_) {
      for (Vec2 corner : round) add_turn(corner, clearance);
    }
    for (const Opening& opening : stage.openings) {
      if (opening.kind != Opening::Kind::door) continue;
      turns_.push_back(opening.middle + opening.into_room * past_door);
      turns_.push_back(opening.middle - opening.into_room * past_door);
    }
  }

  Way find() const {
    if (is_free(from_, to_)) return {{from_, to_}, false};
    return shortest();
  }

 private:
  // Whoever begins or ends close to a piece keeps no more clearance from it than they have there.
  void add_obstacle(const FloorBox& box, double clearance) {
    const double room = std::min(distance_to(box, from_), distance_to(box, to_));
    // The corners of the grown outline lie a little outside of the clearance.
    const double kept = std::min(clearance, room * 0.92 - 0.005);
    if (kept <= 0) return;
    // Turned round a hair outside of what blocks, so that a way along an edge is free.
    obstacles_.push_back(outline_of(box, kept));
    turned_round_.push_back(outline_of(box, kept + 0.002));
  }

  void add_turn(Vec2 corner, double clearance) {
    if (turns_.size() >= most_turns) return;
    for (const Outline& obstacle : obstacles_) {
      if (holds(obstacle, corner, -hair)) return;
    }
    // Between a piece and a wall nobody passes who has not half their room there.
    for (const Barrier& barrier : barriers_) {
      if (length(nearest_on(barrier.from, barrier.to, corner) - corner) < clearance * 0.75) return;
    }
    turns_.push_back(corner);
  }

  bool is_free(Vec2 a, Vec2 b) const {
    for (const Outline& obstacle : obstacles_) {
      if (length_inside(obstacle, a, b) > hair) return false;
    }
    return std::none_of(barriers_.begin(), barriers_.end(), [&](const Barrier& wall) { return crosses(a, b, wall); });
  }

  // Dijkstra's rule over the turns; equal lengths keep the turn that was listed first.
  Way shortest() const {
    const std::size_t count = turns_.size();
    std::vector<double> far(count, std::numeric_limits<double>::infinity());
    std::vector<std::size_t> before(count, 0);
    std::vector<bool> done(count);
    far[0] = 0;
    for (std::size_t round = 0; round < count; ++round) {
      std::size_t here = count;
      for (std::size_t i = 0; i < count; ++i) {
        if (!done[i] && std::isfinite(far[i]) && (here == count || far[i] < far[here] - 1e-9)) here = i;
      }
      if (here == count) break;
      if (here == 1) return {path_back(before), false};
      done[here] = true;
      for (std::size_t next = 1; next < count; ++next) {
        if (done[next]) continue;
        const double reached = far[here] + length(turns_[next] - turns_[here]);
        if (reached >= far[next] - 1e-9 || !is_free(turns_[here], turns_[next])) continue;
        far[next] = reached;
        before[next] = here;
      }
    }
    return {{from_, to_}, true};
  }

  std::vector<Vec2> path_back(const std::vector<std::size_t>& before) const {
    std::vector<Vec2> path{turns_[1]};
    for (std::size_t i = 1; i != 0; i = before[i]) path.push_back(turns_[before[i]]);
    std::reverse(path.begin(), path.end());
    return path;
  }

  Vec2 from_, to_;
  std::vector<Outline> obstacles_, turned_round_;
  std::vector<Barrier> barriers_;
  std::vector<Vec2> turns_;  // the first two are the ends
};

}  // namespace

Way way_between(const Stage& stage, Vec2 from, Vec2 to, Metres clearance) {
  const bool finite = std::isfinite(from.x + from.y + to.x + to.y);
  if (!finite || length(to - from) < hair) return {{from, to}, false};
  return WayFinder(stage, from, to, std::max(0.0, clearance.value)).find();
}

}  // namespace lensward
