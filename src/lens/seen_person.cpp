#include "lens/seen_person.h"

#include <algorithm>
#include <cmath>

#include "base/angle.h"
#include "lens/seen_behind.h"
#include "optics/focus.h"
#include "optics/light.h"

namespace lensward {
namespace {

// Blur is counted in heads; a head seen end on or from a mile off would make the ratio boundless.
constexpr double most_heads = 10;

Share of(double part, double whole) { return Share{whole > 0 ? std::clamp(part / whole, 0.0, 1.0) : 0}; }

// A face's height in the picture: chin to crown, in heights of the frame.
Share head_height(const Looking& looking, const PersonFigure& figure, Metres distance) {
  const auto crown = project(looking.lens, looking.axes, figure.crown);
  const auto chin = project(looking.lens, looking.axes, figure.chin);
  const Pinhole& lens = looking.lens;
  if (!crown || !chin) {
    const double apart = length(figure.crown - figure.chin);
    return Share{apart * (lens.focal / lens.gate_height) / std::max(distance.value, 0.05)};
  }
  const double across = (crown->at.u - chin->at.u) * (lens.gate_width / lens.gate_height);
  const double down = crown->at.v - chin->at.v;
  return Share{std::sqrt(across * across + down * down)};
}

Degrees angle_between(Vec3 a, Vec3 b) { return arc_cosine(dot(unit(a), unit(b))); }

void add_turn(const Looking& looking, const PersonState& state, const PersonFigure& figure, PersonSeen& seen) {
  seen.face_angle = angle_between(figure.face_direction, looking.lens.at - figure.eyes);
  const Vec2 to_lens = floor_of(looking.lens.at) - state.at;
  seen.body_angle = wrapped(bearing_of(to_lens) - state.facing);
  seen.view = body_view(seen.body_angle);
}

void add_blur(const Looking& looking, PersonSeen& seen) {
  const CameraState& state = looking.state;
  const FNumber stop{std::max(state.stop.value, 0.1)};
  seen.blur = blur_disc(looking.lens.focal, stop, state.focus, seen.distance);
  seen.blur_of_frame = Share{seen.blur / looking.lens.gate_height};
  const double head = seen.head_height.value;
  seen.blur_of_head = Share{head > 0 ? std::min(seen.blur_of_frame.value / head, most_heads) : most_heads};
}

void add_light(const Looking& looking, Lux incident, PersonSeen& seen) {
  const Target own{Target::Kind::person, seen.person.index, {}};
  const Settings& settings = looking.plan.settings;
  seen.incident = incident;
  seen.luminance = reflected(reflectance_of(looking.plan, own, Material::skin), seen.incident);
  const FNumber stop{std::max(looking.state.stop.value, 0.1)};
  const Lux asked =
      asked_for(stop, std::max(settings.sensitivity, 1.0), exposure_time(settings.shutter, settings.frame_rate));
  seen.exposure = stops_between(seen.incident.value, asked.value);
}

void add_mask(const Looking& looking, PersonSeen& seen) {
  const int group = group_of(looking.groups, {Target::Kind::person, seen.person.index, {}});
  if (group < 0) return;
  PersonMask mask = looking.drawer.person_mask(looking.frame, group);
  seen.body_box = mask.body_box;
  seen.head_box = mask.head_box;
  seen.head_in_frame = of(mask.head.in_frame, mask.head.whole);
  seen.head_visible = of(mask.head.visible, mask.head.whole);
  seen.face_visible = of(mask.face.visible, mask.face.whole);
  seen.body_visible = of(mask.body.visible, mask.body.whole);
  seen.head_and_chest_visible = of(mask.head_and_chest.visible, mask.head_and_chest.whole);
  seen.masked_by = std::move(mask.masked_by);
}

Box in_frame(const Box& box) {
  return {std::clamp(box.left, 0.0, 1.0), std::clamp(box.top, 0.0, 1.0), std::clamp(box.right, 0.0, 1.0),
          std::clamp(box.bottom, 0.0, 1.0)};
}

const PersonFigure& figure_in(const Looking& looking, PersonId person) {
  static const PersonFigure none{};
  const int group = group_of(looking.groups, {Target::Kind::person, person.index, {}});
  return group < 0 ? none : looking.groups[static_cast<std::size_t>(group)].made->figure;
}

bool has_area(const Box& box) { return box.left < box.right && box.top < box.bottom; }

double between(const Box& a, const Box& b, double height) {
  const double across = std::max({0.0, a.left - b.right, b.left - a.right});
  const double down = std::max({0.0, a.top - b.bottom, b.top - a.bottom}) * height;
  return std::sqrt(across * across + down * down);
}

}  // namespace

BodyView body_view(Degrees angle) {
  const double turned = std::fabs(angle.value);
  if (turned < 25) return BodyView::frontal;
  if (turned < 65) return BodyView::three_quarter;
  if (turned < 115) return BodyView::profile;
  if (turned < 155) return BodyView::three_quarter_back;
  return BodyView::back;
}

Lux light_on_face(const Looking& looking, PersonId person) {
  const PersonFigure& figure = figure_in(looking, person);
  const Target own{Target::Kind::person, person.index, {}};
  return light_on(looking.light, looking.groups, figure.eyes, figure.face_direction, own);
}

PersonSeen seen_person(const Looking& looking, PersonId id, Lux incident) {
  const PersonFigure& figure = figure_in(looking, id);
  const PersonState state = person_at(looking.plan, id, looking.moment);
  PersonSeen seen;
  seen.person = id;
  seen.distance = Metres{dot(figure.eyes - looking.lens.at, looking.axes.forward)};
  const auto eyes = project(looking.lens, looking.axes, figure.eyes);
  seen.in_front = eyes.has_value();
  if (eyes) seen.eyes = eyes->at;
  add_turn(looking, state, figure, seen);
  add_light(looking, incident, seen);
  if (!seen.in_front) return seen;
  seen.head_height = head_height(looking, figure, seen.distance);
  add_blur(looking, seen);
  add_mask(looking, seen);
  seen.screen_speed = screen_speed(looking.plan, looking.motion, id);
  seen.against_behind = stops_between(seen.luminance.value, behind(looking, seen).value);
  return seen;
}

void add_gaps(const Pinhole& lens, std::vector<PersonSeen>& people) {
  const double height = lens.gate_height / lens.gate_width;
  for (PersonSeen& one : people) {
    const Box own = in_frame(one.body_box);
    one.gap = 1;
    if (!one.in_front || !has_area(own)) continue;
    for (const PersonSeen& other : people) {
      const Box box = in_frame(other.body_box);
      if (other.person == one.person || !other.in_front || !has_area(box)) continue;
      one.gap = std::min(one.gap, between(own, box, height));
    }
  }
}

}  // namespace lensward
