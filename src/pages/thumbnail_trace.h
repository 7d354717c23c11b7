// Pixels -> outlines: the borders between the labels of a picture, as smooth lines that meet where three labels meet.
#pragma once

#include <functional>
#include <vector>

#include "base/vec.h"
#include "pages/sheet.h"

namespace lensward {

// A label for each pixel, 0 and up, row by row.
struct LabelMap {
  int width = 0, height = 0;
  std::vector<int> label;

  // -1 outside.
  int at(int x, int y) const {
    if (x < 0 || y < 0 || x >= width || y >= height) return -1;
    return label[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)];
  }
};

// A border between two labels, in pixels from the top left corner; seen along it `left` lies on the left. One of them
// is -1 along the edge of the map. A closed arc ends where it began.
struct Arc {
  std::vector<Vec2> points;
  int left = -1, right = -1;
  bool closed = false;
  Vec2 pixel_left, pixel_right;  // a pixel on either side, half way along
  int first_corner = 0, last_corner = 0;
  int first_step = 0, last_step = 0;  // 0 east, 1 south, 2 west, 3 north
};

// How a line is made of a row of pixel corners: rounds of smoothing, then thinned to within so many pixels.
struct Finish {
  int rounds = 4;
  double tolerance = 0.5;
};

// Every border of the map, finished as told for the two labels it lies between; where arcs meet they still do.
std::vector<Arc> arcs_of(const LabelMap& map, const std::function<Finish(int, int)>& finish);

// The outline of one label's area as closed loops, in the arcs' own points: holes among them.
std::vector<std::vector<Vec2>> loops_of(const std::vector<Arc>& arcs, int label);

// Lines along the pixel borders for which `breaks(x, y, other_x, other_y)` holds between neighbours of one label.
template <class Breaks>
std::vector<std::vector<Vec2>> creases_of(const LabelMap& map, Finish finish, const Breaks& breaks);

// `closed` lines end where they began.
std::vector<Vec2> finished(std::vector<Vec2> points, bool closed, Finish finish);

double loop_area(const std::vector<Vec2>& loop);

// ---- The walk along pixel borders that both kinds of line share -----------------------------------------------------

// Which borders between pixels a line runs along. Corners are numbered row by row, width + 1 in a row.
class BorderMap {
 public:
  BorderMap(int width, int height);
  void set_above(int x, int y);    // between pixel (x, y - 1) and (x, y)
  void set_left_of(int x, int y);  // between pixel (x - 1, y) and (x, y)

  struct Walked {
    std::vector<int> steps;  // directions, from the first corner on
    int first_corner = 0, last_corner = 0;
    bool closed = false;
  };
  // Every border once: first the stretches between corners where other than two borders meet, then the rings left over.
  std::vector<Walked> walk();

  Vec2 corner(int number) const;
  int next(int corner, int step) const;

 private:
  std::size_t cell(int x, int y) const;
  bool open(int corner, int step) const;
  void take(int corner, int step);
  int degree(int corner) const;
  Walked follow(int corner, int step);

  int width_, height_;
  std::vector<char> above_, left_of_, walked_above_, walked_left_of_;
};

std::vector<Vec2> points_along(const BorderMap& map, const BorderMap::Walked& walked);

template <class Breaks>
std::vector<std::vector<Vec2>> creases_of(const LabelMap& map, Finish finish, const Breaks& breaks) {
  BorderMap borders(map.width, map.height);
  for (int y = 0; y < map.height; ++y) {
    for (int x = 0; x < map.width; ++x) {
      if (y > 0 && map.at(x, y) == map.at(x, y - 1) && breaks(x, y, x, y - 1)) borders.set_above(x, y);
      if (x > 0 && map.at(x, y) == map.at(x - 1, y) && breaks(x, y, x - 1, y)) borders.set_left_of(x, y);
    }
  }
  std::vector<std::vector<Vec2>> lines;
  for (const BorderMap::Walked& walked : borders.walk()) {
    lines.push_back(finished(points_along(borders, walked), walked.closed, finish));
  }
  return lines;
}

}  // namespace lensward
