#include "pages/thumbnail_trace.h"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

namespace lensward {
namespace {

constexpr std::array<Vec2, 4> step_way{{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}};

double distance_to_segment(Vec2 p, Vec2 a, Vec2 b) {
  const Vec2 way = b - a;
  const double size = dot(way, way);
  const double t = size > 0 ? std::clamp(dot(p - a, way) / size, 0.0, 1.0) : 0;
  return length(p - mix(a, b, t));
}

// Keeps the ends and whatever lies further than the tolerance from the straight line (Douglas and Peucker 1973).
void thin(const std::vector<Vec2>& points, std::size_t first, std::size_t last, double tolerance,
          std::vector<char>& keep) {
  std::size_t far = first;
  double most = tolerance;
  for (std::size_t i = first + 1; i < last; ++i) {
    const double off = distance_to_segment(points[i], points[first], points[last]);
    if (off > most) {
      most = off;
      far = i;
    }
  }
  if (far == first) return;
  keep[far] = 1;
  thin(points, first, far, tolerance, keep);
  thin(points, far, last, tolerance, keep);
}

std::vector<Vec2> thinned(const std::vector<Vec2>& points, double tolerance) {
  if (points.size() < 3) return points;
  std::vector<char> keep(points.size(), 0);
  // A ring has no ends: its point farthest from the first is kept as well.
  keep.front() = keep.back() = 1;
  std::size_t far = 0;
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (length(points[i] - points.front()) > length(points[far] - points.front())) far = i;
  }
  keep[far] = 1;
  thin(points, 0, far, tolerance, keep);
  thin(points, far, points.size() - 1, tolerance, keep);
  std::vector<Vec2> kept;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (keep[i] != 0) kept.push_back(points[i]);
  }
  return kept;
}

}  // namespace

std::vector<Vec2> finished(std::vector<Vec2> points, bool closed, Finish finish) {
  const std::size_t count = points.size();
  if (count > 2) {
    for (int round = 0; round < finish.rounds; ++round) {
      std::vector<Vec2> next = points;
      for (std::size_t i = 1; i + 1 < count; ++i) {
        next[i] = points[i] * 0.5 + (points[i - 1] + points[i + 1]) * 0.25;
      }
      if (closed) next.front() = next.back() = points.front() * 0.5 + (points[1] + points[count - 2]) * 0.25;
      points = std::move(next);
    }
  }
  return thinned(points, finish.tolerance);
}

double loop_area(const std::vector<Vec2>& loop) {
  double twice = 0;
  for (std::size_t i = 0; i < loop.size(); ++i) twice += cross(loop[i], loop[(i + 1) % loop.size()]);
  return std::fabs(twice) / 2;
}

BorderMap::BorderMap(int width, int height) : width_(width), height_(height) {
  const std::size_t corners = static_cast<std::size_t>(width + 1) * static_cast<std::size_t>(height + 1);
  for (std::vector<char>* map : {&above_, &left_of_, &walked_above_, &walked_left_of_}) map->assign(corners, 0);
}

std::size_t BorderMap::cell(int x, int y) const {
  return static_cast<std::size_t>(y) * static_cast<std::size_t>(width_ + 1) + static_cast<std::size_t>(x);
}

void BorderMap::set_above(int x, int y) { above_[cell(x, y)] = 1; }
void BorderMap::set_left_of(int x, int y) { left_of_[cell(x, y)] = 1; }

Vec2 BorderMap::corner(int number) const {
  const int row = number / (width_ + 1), column = number % (width_ + 1);
  return {static_cast<double>(column), static_cast<double>(row)};
}

int BorderMap::next(int corner, int step) const {
  constexpr std::array<int, 4> across{1, 0, -1, 0}, down{0, 1, 0, -1};
  const auto s = static_cast<std::size_t>(step);
  return corner + across[s] + down[s] * (width_ + 1);
}

bool BorderMap::open(int corner, int step) const {
  const int x = corner % (width_ + 1), y = corner / (width_ + 1);
  const auto at = [&](const std::vector<char>& set, const std::vector<char>& walked, int number) {
    return set[static_cast<std::size_t>(number)] != 0 && walked[static_cast<std::size_t>(number)] == 0;
  };
  if (step == 0) return x < width_ && at(above_, walked_above_, corner);
  if (step == 1) return y < height_ && at(left_of_, walked_left_of_, corner);
  if (step == 2) return x > 0 && at(above_, walked_above_, corner - 1);
  return y > 0 && at(left_of_, walked_left_of_, corner - width_ - 1);
}

void BorderMap::take(int corner, int step) {
  const int start = step < 2 ? corner : next(corner, step);
  (step % 2 == 0 ? walked_above_ : walked_left_of_)[static_cast<std::size_t>(start)] = 1;
}

int BorderMap::degree(int corner) const {
  const int x = corner % (width_ + 1), y = corner / (width_ + 1);
  int count = 0;
  if (x < width_) count += above_[static_cast<std::size_t>(corner)];
  if (y < height_) count += left_of_[static_cast<std::size_t>(corner)];
  if (x > 0) count += above_[static_cast<std::size_t>(corner - 1)];
  if (y > 0) count += left_of_[static_cast<std::size_t>(corner - width_ - 1)];
  return count;
}

BorderMap::Walked BorderMap::follow(int corner, int step) {
  Walked walked;
  walked.first_corner = corner;
  int at = corner;
  while (true) {
    take(at, step);
    walked.steps.push_back(step);
    at = next(at, step);
    if (at == corner || degree(at) != 2) break;
    int onward = -1;
    for (int other = 0; other < 4; ++other) {
      if (open(at, other)) onward = other;
    }
    if (onward < 0) break;
    step = onward;
  }
  walked.last_corner = at;
  walked.closed = at == corner && degree(corner) == 2;
  return walked;
}

