#include "floor_check.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "pages/draw.h"
#include "pages/labels.h"
#include "pages/words.h"

namespace lensward::floor_check {
namespace {

constexpr double near_enough = 8;     // mm, from a name to its thing
constexpr double leader_meets = 0.9;  // mm, from the end of a leader to the name
constexpr double leader_nears = 2;    // mm, from the other end to the thing

using Outline = std::vector<Vec2>;

struct Line {
  Vec2 from, to;
};

struct Label {
  std::string id;  // of the thing
  std::vector<std::string> lines;
  std::vector<LabelArea> inks;
  std::optional<Line> leader;

  std::string words() const {
    std::string all;
    for (const std::string& text : lines) all += (all.empty() ? "" : " ") + text;
    return all;
  }
};

struct Thing {
  std::string id;
  std::vector<Outline> outlines;
};

Vec2 on_curve(Vec2 from, const PathStep& step, double share) {
  const double rest = 1 - share;
  return from * (rest * rest * rest) + step.control_1 * (3 * rest * rest * share) +
         step.control_2 * (3 * rest * share * share) + step.to * (share * share * share);
}

std::vector<Outline> outlines_of(const Shape& shape) {
  constexpr int parts = 10;
  std::vector<Outline> all;
  for (const PathStep& step : shape.steps) {
    if (step.kind == PathStep::Kind::move) all.push_back({step.to});
    if (all.empty()) continue;
    Outline& outline = all.back();
    if (step.kind == PathStep::Kind::line) outline.push_back(step.to);
    if (step.kind == PathStep::Kind::close) outline.push_back(outline.front());
    if (step.kind != PathStep::Kind::curve) continue;
    const Vec2 from = outline.back();
    for (int part = 1; part <= parts; ++part)
      outline.push_back(on_curve(from, step, static_cast<double>(part) / parts));
  }
  return all;
}

// Rounded capitals reach 0.7 of the size over the baseline, tails 0.22 under it.
LabelArea ink_of(const Text& text) {
  const double width = width_of(text.words, text.face, text.size);
  const double share = text.anchor == Text::Anchor::left ? 0 : text.anchor == Text::Anchor::middle ? 0.5 : 1;
  const double left = text.at.x - width * share;
  return {{left, text.at.y - text.size * 0.7}, {left + width, text.at.y + text.size * 0.22}};
}

// Whether the stretch has a part inside the area: cut down by one edge after another.
bool enters(const LabelArea& area, Vec2 from, Vec2 to) {
  double begin = 0, end = 1;
  const auto cut = [&](double start, double way, double low, double high) {
    if (way == 0) return start > low && start < high;
    begin = std::max(begin, std::min((low - start) / way, (high - start) / way));
    end = std::min(end, std::max((low - start) / way, (high - start) / way));
    return begin < end;
  };
  return cut(from.x, to.x - from.x, area.low.x, area.high.x) && cut(from.y, to.y - from.y, area.low.y, area.high.y);
}

bool is_closed(const Outline& outline) { return outline.size() > 3 && length(outline.front() - outline.back()) < 1e-6; }

// By the crossings of a ray.
bool surrounds(const Outline& outline, Vec2 point) {
  bool inside = false;
  for (std::size_t i = 1; i < outline.size(); ++i) {
    const Vec2 a = outline[i - 1], b = outline[i];
    if ((a.y > point.y) == (b.y > point.y)) continue;
    if (point.x < a.x + (b.x - a.x) * (point.y - a.y) / (b.y - a.y)) inside = !inside;
  }
  return inside;
}

bool covers(const LabelArea& area, const Outline& outline) {
  for (std::size_t i = 1; i < outline.size(); ++i)
    if (enters(area, outline[i - 1], outline[i])) return true;
  return is_closed(outline) && surrounds(outline, (area.low + area.high) * 0.5);
}

double distance(const LabelArea& area, Vec2 point) {
  return length(point -
                Vec2{std::clamp(point.x, area.low.x, area.high.x), std::clamp(point.y, area.low.y, area.high.y)});
}

double distance(Vec2 point, Vec2 from, Vec2 to) {
  const Vec2 way = to - from;
  const double size = dot(way, way);
  const double share = size > 0 ? std::clamp(dot(point - from, way) / size, 0.0, 1.0) : 0;
  return length(from + way * share - point);
}

double distance(const Outline& outline, Vec2 point) {
  if (is_closed(outline) && surrounds(outline, point)) return 0;
  double least = length(outline.front() - point);
  for (std::size_t i = 1; i < outline.size(); ++i) least = std::min(least, distance(point, outline[i - 1], outline[i]));
  return least;
}

double distance(const Outline& outline, const LabelArea& area) {
  if (covers(area, outline)) return 0;
  double least = 1e9;
  for (const Vec2 point : outline) least = std::min(least, distance(area, point));
  for (const Vec2 corner : {area.low, area.high, Vec2{area.low.x, area.high.y}, Vec2{area.high.x, area.low.y}})
    least = std::min(least, distance(outline, corner));
  return least;
}

class Reader {
 public:
  Reader(const Overhead& drawing, const Plan& plan, Moment moment) : drawing_(drawing), plan_(plan), moment_(moment) {
    read(drawing.group);
  }

