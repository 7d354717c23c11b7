#include "pages/labels.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "pages/draw.h"
#include "plan/floor.h"

namespace lensward {
namespace {

constexpr double line_pitch = 1.12;
constexpr double margin = 0.3;
constexpr double longest_without_leader = 2.0;
constexpr double impossible = std::numeric_limits<double>::infinity();

// The stretch of the line inside the area, as shares of its length; begin >= end: there is none.
struct Inside {
  double begin = 0, end = 1;
};

Inside inside_of(const PaperLine& line, const LabelArea& area) {
  // Liang–Barsky: the stretch of the line within each pair of edges, narrowed twice.
  Inside inside;
  const Vec2 way = line.to - line.from;
  const auto narrow = [&](double start, double step, double low, double high) {
    if (step == 0) {
      if (start <= low || start >= high) inside.end = 0;
      return;
    }
    double first = (low - start) / step, second = (high - start) / step;
    if (first > second) std::swap(first, second);
    inside.begin = std::max(inside.begin, first);
    inside.end = std::min(inside.end, second);
  };
  narrow(line.from.x, way.x, area.low.x, area.high.x);
  narrow(line.from.y, way.y, area.low.y, area.high.y);
  return inside;
}

bool crosses(const PaperLine& line, const LabelArea& area) {
  const Inside inside = inside_of(line, area);
  return inside.begin < inside.end;
}

bool cross_each_other(const PaperLine& a, const PaperLine& b) {
  return lensward::cross_each_other(a.from, a.to, b.from, b.to);
}

// The words of a label in one of their forms, measured once.
struct Form {
  const std::vector<std::string>& lines;
  std::vector<double> widths;
  double line_height;
  Vec2 size;

  Form(const std::vector<std::string>& own_lines, const LabelWish& wish)
      : lines(own_lines), line_height(wish.size * line_pitch) {
    for (const std::string& text : lines) widths.push_back(width_of(text, wish.face, wish.size));
    const double widest = widths.empty() ? 0 : *std::ranges::max_element(widths);
    size = {widest + 2 * margin, line_height * static_cast<double>(lines.size()) + 2 * margin};
  }
};

bool to_left(const LabelArea& area, Vec2 about) { return area.high.x < about.x; }

LabelArea line_area(const Form& form, const LabelArea& area, std::size_t line, Vec2 about) {
  const double width = form.widths[line] + 2 * margin, top = area.low.y + form.line_height * static_cast<double>(line);
  const double left = to_left(area, about) ? area.high.x - width : area.low.x;
  return {{left, top}, {left + width, top + form.line_height + 2 * margin}};
}

Vec2 nearest_in(const LabelArea& area, Vec2 point) {
  return {std::clamp(point.x, area.low.x, area.high.x), std::clamp(point.y, area.low.y, area.high.y)};
}

class Placer {
 public:
  explicit Placer(const LabelGround& ground) : ground_(ground) {}

  PlacedLabel place(const LabelWish& wish) {
    PlacedLabel label = best_of(wish, wish.lines, false);
    if (!label.free && !wish.short_lines.empty()) {
      label = best_of(wish, wish.short_lines, false);
      if (!label.free) label = best_of(wish, wish.short_lines, true);
      label.is_short = true;
    } else if (!label.free) {
      label = best_of(wish, wish.lines, true);
    }
    placed_.push_back(label.area);
    if (label.leader) leaders_.push_back(*label.leader);
    return label;
  }

 private:
  // The cheapest place near the thing, else the nearest free one on the sheet. `any_leader` lets the leader cross
  // whatever is in its way, as a last resort.
  PlacedLabel best_of(const LabelWish& wish, const std::vector<std::string>& lines, bool any_leader) const {
    PlacedLabel best;
    best.lines = lines;
    const Form form(lines, wish);
    const Vec2 size = form.size;
    double least = impossible;
    const auto consider = [&](Vec2 corner, double extra) {
      if (extra >= least) return;
      const LabelArea area{corner, corner + size};
      const std::optional<PaperLine> leader = leader_to(form, area, wish);
      const double price = extra + price_of(area, leader, wish, any_leader);
      if (price >= least) return;
      least = price;
      best.area = area;
      best.leader = leader;
    };
    if (wish.inside) consider(wish.about - size * 0.5, 0);
    consider_round(wish, size, consider);
    if (least == impossible) consider_everywhere(wish, size, consider);
    best.free = least < impossible;
    if (!best.free) best.area = {wish.about - size * 0.5, wish.about + size * 0.5};
    for (std::size_t i = 0; i < lines.size(); ++i) best.line_areas.push_back(line_area(form, best.area, i, wish.about));
    return best;
  }

