#include "pages/paper.h"

#include <utility>

#include "pages/draw.h"

namespace lensward {
namespace {

constexpr double radius = 1.15;

std::vector<Vec2> triangle(Vec2 middle) {
  return {middle + Vec2{0, -1.25}, middle + Vec2{1.35, 1.1}, middle + Vec2{-1.35, 1.1}};
}

std::vector<PathStep> left_half(Vec2 middle) {
  const Vec2 top = middle + Vec2{0, -radius}, left = middle + Vec2{-radius, 0}, bottom = middle + Vec2{0, radius};
  std::vector<PathStep> steps = short_arc(middle, top, left);
  steps.push_back(short_arc(middle, left, bottom).back());
  steps.push_back({PathStep::Kind::close, {}, {}, {}});
  return steps;
}

}  // namespace

Sheet blank_page(std::string title, std::string anchor) {
  Sheet sheet;
  sheet.width = paper_width;
  sheet.height = paper_height;
  sheet.title = std::move(title);
  sheet.anchor = std::move(anchor);
  return sheet;
}

Group sign_at(Sign sign, Vec2 middle) {
  Group group;
  const Stroke edge = pen(Ink::black, plain_line);
  switch (sign) {
    case Sign::holds:
      group.items.push_back(shape(circle(middle, radius), flat(Ink::black), edge));
      break;
    case Sign::close:
      group.items.push_back(shape(circle(middle, radius), flat(Ink::paper), edge));
      group.items.push_back(shape(left_half(middle), flat(Ink::black), no_stroke()));
      break;
    case Sign::fails:
      for (const double side : {-1.0, 1.0})
        group.items.push_back(
            line(middle + Vec2{-1.1, -1.1 * side}, middle + Vec2{1.1, 1.1 * side}, pen(Ink::accent, 0.75)));
      break;
    case Sign::open:
      group.items.push_back(shape(circle(middle, radius), flat(Ink::paper), dashed(Ink::mid, thin_line, {0.5, 0.4})));
      break;
    case Sign::error:
      group.items.push_back(shape(polygon(triangle(middle)), flat(Ink::accent), pen(Ink::accent, plain_line)));
      break;
    case Sign::warning:
      group.items.push_back(shape(polygon(triangle(middle)), flat(Ink::paper), edge));
      break;
    case Sign::remark:
      group.items.push_back(shape(circle(middle, 0.5), flat(Ink::dark), no_stroke()));
      break;
  }
  return group;
}

Sign sign_of(Verdict::Result result) {
  switch (result) {
    case Verdict::Result::holds:
      return Sign::holds;
    case Verdict::Result::close:
      return Sign::close;
    case Verdict::Result::fails:
      return Sign::fails;
    case Verdict::Result::not_judged:
      return Sign::open;
  }
  return Sign::open;
}

Sign sign_of(Severity severity) {
  switch (severity) {
    case Severity::error:
      return Sign::error;
    case Severity::warning:
      return Sign::warning;
    case Severity::remark:
      return Sign::remark;
  }
  return Sign::remark;
}

}  // namespace lensward