std::vector<BorderMap::Walked> BorderMap::walk() {
  std::vector<Walked> all;
  const int corners = (width_ + 1) * (height_ + 1);
  for (const bool rings : {false, true}) {
    for (int corner = 0; corner < corners; ++corner) {
      if (!rings && (degree(corner) == 0 || degree(corner) == 2)) continue;
      for (int step = 0; step < 4; ++step) {
        if (open(corner, step)) all.push_back(follow(corner, step));
      }
    }
  }
  return all;
}

std::vector<Vec2> points_along(const BorderMap& map, const BorderMap::Walked& walked) {
  std::vector<Vec2> points;
  Vec2 at = map.corner(walked.first_corner);
  if (!walked.closed) points.push_back(at);
  for (const int step : walked.steps) {
    const Vec2 way = step_way[static_cast<std::size_t>(step)];
    points.push_back(at + way * 0.5);
    at = at + way;
  }
  points.push_back(walked.closed ? points.front() : at);
  return points;
}

namespace {

// The pixels left and right of a step from a corner.
struct Sides {
  Vec2 left, right;
};
Sides sides_of(Vec2 corner, int step) {
  const Vec2 middle = corner + step_way[static_cast<std::size_t>(step)] * 0.5;
  // With y down, left of east is north.
  const Vec2 left = step_way[static_cast<std::size_t>((step + 3) % 4)] * 0.5;
  return {middle + left - Vec2{0.5, 0.5}, middle - left - Vec2{0.5, 0.5}};
}

Arc arc_of(const LabelMap& map, const BorderMap& borders, const BorderMap::Walked& walked,
           const std::function<Finish(int, int)>& finish_of) {
  Arc arc;
  arc.closed = walked.closed;
  arc.first_corner = walked.first_corner;
  arc.last_corner = walked.last_corner;
  arc.first_step = walked.steps.front();
  arc.last_step = walked.steps.back();
  int corner = walked.first_corner;
  const std::size_t half = walked.steps.size() / 2;
  for (std::size_t i = 0; i < half; ++i) corner = borders.next(corner, walked.steps[i]);
  const Sides sides = sides_of(borders.corner(corner), walked.steps[half]);
  const auto label = [&](Vec2 pixel) {
    return map.at(static_cast<int>(std::lround(pixel.x)), static_cast<int>(std::lround(pixel.y)));
  };
  arc.left = label(sides.left);
  arc.right = label(sides.right);
  arc.pixel_left = sides.left;
  arc.pixel_right = sides.right;
  const std::vector<Vec2> points = points_along(borders, walked);
  const Finish finish = finish_of(arc.left, arc.right);
  // The map's own edge is straight and stays where it is.
  const bool edge = arc.left < 0 || arc.right < 0;
  arc.points = edge && !arc.closed ? thinned(points, finish.tolerance) : finished(points, arc.closed, finish);
  return arc;
}

}  // namespace

std::vector<Arc> arcs_of(const LabelMap& map, const std::function<Finish(int, int)>& finish) {
  BorderMap borders(map.width, map.height);
  for (int y = 0; y <= map.height; ++y) {
    for (int x = 0; x <= map.width; ++x) {
      if (x < map.width && map.at(x, y) != map.at(x, y - 1)) borders.set_above(x, y);
      if (y < map.height && map.at(x, y) != map.at(x - 1, y)) borders.set_left_of(x, y);
    }
  }
  std::vector<Arc> arcs;
  for (const BorderMap::Walked& walked : borders.walk()) arcs.push_back(arc_of(map, borders, walked, finish));
  return arcs;
}

std::vector<std::vector<Vec2>> loops_of(const std::vector<Arc>& arcs, int label) {
  // Arcs taken so that the label lies on the left, by the corner they start from.
  struct HalfEdge {
    const Arc* arc;
    bool forward;
    bool used = false;
    int start() const { return forward ? arc->first_corner : arc->last_corner; }
    int end() const { return forward ? arc->last_corner : arc->first_corner; }
    int first_step() const { return forward ? arc->first_step : (arc->last_step + 2) % 4; }
    int last_step() const { return forward ? arc->last_step : (arc->first_step + 2) % 4; }
  };
  std::vector<HalfEdge> edges;
  for (const Arc& arc : arcs) {
    if (arc.left == label) edges.push_back({&arc, true});
    if (arc.right == label) edges.push_back({&arc, false});
  }
  std::multimap<int, std::size_t> from_corner;
  for (std::size_t i = 0; i < edges.size(); ++i) from_corner.emplace(edges[i].start(), i);

  const auto next_of = [&](const HalfEdge& edge) -> HalfEdge* {
    // The sharpest turn to the left keeps to the same piece of the area.
    constexpr std::array<int, 4> order{3, 0, 1, 2};
    const auto [low, high] = from_corner.equal_range(edge.end());
    for (const int turn : order) {
      for (auto it = low; it != high; ++it) {
        HalfEdge& other = edges[it->second];
        if (!other.used && other.first_step() == (edge.last_step() + turn) % 4) return &other;
      }
    }
    return nullptr;
  };
  std::vector<std::vector<Vec2>> loops;
  for (HalfEdge& first : edges) {
    if (first.used) continue;
    std::vector<Vec2> loop;
    for (HalfEdge* edge = &first; edge != nullptr; edge = edge->arc->closed ? nullptr : next_of(*edge)) {
      edge->used = true;
      std::vector<Vec2> points = edge->arc->points;
      if (!edge->forward) std::reverse(points.begin(), points.end());
      loop.insert(loop.end(), points.begin(), points.end() - 1);
    }
    loops.push_back(std::move(loop));
  }
  return loops;
}

}  // namespace lensward
