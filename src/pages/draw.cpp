#include "pages/draw.h"

#include <algorithm>
#include <cmath>

namespace lensward {
namespace {

// Control points this far along the tangents make four curves pass for a circle within 0.03 % of its radius.
constexpr double quarter_circle = 0.5522847498;

PathStep move_to(Vec2 to) { return {PathStep::Kind::move, to, {}, {}}; }
PathStep line_to(Vec2 to) { return {PathStep::Kind::line, to, {}, {}}; }
PathStep curve_to(Vec2 first, Vec2 second, Vec2 to) { return {PathStep::Kind::curve, to, first, second}; }
PathStep close() { return {PathStep::Kind::close, {}, {}, {}}; }

struct Shift {
  Vec2 by;

  void operator()(Shape& shape) const {
    for (PathStep& step : shape.steps) {
      step.to = step.to + by;
      step.control_1 = step.control_1 + by;
      step.control_2 = step.control_2 + by;
    }
  }
  void operator()(Text& text) const { text.at = text.at + by; }
  void operator()(Picture& picture) const { picture.at = picture.at + by; }
  void operator()(Group& group) const {
    if (group.clip) group.clip->first = group.clip->first + by;
    for (Item& item : group.items) std::visit(*this, item.body);
  }
};

}  // namespace

Stroke pen(Ink ink, double width) { return {ink, width, {}, true}; }
Stroke dashed(Ink ink, double width, std::vector<double> dash) { return {ink, width, std::move(dash), false}; }
Stroke no_stroke() { return {Ink::none, 0, {}, true}; }
Fill flat(Ink ink) { return {ink, false, 0, 0, 0}; }
Fill hatched(Ink ink, double gap, double angle, double width) { return {ink, true, angle, gap, width}; }

std::vector<PathStep> polyline(const std::vector<Vec2>& points) {
  std::vector<PathStep> steps;
  steps.reserve(points.size() + 1);
  for (const Vec2 point : points) steps.push_back(steps.empty() ? move_to(point) : line_to(point));
  return steps;
}

std::vector<PathStep> polygon(const std::vector<Vec2>& points) {
  std::vector<PathStep> steps = polyline(points);
  steps.push_back(close());
  return steps;
}

std::vector<PathStep> rectangle(Vec2 corner, Vec2 size) {
  return polygon({corner, corner + Vec2{size.x, 0}, corner + size, corner + Vec2{0, size.y}});
}

std::vector<PathStep> ellipse(Vec2 middle, Vec2 half_x, Vec2 half_y) {
  const Vec2 bent_x = half_x * quarter_circle, bent_y = half_y * quarter_circle;
  return {move_to(middle + half_x),
          curve_to(middle + half_x + bent_y, middle + half_y + bent_x, middle + half_y),
          curve_to(middle + half_y - bent_x, middle - half_x + bent_y, middle - half_x),
          curve_to(middle - half_x - bent_y, middle - half_y - bent_x, middle - half_y),
          curve_to(middle - half_y + bent_x, middle + half_x - bent_y, middle + half_x),
          close()};
}

std::vector<PathStep> circle(Vec2 middle, double radius) { return ellipse(middle, {radius, 0}, {0, radius}); }

std::vector<PathStep> short_arc(Vec2 middle, Vec2 from, Vec2 to) {
  const Vec2 start = from - middle;
  const Vec2 end = unit(to - middle) * length(start);
  const double turn = cross(start, end) < 0 ? -1 : 1;
  // For an angle a the control points lie (4/3)·tan(a/4) radii along the tangents; tan(a/4) from cos(a) by halving.
  const double size = dot(start, start);
  const double whole = size > 0 ? dot(start, end) / size : 1;
  const double half = std::sqrt(std::max(0.0, (1 + whole) / 2));
  const double quarter = std::sqrt((1 + half) / 2);
  const double bend = 4.0 / 3 * std::sqrt(std::max(0.0, 1 - quarter * quarter)) / quarter * turn;
  return {move_to(from), curve_to(from + left_of(start) * bend, middle + end - left_of(end) * bend, middle + end)};
}

Item shape(std::vector<PathStep> steps, Fill fill, Stroke stroke) {
  return {Shape{std::move(steps), fill, std::move(stroke), false}};
}

Item line(Vec2 from, Vec2 to, Stroke stroke) { return shape(polyline({from, to}), {}, std::move(stroke)); }

Item words(Vec2 at, std::string text, Face face, double size, Ink ink, Text::Anchor anchor) {
  return {Text{at, std::move(text), face, size, ink, anchor, 0}};
}

void shift(Item& item, Vec2 by) { std::visit(Shift{by}, item.body); }

std::string shortened(const std::string& text, Face face, double size, double width) {
  if (width_of(text, face, size) <= width) return text;
  const std::string dots = "\u2026";
  const double room = width - width_of(dots, face, size);
  const std::string first = break_lines(text, face, size, std::max(room, 0.0)).front();
  // A break at a space may leave much of the line unused; then a break inside the word is better.
  std::string inside;
  for (const char c : text) {
    const bool begins = (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    if (begins && width_of(inside + c, face, size) > room) break;
    inside += c;
  }
  while (!inside.empty() && width_of(inside, face, size) > room) inside.pop_back();
  const bool mostly = width_of(first, face, size) > 0.7 * room && width_of(first, face, size) <= room;
  return (mostly ? first : inside) + dots;
}

std::string id_part(const std::string& name) {
  std::string part;
  for (const char c : name) {
    const auto byte = static_cast<unsigned char>(c);
    if (c >= 'A' && c <= 'Z')
      part += static_cast<char>(c - 'A' + 'a');
    else
      part += (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || byte >= 0x80 ? c : '-';
  }
  return part;
}

}  // namespace lensward
