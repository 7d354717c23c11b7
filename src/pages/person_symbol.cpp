#include <algorithm>

#include "base/angle.h"
#include "pages/draw.h"
#include "pages/overhead_parts.h"

namespace lensward {
namespace {

// Metres, of a grown person with clothes, rounded; the symbol need not be truer than its pen.
constexpr double half_shoulders = 0.235, half_chest = 0.125, half_head = 0.085, half_head_long = 0.11, nose = 0.045;
constexpr double thigh = 0.42;
// Smaller than this across the shoulders, mm, nobody reads which way a figure faces.
constexpr double smallest_shoulders = 3.6;
constexpr Degrees neck{80};

double drawn_scale(const FloorPaper& paper) {
  return std::max(paper.scale(), smallest_shoulders / (2 * half_shoulders));
}

// A frame on paper in metres of the body: x to the body's right, y ahead.
struct BodyFrame {
  Vec2 middle, right, ahead;

  BodyFrame(Vec2 at, Degrees bearing, double scale) : middle(at) {
    const Vec2 forward = direction_of(bearing);
    ahead = Vec2{forward.x, -forward.y} * scale;
    right = Vec2{forward.y, forward.x} * scale;
  }
  Vec2 operator()(double x, double y) const { return middle + right * x + ahead * y; }
};

Fill dress_fill(const FigureLook& look) {
  if (look.ghost) return {};
  if (look.favoured) return flat(Ink::accent);
  switch (look.dress) {
    case Tone::dark:
      return hatched(Ink::black, 0.45);
    case Tone::mid:
      return hatched(Ink::dark, 0.8);
    case Tone::light:
      return flat(Ink::paper);
  }
  return {};
}

std::vector<PathStep> shoulders(const BodyFrame& body) {
  using Kind = PathStep::Kind;
  // Rounder at the back than at the chest, so that front and back differ even without the head.
  const Vec2 left = body(-half_shoulders, 0), right = body(half_shoulders, 0);
  return {{Kind::move, left, {}, {}},
          {Kind::curve, right, body(-half_shoulders, half_chest * 1.25), body(half_shoulders, half_chest * 1.25)},
          {Kind::curve, left, body(half_shoulders * 0.95, -half_chest * 1.5),
           body(-half_shoulders * 0.95, -half_chest * 1.5)},
          {Kind::close, {}, {}, {}}};
}

std::vector<PathStep> head_with_nose(const BodyFrame& head) {
  using Kind = PathStep::Kind;
  const double w = half_head, l = half_head_long;
  return {{Kind::move, head(-w, 0), {}, {}},
          {Kind::curve, head(-w * 0.32, l * 0.93), head(-w, l * 0.5), head(-w * 0.7, l * 0.82)},
          {Kind::line, head(0, l + nose), {}, {}},
          {Kind::line, head(w * 0.32, l * 0.93), {}, {}},
          {Kind::curve, head(w, 0), head(w * 0.7, l * 0.82), head(w, l * 0.5)},
          {Kind::curve, head(0, -l), head(w, -l * 0.6), head(w * 0.6, -l)},
          {Kind::curve, head(-w, 0), head(-w * 0.6, -l), head(-w, -l * 0.6)},
          {Kind::close, {}, {}, {}}};
}

void add_legs(std::vector<Item>& items, const BodyFrame& body, Posture posture, const Stroke& pen_used) {
  const bool folded = posture == Posture::sitting || posture == Posture::perching || posture == Posture::kneeling ||
                      posture == Posture::crouching;
  if (posture == Posture::lying) {
    // Laid out behind the shoulders: the head lies where the person is.
    items.push_back(shape(polygon({body(-0.2, 0), body(0.2, 0), body(0.12, -1.35), body(-0.12, -1.35)}),
                          flat(Ink::paper), pen_used));
    items.push_back(line(body(0, -0.7), body(0, -1.35), pen_used));
    return;
  }
  if (!folded) return;
  const double reach = posture == Posture::sitting ? thigh : posture == Posture::perching ? thigh * 0.8 : thigh * 0.6;
  for (const double side : {-1.0, 1.0})
    items.push_back(
        shape(polygon({body(side * 0.03, 0), body(side * 0.17, 0), body(side * 0.14, reach), body(side * 0.05, reach)}),
              flat(Ink::paper), pen_used));
}

}  // namespace

double person_radius(const FloorPaper& paper) { return drawn_scale(paper) * 0.25; }

Degrees head_bearing(const PersonState& state) {
  const Vec2 to_target = floor_of(state.looks_at) - state.at;
  if (length(to_target) < 0.01) return state.facing;
  const Degrees turn = wrapped(bearing_of(to_target) - state.facing);
  return state.facing + std::clamp(turn, -neck, neck);
}

std::vector<Item> person_symbol(const FloorPaper& paper, const PersonState& state, Degrees head,
                                const FigureLook& look) {
  const double scale = drawn_scale(paper);
  const Vec2 at = paper.mm(state.at);
  const BodyFrame body(at, state.facing, scale);
  const Stroke outline =
      look.ghost ? dashed(Ink::mid, hairline, {0.5, 0.4}) : pen(Ink::black, look.favoured ? heavy_line : plain_line);
  std::vector<Item> items;
  add_legs(items, body, state.posture, look.ghost ? outline : pen(Ink::black, thin_line));
  if (!look.ghost) items.push_back(shape(shoulders(body), flat(Ink::paper), no_stroke()));
  items.push_back(shape(shoulders(body), dress_fill(look), outline));
  const BodyFrame face(at, head, scale);
  items.push_back(shape(head_with_nose(face), look.ghost ? Fill{} : flat(Ink::paper), outline));
  return items;
}

}  // namespace lensward
