#include "pages/thumbnail_draw.h"

#include <algorithm>
#include <map>

#include "base/quantity_text.h"
#include "lens/picture.h"
#include "optics/focus.h"
#include "pages/draw.h"
#include "pages/thumbnail_ink.h"
#include "pages/thumbnail_soft.h"

namespace lensward {
namespace {

// Pixels across the frame that lines are traced from.
constexpr int traced_width = 960, traced_quickly = 480;
constexpr Finish by_hand{4, 0.5}, shaded_edge{4, 0.8};
// What is built is straight, so its lines are drawn straighter than the pixels say, with sharp corners.
constexpr Finish built{1, 1.0};
// Smaller spots of tone are left out, in pixels of a picture 960 wide.
constexpr double least_tone = 60, least_set_tone = 250, least_built = 14;

// A blur disc of so much of the frame's width makes a soft shape of somebody: about eight pixels of a cinema screen.
constexpr double soft_from = 0.004;

// Line weights are drawn for a frame 120 mm wide.
constexpr double usual_width = 120;

using Loops = std::vector<std::vector<Vec2>>;

bool speaks_at(const Plan& plan, PersonId person, Moment moment) {
  return std::any_of(plan.speeches.begin(), plan.speeches.end(), [&](const Speech& speech) {
    return speech.speaker == person && !speech.off && speech.begin <= moment && moment < speech.end;
  });
}

// Paper to dark, so that dress and hair of neighbours differ.
Ink local_colour(const Plan& plan, PersonId person, Material material) {
  constexpr Ink shades[] = {Ink::paper, Ink::faint, Ink::light, Ink::mid, Ink::dark};
  const Person& who = plan.stage.people[static_cast<std::size_t>(person.index)];
  const int dress = who.dress == Tone::light ? 0 : who.dress == Tone::mid ? 1 : 3;
  switch (material) {
    case Material::hair: {
      constexpr Ink hairs[] = {Ink::dark, Ink::black, Ink::light, Ink::mid, Ink::dark};
      return hairs[person.index % 5];
    }
    case Material::shoe:
      return Ink::dark;
    case Material::dress_upper:
      return shades[dress];
    case Material::dress_lower:
      return shades[dress >= 2 ? dress - 1 - person.index % 2 : dress + 1 + person.index % 2];
    default:
      return Ink::paper;
  }
}

class Draughtsman {
 public:
  Draughtsman(const Plan& plan, Moment moment, const FrameOnPage& frame, const Target& favoured, std::string id,
              Pains pains)
      : plan_(plan),
        moment_(moment),
        frame_(frame),
        favoured_(favoured),
        id_(std::move(id)),
        scale_(std::clamp(frame.size.x / usual_width, 0.45, 1.4)),
        picture_(picture_of(plan, moment, pains == Pains::full ? traced_width : traced_quickly, pains)),
        pixel_(static_cast<double>(traced_width) / picture_.width),
        ink_(ink_map(picture_)),
        arcs_(arcs_of(ink_.map, [&](int left, int right) { return finish_between(left, right); })),
        tone_arcs_(arcs_of(tone_map(picture_, ink_), [](int, int) { return shaded_edge; })),
        creases_(creases_of(ink_.map, by_hand, [&](int x, int y, int other_x, int other_y) {
          return stands_out(picture_, x, y, other_x, other_y);
        })) {
    find_sitters();
  }

  Group draw() const {
    Group group;
    group.id = id_;
    group.figure = true;
    group.clip = std::pair{frame_.at, frame_.size};
    group.items.push_back({draw_set()});
    for (const Sitter& sitter : sitters_) group.items.push_back({draw_sitter(sitter)});
    return group;
  }

  std::vector<Sitter> sitters() const { return sitters_; }

 private:
  Vec2 on_page(Vec2 pixel) const {
    return frame_.at + Vec2{pixel.x * frame_.size.x / picture_.width, pixel.y * frame_.size.y / picture_.height};
  }

  static bool same(const Target& a, const Target& b) { return a.kind == b.kind && a.index == b.index; }

