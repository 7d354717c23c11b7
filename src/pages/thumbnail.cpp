#include "pages/thumbnail.h"

#include <algorithm>

#include "base/quantity_text.h"
#include "pages/draw.h"
#include "pages/thumbnail_draw.h"
#include "pages/words.h"

namespace lensward {
namespace {

double picture_ratio(const Plan& plan, Moment moment) {
  if (plan.stage.cameras.empty()) return 9.0 / 16;
  const CameraState camera = camera_at(plan, on_air(plan, moment), moment);
  return camera.gate_height / camera.gate_width;
}

FrameOnPage frame_in(const Plan& plan, Moment moment, Vec2 at, Vec2 size) {
  const double ratio = picture_ratio(plan, moment);
  const double width = std::min(size.x, std::max(1.0, size.y - names_under_frame) / ratio);
  return {{at.x + (size.x - width) / 2, at.y}, {width, width * ratio}};
}

// Names stand under their heads, in a second row where the first is taken.
void add_names(Group& group, const DrawnFrame& drawn, const Plan& plan, const FrameOnPage& frame) {
  const double size = std::clamp(frame.size.x / 42, 1.9, 2.8), row = size * 1.25, foot = frame.at.y + frame.size.y;
  std::vector<Sitter> sitters = drawn.sitters;
  std::stable_sort(sitters.begin(), sitters.end(),
                   [](const Sitter& a, const Sitter& b) { return a.across < b.across; });
  double taken[2] = {frame.at.x - 1e9, frame.at.x - 1e9};
  for (const Sitter& sitter : sitters) {
    if (sitter.pixels < 40) continue;
    const Person& person = plan.stage.people[static_cast<std::size_t>(sitter.person.index)];
    const Face face = sitter.favoured ? Face::sans_bold : Face::sans;
    const std::string name =
        shortened(person.called.empty() ? person.name : person.called, face, size, frame.size.x * 0.4);
    const double half = width_of(name, face, size) / 2;
    const double head = frame.at.x + std::clamp(sitter.across, 0.0, 1.0) * frame.size.x;
    const double wanted = std::clamp(head, frame.at.x + half, frame.at.x + frame.size.x - half);
    int line = wanted - half < taken[0] + 1 && taken[1] < taken[0] ? 1 : 0;
    double x = std::max(wanted, taken[line] + 1 + half);
    // In a press of people a name that would run past the frame is left to the overhead.
    if (x + half > frame.at.x + frame.size.x + 0.01) {
      line = 1 - line;
      x = std::max(wanted, taken[line] + 1 + half);
      if (x + half > frame.at.x + frame.size.x + 0.01) continue;
    }
    taken[line] = x + half;
    const double base = foot + 1.2 + size + line * row;
    group.items.push_back(lensward::line({head, foot}, {head, foot + 1.0}, pen(Ink::mid, hairline)));
    if (sitter.favoured) {
      group.items.push_back(shape(polygon({{head, foot + 0.15}, {head - 0.9, foot + 1.5}, {head + 0.9, foot + 1.5}}),
                                  flat(Ink::accent), no_stroke()));
    }
    group.items.push_back(words({x, base}, name, face, size, Ink::black, Text::Anchor::middle));
  }
}

}  // namespace

std::string frame_caption(const Plan& plan, Moment moment, const Target& favoured) {
  const int beat = beat_at(plan, moment);
  std::string caption = beat < 0 ? "" : plan.beats[static_cast<std::size_t>(beat)].name + " · ";
  caption += clock_text(moment);
  if (!plan.stage.cameras.empty()) {
    const CameraId on = on_air(plan, moment);
    const CameraState camera = camera_at(plan, on, moment);
    const std::string support = support_words(plan, on);
    caption += " · " + plan.stage.cameras[static_cast<std::size_t>(on.index)].name + ": " + text_of(camera.focal) +
               " at T" + number(camera.stop.value, 1) + ", focus " + text_of(camera.focus);
    if (!support.empty()) caption += ", " + support;
  }
  if (favoured.kind != Target::Kind::nothing) caption += " · for " + name_of(plan, favoured);
  return caption;
}

double thumbnail_height(const Plan& plan, Moment moment, double width) {
  return width * picture_ratio(plan, moment) + names_under_frame;
}

Group thumbnail(const Plan& plan, Moment moment, Vec2 at, Vec2 size, const Target& favoured, const std::string& id) {
  const FrameOnPage frame = frame_in(plan, moment, at, size);
  Group group;
  group.id = id;
  if (!plan.stage.cameras.empty()) {
    DrawnFrame drawn = draw_frame(plan, moment, frame, favoured, id + "/picture");
    group.items.push_back({std::move(drawn.group)});
    add_names(group, drawn, plan, frame);
  }
  group.items.push_back(shape(rectangle(frame.at, frame.size), Fill{}, pen(Ink::black, plain_line)));
  return group;
}

}  // namespace lensward
