#include "pages/labels.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "pages/draw.h"

namespace lensward {
namespace {

constexpr double line_pitch = 1.12;
constexpr double margin = 0.3;
constexpr double longest_without_leader = 2.0;
constexpr double impossible = std::numeric_limits<double>::infinity();

bool crosses(const PaperLine& line, const LabelArea& area) {
  // Liang–Barsky: the stretch of the line within each pair of edges, narrowed four times.
  double enter = 0, leave = 1;
  const Vec2 way = line.to - line.from;
  const auto narrow = [&](double start, double step, double low, double high) {
    if (step == 0) return start > low && start < high;
    double first = (low - start) / step, second = (high - start) / step;
    if (first > second) std::swap(first, second);
    enter = std::max(enter, first);
    leave = std::min(leave, second);
    return enter < leave;
  };
  return narrow(line.from.x, way.x, area.low.x, area.high.x) && narrow(line.from.y, way.y, area.low.y, area.high.y);
}

bool cross_each_other(const PaperLine& a, const PaperLine& b) {
  const auto side = [](const PaperLine& line, Vec2 point) { return cross(line.to - line.from, point - line.from); };
  return side(a, b.from) * side(a, b.to) < 0 && side(b, a.from) * side(b, a.to) < 0;
}

Vec2 size_of(const std::vector<std::string>& lines, const LabelWish& wish) {
  double width = 0;
  for (const std::string& text : lines) width = std::max(width, width_of(text, wish.face, wish.size));
  const double height = wish.size * line_pitch * static_cast<double>(lines.size());
  return {width + 2 * margin, height + 2 * margin};
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
    const Vec2 size = size_of(lines, wish);
    double least = impossible;
    const auto consider = [&](Vec2 corner, double extra) {
      if (extra >= least) return;
      const LabelArea area{corner, corner + size};
      const std::optional<PaperLine> leader = leader_to(area, wish);
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

  static std::optional<PaperLine> leader_to(const LabelArea& area, const LabelWish& wish) {
    const Vec2 nearest{std::clamp(wish.about.x, area.low.x, area.high.x),
                       std::clamp(wish.about.y, area.low.y, area.high.y)};
    const Vec2 way = nearest - wish.about;
    if (length(way) <= wish.clear + longest_without_leader) return {};
    return PaperLine{wish.about + unit(way) * wish.clear, nearest};
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
    for (const LabelArea& taken : ground_.taken)
      if (crosses(leader, taken) && !holds_point(taken, wish.about)) price += crossing;
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

}  // namespace

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
  group.items.push_back(
      shape(rectangle(label.area.low, label.area.high - label.area.low), flat(Ink::paper), no_stroke()));
  const bool to_left = label.area.high.x < wish.about.x;
  const double x = to_left ? label.area.high.x - margin : label.area.low.x + margin;
  double baseline = label.area.low.y + margin + wish.size * 0.82;
  for (const std::string& text : label.lines) {
    group.items.push_back(
        words({x, baseline}, text, wish.face, wish.size, wish.ink, to_left ? Text::Anchor::right : Text::Anchor::left));
    baseline += wish.size * line_pitch;
  }
  return group;
}

}  // namespace lensward