  void find_sitters() {
    std::map<int, int> pixels;
    for (const int label : ink_.map.label) {
      const Target& owner = ink_.labels[static_cast<std::size_t>(label)].owner;
      if (owner.kind == Target::Kind::person) ++pixels[owner.index];
    }
    for (const auto& [index, count] : pixels) {
      const PersonFigure& figure = picture_.scene.figures[static_cast<std::size_t>(index)];
      const LensAxes axes = axes_of(picture_.lens);
      Sitter sitter;
      sitter.person = PersonId{index};
      sitter.pixels = static_cast<int>(count * pixel_ * pixel_);
      sitter.depth = Metres{std::max(0.1, dot(figure.eyes - picture_.lens.at, axes.forward))};
      const Millimetres disc =
          blur_disc(picture_.camera.focal, picture_.camera.stop, picture_.camera.focus, sitter.depth);
      sitter.blur = disc / picture_.camera.gate_width * frame_.size.x;
      sitter.soft = sitter.blur > soft_from * frame_.size.x;
      sitter.weight = std::clamp(2.8 / sitter.depth.value, 0.6, 1.6) * scale_;
      const auto head = project(picture_.lens, figure.head_middle);
      sitter.across = head ? head->at.u : 0.5;
      sitter.favoured = same(favoured_, {Target::Kind::person, index, {}});
      sitters_.push_back(sitter);
    }
    std::stable_sort(sitters_.begin(), sitters_.end(),
                     [](const Sitter& a, const Sitter& b) { return a.depth > b.depth; });
  }

  Finish finish_between(int left, int right) const {
    const auto is_built = [&](int label) {
      const InkLabel* found = label_of(label);
      return found == nullptr || found->owner.kind != Target::Kind::person;
    };
    return is_built(left) && is_built(right) ? built : by_hand;
  }

  const InkLabel* label_of(int label) const {
    return label < 0 ? nullptr : &ink_.labels[static_cast<std::size_t>(label)];
  }

  float depth_at(Vec2 pixel) const {
    return picture_.raster
        .depth[picture_.pixel(static_cast<int>(std::lround(pixel.x)), static_cast<int>(std::lround(pixel.y)))];
  }

  // The label whose edge an arc is: the nearer of the two. -1 along the frame.
  int edge_of(const Arc& arc) const {
    if (arc.left < 0 || arc.right < 0) return -1;
    return depth_at(arc.pixel_left) <= depth_at(arc.pixel_right) ? arc.left : arc.right;
  }

  // ---- Shapes ------------------------------------------------------------------------------------------------------

  void add_line(std::vector<PathStep>& steps, const std::vector<Vec2>& points) const {
    for (std::size_t i = 0; i < points.size(); ++i) {
      PathStep step;
      step.kind = i == 0 ? PathStep::Kind::move : PathStep::Kind::line;
      step.to = on_page(points[i]);
      steps.push_back(step);
    }
  }

  // The same as curves, but for real corners.
  void add_drawn_line(std::vector<PathStep>& steps, const std::vector<Vec2>& points) const {
    const std::size_t count = points.size();
    const bool ring = count > 3 && points.front() == points.back();
    // As long as a third of the shorter neighbour, so that a curve never swings out beside a long straight stretch.
    const auto handle = [&](std::size_t i) {
      const bool end = i == 0 || i + 1 == count;
      if (end && !ring) return Vec2{};
      const Vec2 before = points[i] - points[i == 0 ? count - 2 : i - 1];
      const Vec2 after = points[i + 1 == count ? 1 : i + 1] - points[i];
      // A turn of more than about 50 degrees is a corner.
      if (dot(unit(before), unit(after)) < 0.64) return Vec2{};
      return unit(unit(before) + unit(after)) * (std::min(length(before), length(after)) / 3);
    };
    for (std::size_t i = 0; i < count; ++i) {
      PathStep step;
      step.kind = i == 0 ? PathStep::Kind::move : PathStep::Kind::curve;
      step.to = on_page(points[i]);
      if (i > 0) {
        step.control_1 = on_page(points[i - 1] + handle(i - 1));
        step.control_2 = on_page(points[i] - handle(i));
      }
      steps.push_back(step);
    }
  }