  std::vector<std::string> complaints(Vec2 at, Vec2 most) {
    for (const Label& label : labels_) {
      over_others(label);
      over_things(label);
      far_off(label);
      off_the_paper(label, {at, at + most});
    }
    missing();
    return std::move(complaints_);
  }

 private:
  static constexpr std::string_view label_end = "/name";

  void read(const Group& group) {
    if (group.id.ends_with(label_end)) return read_label(group);
    if (group.id.ends_with("/scale")) read_texts(group, scale_);
    Thing thing{group.id, {}};
    for (const Item& item : group.items) {
      if (const auto* inner = std::get_if<Group>(&item.body)) read(*inner);
      const auto* shape = std::get_if<Shape>(&item.body);
      if (shape == nullptr) continue;
      for (Outline& outline : outlines_of(*shape)) thing.outlines.push_back(std::move(outline));
    }
    if (!thing.id.empty() && !thing.outlines.empty()) things_.push_back(std::move(thing));
  }

  static void read_texts(const Group& group, std::vector<LabelArea>& inks) {
    for (const Item& item : group.items)
      if (const auto* text = std::get_if<Text>(&item.body)) inks.push_back(ink_of(*text));
  }

  void read_label(const Group& group) {
    Label label;
    label.id = group.id.substr(0, group.id.size() - label_end.size());
    for (const Item& item : group.items) {
      if (const auto* text = std::get_if<Text>(&item.body)) label.lines.push_back(text->words);
      const auto* shape = std::get_if<Shape>(&item.body);
      if (shape != nullptr && shape->steps.size() == 2) label.leader = Line{shape->steps[0].to, shape->steps[1].to};
    }
    read_texts(group, label.inks);
    labels_.push_back(std::move(label));
  }

  void over_others(const Label& label) {
    const auto over = [&](const std::vector<LabelArea>& inks) {
      return std::ranges::any_of(label.inks, [&](const LabelArea& own) {
        return std::ranges::any_of(inks, [&](const LabelArea& other) { return own.overlaps(other); });
      });
    };
    for (const Label& other : labels_)
      if (&other < &label && over(other.inks)) complain("`{}` over `{}`", label.words(), other.words());
    if (over(scale_)) complain("`{}` over the scale", label.words());
  }

  // Of lamps and cameras their bodies, not the beam and the way.
  static bool may_not_be_covered(const Thing& thing, const Outline& outline) {
    const auto is = [&](const char* part) { return thing.id.find(part) != std::string::npos; };
    return is("/person-") || is("/ghost-") || is("/mark-") || is("/prop-") ||
           ((is("/lamp-") || is("/camera-")) && is_closed(outline));
  }

  void over_things(const Label& label) {
    for (const Thing& thing : things_) {
      const bool over = std::ranges::any_of(label.inks, [&](const LabelArea& ink) {
        return std::ranges::any_of(thing.outlines, [&](const Outline& outline) {
          return may_not_be_covered(thing, outline) && covers(ink, outline);
        });
      });
      if (over) complain("`{}` over {}", label.words(), thing.id);
    }
  }