  template <class Consider>
  static void consider_round(const LabelWish& wish, Vec2 size, const Consider& consider) {
    // Right, left, below, above, then the corners: the order in which a reader looks for a name.
    static constexpr struct {
      Vec2 way;
      double price;
    } ways[] = {{{1, 0}, 0},       {{-1, 0}, 0.3},     {{0, 1}, 0.4},      {{0, -1}, 0.5},
                {{0.8, -0.8}, .3}, {{0.8, 0.8}, 0.35}, {{-0.8, -0.8}, .5}, {{-0.8, 0.8}, 0.55}};
    for (const double far : {0.4, 1.2, 2.2, 3.5, 5.0, 7.0, 9.5, 13.0, 18.0, 24.0}) {
      for (const auto& way : ways) {
        const double reach = wish.clear + far;
        const Vec2 middle =
            wish.about + way.way * reach + Vec2{sign(way.way.x) * size.x / 2, sign(way.way.y) * size.y / 2};
        consider(middle - size * 0.5, way.price + far * 0.5);
      }
    }
  }

  template <class Consider>
  void consider_everywhere(const LabelWish& wish, Vec2 size, const Consider& consider) const {
    constexpr double step = 2;
    for (double y = ground_.sheet.low.y; y + size.y <= ground_.sheet.high.y; y += step)
      for (double x = ground_.sheet.low.x; x + size.x <= ground_.sheet.high.x; x += step)
        consider({x, y}, 20 + length(Vec2{x, y} + size * 0.5 - wish.about));
  }

  static double sign(double value) { return value > 0 ? 1 : value < 0 ? -1 : 0; }

  // To the words themselves, not to the corner of their area that a shorter line leaves empty.
  std::optional<PaperLine> leader_to(const Form& form, const LabelArea& area, const LabelWish& wish) const {
    Vec2 nearest = nearest_in(area, wish.about);
    if (length(nearest - wish.about) <= wish.clear + longest_without_leader) return {};
    double least = impossible;
    for (std::size_t i = 0; i < form.lines.size(); ++i) {
      const Vec2 point = nearest_in(line_area(form, area, i, wish.about), wish.about);
      if (length(point - wish.about) >= least) continue;
      least = length(point - wish.about);
      nearest = point;
    }
    return PaperLine{start_of_leader(nearest, wish), nearest};
  }

  // Where the way from the thing's middle to `end` leaves the thing.
  Vec2 start_of_leader(Vec2 end, const LabelWish& wish) const {
    double left = 0;
    for (std::size_t i = wish.own_begin; i < wish.own_end; ++i) {
      const Inside inside = inside_of({wish.about, end}, ground_.taken[i]);
      if (inside.begin < inside.end) left = std::max(left, inside.end);
    }
    if (left > 0) return wish.about + (end - wish.about) * left;
    return wish.about + unit(end - wish.about) * wish.clear;
  }

  double price_of(const LabelArea& area, const std::optional<PaperLine>& leader, const LabelWish& wish,
                  bool any_leader) const {
    if (!ground_.sheet.holds(area)) return impossible;
    for (const LabelArea& taken : ground_.taken)
      if (taken.overlaps(area)) return impossible;
    for (const LabelArea& other : placed_)
      if (other.overlaps(area)) return impossible;
    for (const PaperLine& other : leaders_)
      if (crosses(other, area)) return impossible;
    double price = 0;
    if (leader) price += 1.5 + price_of_leader(*leader, wish, any_leader);
    for (const PaperLine& drawn : ground_.drawn)
      if (crosses(drawn, area)) price += 2;
    return price;
  }

  double price_of_leader(const PaperLine& leader, const LabelWish& wish, bool any_leader) const {
    const double crossing = any_leader ? 5 : impossible;
    double price = 0;
    for (std::size_t i = 0; i < ground_.taken.size(); ++i) {
      const bool own = (i >= wish.own_begin && i < wish.own_end) || holds_point(ground_.taken[i], wish.about);
      if (!own && crosses(leader, ground_.taken[i])) price += crossing;
    }
    for (const LabelArea& other : placed_)
      if (crosses(leader, other)) price += crossing;
    for (const PaperLine& other : leaders_)
      if (cross_each_other(leader, other)) price += crossing;
    return price;
  }