  std::vector<PathStep> area(const Loops& loops, double least) const {
    std::vector<PathStep> steps;
    for (const std::vector<Vec2>& loop : loops) {
      if (loop.size() < 3 || loop_area(loop) * pixel_ * pixel_ < least) continue;
      add_line(steps, loop);
      steps.push_back({PathStep::Kind::close, {}, {}, {}});
    }
    return steps;
  }

  static Item filled(std::vector<PathStep> steps, const Fill& fill) {
    Shape made;
    made.steps = std::move(steps);
    made.fill = fill;
    made.stroke = no_stroke();
    made.even_odd = true;
    return {made};
  }

  static void add_stroke(Group& group, std::vector<PathStep> steps, const Stroke& stroke) {
    if (!steps.empty()) group.items.push_back(shape(std::move(steps), Fill{}, stroke));
  }

  void add_tones(Group& group, int owner, Ink ink, double gap) const {
    for (int tone = 1; tone < tone_count; ++tone) {
      const std::vector<PathStep> steps =
          area(loops_of(tone_arcs_, tone_count * owner + tone), owner == 0 ? least_set_tone : least_tone);
      if (steps.empty()) continue;
      const double width = 0.13 * std::max(0.75, scale_);
      group.items.push_back(filled(steps, hatched(ink, gap, 52, width)));
      if (tone == 2) group.items.push_back(filled(steps, hatched(ink, gap, -38, width)));
    }
  }

  // ---- The room ----------------------------------------------------------------------------------------------------

  Group draw_set() const {
    Group group;
    group.id = id_ + "/set";
    group.title = "the set";
    add_tones(group, 0, Ink::light, 0.85 * std::max(0.6, scale_));
    std::vector<PathStep> outlines, corners;
    for (const Arc& arc : arcs_) {
      const int edge = edge_of(arc);
      const InkLabel* near = label_of(edge);
      if (near == nullptr || near->owner.kind == Target::Kind::person) continue;
      const InkLabel* far = label_of(edge == arc.left ? arc.right : arc.left);
      const bool corner = far->owner.kind != Target::Kind::person && same(far->owner, near->owner);
      if (arc.closed && loop_area(arc.points) * pixel_ * pixel_ < least_built) continue;
      add_line(corner ? corners : outlines, arc.points);
    }
    add_stroke(group, std::move(corners), pen(Ink::light, 0.16 * scale_));
    add_stroke(group, std::move(outlines), pen(Ink::mid, 0.20 * scale_));
    return group;
  }

  // ---- People ------------------------------------------------------------------------------------------------------

  bool owned(int label, PersonId person) const {
    const InkLabel* found = label_of(label);
    return found != nullptr && same(found->owner, {Target::Kind::person, person.index, {}});
  }

  // Lines of a person: the outline against others, and the borders between their own colours.
  struct Lines {
    std::vector<PathStep> outline, borders, folds;
  };
  Lines lines_of(PersonId person) const {
    Lines lines;
    for (const Arc& arc : arcs_) {
      if (arc.left < 0 || arc.right < 0) continue;
      const bool left = owned(arc.left, person), right = owned(arc.right, person);
      if (left && right) add_drawn_line(lines.borders, arc.points);
      if (left != right && owned(edge_of(arc), person)) add_drawn_line(lines.outline, arc.points);
    }
    for (const std::vector<Vec2>& line : creases_) {
      if (line.size() < 2 || length_of(line) * pixel_ < 5) continue;
      const Vec2 middle = line[line.size() / 2];
      const int x = std::clamp(static_cast<int>(middle.x), 0, picture_.width - 1);
      const int y = std::clamp(static_cast<int>(middle.y), 0, picture_.height - 1);
      if (owned(ink_.map.at(x, y), person)) add_drawn_line(lines.folds, line);
    }
    return lines;
  }