  const Thing* thing_of(const std::string& id) const {
    const auto found = std::ranges::find_if(things_, [&](const Thing& thing) { return thing.id == id; });
    return found == things_.end() ? nullptr : &*found;
  }

  static bool leads(const Label& label, const Thing& thing) {
    if (!label.leader) return false;
    const auto [from, to] = *label.leader;
    const bool meets = std::ranges::any_of(
        label.inks, [&, end = to](const LabelArea& ink) { return distance(ink, end) <= leader_meets; });
    const bool nears = std::ranges::any_of(
        thing.outlines, [&, end = from](const Outline& outline) { return distance(outline, end) <= leader_nears; });
    return meets && nears;
  }

  void far_off(const Label& label) {
    const Thing* thing = thing_of(label.id);
    if (thing == nullptr) return complain("`{}` names nothing that is drawn", label.words());
    double least = 1e9;
    for (const LabelArea& ink : label.inks)
      for (const Outline& outline : thing->outlines) least = std::min(least, distance(outline, ink));
    if (least > near_enough && !leads(label, *thing))
      complain("`{}` is {:.1f} mm from its thing and on no leader", label.words(), least);
  }

  void off_the_paper(const Label& label, const LabelArea& paper) {
    for (const LabelArea& ink : label.inks)
      if (!paper.holds(ink)) complain("`{}` is off the paper", label.words());
  }

  void need(const std::string& part, const std::string& name, const std::string& number) {
    const std::string id = drawing_.group.id + "/" + part;
    const auto label = std::ranges::find_if(labels_, [&](const Label& one) { return one.id == id; });
    if (label == labels_.end()) return complain("{} has no name", id);
    const auto squeezed = [](std::string text) {
      std::erase(text, ' ');
      return text;
    };
    const bool in_full = squeezed(label->words()).find(squeezed(name)) != std::string::npos;
    const bool by_number = !number.empty() && label->words() == number &&
                           std::ranges::find(drawing_.key, number + "  " + name) != drawing_.key.end();
    if (!in_full && !by_number) complain("{} bears `{}`, not `{}`", id, label->words(), name);
  }

  // What stands in the plan; of what moves or may lie off the paper, what is drawn.
  void missing() {
    for (const Piece& piece : plan_.stage.pieces) need(id_part(piece.name), piece.name, "");
    for (const Opening& opening : plan_.stage.openings) need(id_part(opening.name), opening.name, "");
    for (const Camera& camera : plan_.stage.cameras) need("camera-" + id_part(camera.name), camera.name, "");
    for (int i = 0; i < static_cast<int>(plan_.stage.people.size()); ++i)
      if (person_at(plan_, PersonId{i}, moment_).present)
        need("person-" + id_part(person_of(plan_, PersonId{i}).name), called(plan_, PersonId{i}),
             ordinal(plan_, PersonId{i}));
    need_if_drawn("lamp-", plan_.stage.lamps);
    need_if_drawn("prop-", plan_.stage.props);
    need_if_drawn("mark-", plan_.marks);
  }

  template <class Things>
  void need_if_drawn(const std::string& kind, const Things& all) {
    for (const auto& one : all) {
      const std::string part = kind + id_part(one.name);
      if (thing_of(drawing_.group.id + "/" + part) != nullptr) need(part, one.name, "");
    }
  }

  template <class... Parts>
  void complain(const char* form, const Parts&... parts) {
    complaints_.push_back(fmt::format(fmt::runtime(form), parts...));
  }

  const Overhead& drawing_;
  const Plan& plan_;
  Moment moment_;
  std::vector<Label> labels_;
  std::vector<Thing> things_;
  std::vector<LabelArea> scale_;
  std::vector<std::string> complaints_;
};

}  // namespace

std::vector<std::string> complaints(const Overhead& drawing, const Plan& plan, Moment moment, Vec2 at, Vec2 most) {
  return Reader(drawing, plan, moment).complaints(at, most);
}

}  // namespace lensward::floor_check