  static bool holds_point(const LabelArea& area, Vec2 point) { return area.holds({point, point}); }

  const LabelGround& ground_;
  std::vector<LabelArea> placed_;
  std::vector<PaperLine> leaders_;
};

constexpr double slice_height = 2.5;

bool is_closed(const Shape& shape) { return !shape.steps.empty() && shape.steps.back().kind == PathStep::Kind::close; }

std::vector<Vec2> points_along(const Shape& shape) {
  constexpr int parts = 8;
  std::vector<Vec2> points;
  for (const PathStep& step : shape.steps) {
    if (step.kind == PathStep::Kind::close) break;
    const Vec2 from = points.empty() ? step.to : points.back();
    for (int part = 1; part < parts && step.kind == PathStep::Kind::curve; ++part) {
      const double share = static_cast<double>(part) / parts, rest = 1 - share;
      points.push_back(from * (rest * rest * rest) + step.control_1 * (3 * rest * rest * share) +
                       step.control_2 * (3 * rest * share * share) + step.to * (share * share * share));
    }
    points.push_back(step.to);
  }
  points.push_back(points.front());
  return points;
}

// How far the outline reaches across between two heights.
LabelArea slice_of(const std::vector<Vec2>& outline, double top, double bottom) {
  LabelArea slice{{impossible, top}, {-impossible, bottom}};
  const auto take = [&slice](double x) {
    slice.low.x = std::min(slice.low.x, x);
    slice.high.x = std::max(slice.high.x, x);
  };
  for (std::size_t i = 1; i < outline.size(); ++i) {
    const Vec2 a = outline[i - 1], b = outline[i];
    if (a.y >= top && a.y <= bottom) take(a.x);
    for (const double y : {top, bottom})
      if ((a.y < y) != (b.y < y)) take(a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y));
  }
  return slice;
}

void take_areas(const Shape& shape, std::vector<LabelArea>& areas) {
  const std::vector<Vec2> outline = points_along(shape);
  const auto [low, high] = std::ranges::minmax(outline, {}, &Vec2::y);
  const auto slices = std::max(1, static_cast<int>(std::ceil((high.y - low.y) / slice_height)));
  const double height = (high.y - low.y) / slices;
  for (int i = 0; i < slices; ++i) areas.push_back(slice_of(outline, low.y + height * i, low.y + height * (i + 1)));
}

}  // namespace

std::vector<LabelArea> areas_of(const std::vector<Item>& items) {
  std::vector<LabelArea> areas;
  for (const Item& item : items) {
    const auto* shape = std::get_if<Shape>(&item.body);
    if (shape != nullptr && is_closed(*shape)) take_areas(*shape, areas);
    if (const auto* group = std::get_if<Group>(&item.body)) {
      const std::vector<LabelArea> inner = areas_of(group->items);
      areas.insert(areas.end(), inner.begin(), inner.end());
    }
  }
  return areas;
}

std::vector<PlacedLabel> place_labels(const LabelGround& ground, const std::vector<LabelWish>& wishes) {
  Placer placer(ground);
  std::vector<PlacedLabel> labels;
  labels.reserve(wishes.size());
  for (const LabelWish& wish : wishes) labels.push_back(placer.place(wish));
  return labels;
}

Group drawn_label(const PlacedLabel& label, const LabelWish& wish) {
  Group group;
  if (label.leader) group.items.push_back(line(label.leader->from, label.leader->to, pen(Ink::mid, hairline)));
  for (const LabelArea& area : label.line_areas)
    group.items.push_back(shape(rectangle(area.low, area.high - area.low), flat(Ink::paper), no_stroke()));
  const bool right = to_left(label.area, wish.about);
  for (std::size_t i = 0; i < label.lines.size(); ++i) {
    const LabelArea& area = label.line_areas[i];
    const Vec2 at{right ? area.high.x - margin : area.low.x + margin, area.low.y + margin + wish.size * 0.82};
    group.items.push_back(
        words(at, label.lines[i], wish.face, wish.size, wish.ink, right ? Text::Anchor::right : Text::Anchor::left));
  }
  return group;
}

}  // namespace lensward