  static double length_of(const std::vector<Vec2>& line) {
    double sum = 0;
    for (std::size_t i = 1; i < line.size(); ++i) sum += length(line[i] - line[i - 1]);
    return sum;
  }

  void add_colours(Group& group, const Sitter& sitter) const {
    std::map<Ink, Loops> by_ink;
    for (std::size_t label = 0; label < ink_.labels.size(); ++label) {
      if (!owned(static_cast<int>(label), sitter.person)) continue;
      Loops loops = loops_of(arcs_, static_cast<int>(label));
      Loops& all = by_ink[local_colour(plan_, sitter.person, ink_.labels[label].material)];
      all.insert(all.end(), loops.begin(), loops.end());
    }
    for (const auto& [ink, loops] : by_ink) group.items.push_back(filled(area(loops, 1), flat(ink)));
  }

  Group draw_sitter(const Sitter& sitter) const {
    const Person& person = plan_.stage.people[static_cast<std::size_t>(sitter.person.index)];
    Group group;
    group.id = id_ + "/person-" + id_part(person.name);
    group.title = person.called.empty() ? person.name : person.called;
    group.description = "at " + text_of(sitter.depth);
    Lines lines = lines_of(sitter.person);
    if (sitter.favoured) add_stroke(group, lines.outline, pen(Ink::accent, std::max(0.9, 1.8 * sitter.weight)));
    if (sitter.soft) {
      add_soft(group, sitter);
      return group;
    }
    add_colours(group, sitter);
    add_tones(group, 1 + sitter.person.index, Ink::dark, 0.62 * std::max(0.6, scale_));
    const double heavier = sitter.favoured ? 1.35 : 1;
    add_stroke(group, std::move(lines.folds), pen(Ink::black, 0.24 * sitter.weight));
    add_stroke(group, std::move(lines.borders), pen(Ink::black, 0.24 * sitter.weight));
    add_stroke(group, std::move(lines.outline), pen(Ink::black, 0.42 * heavier * sitter.weight));
    if (sitter.weight > 0.4) {
      for (Item& mark : seam_marks(picture_, sitter.person, 0.2 * sitter.weight, frame_))
        group.items.push_back(std::move(mark));
    }
    const bool speaks = speaks_at(plan_, sitter.person, moment_);
    for (Item& mark : face_marks(picture_, plan_, sitter.person, speaks, FacePen{}, frame_))
      group.items.push_back(std::move(mark));
    return group;
  }

  // Out of focus: a single blurred layer, its ink blurred with it.
  void add_soft(Group& group, const Sitter& sitter) const {
    const auto colour = [&](Material material) { return local_colour(plan_, sitter.person, material); };
    const double radius = sitter.blur / 2 / frame_.size.x * picture_.width;
    group.items.push_back({soft_layer(picture_, sitter.person, radius, colour, frame_)});
    // A face stays to be read while its blur is small beside it.
    const bool speaks = speaks_at(plan_, sitter.person, moment_);
    const FacePen pale{Ink::light, Ink::light, sitter.blur * 0.5};
    for (Item& mark : face_marks(picture_, plan_, sitter.person, speaks, pale, frame_))
      group.items.push_back(std::move(mark));
  }

  const Plan& plan_;
  Moment moment_;
  FrameOnPage frame_;
  Target favoured_;
  std::string id_;
  double scale_;
  ScenePicture picture_;
  double pixel_;  // in those of a picture 960 wide
  InkMap ink_;
  std::vector<Arc> arcs_, tone_arcs_;
  Loops creases_;
  std::vector<Sitter> sitters_;
};

}  // namespace

DrawnFrame draw_frame(const Plan& plan, Moment moment, const FrameOnPage& frame, const Target& favoured,
                      const std::string& id, Pains pains) {
  const Draughtsman draughtsman(plan, moment, frame, favoured, id, pains);
  return {draughtsman.draw(), draughtsman.sitters()};
}

}  // namespace lensward
