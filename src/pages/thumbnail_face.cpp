#include "pages/thumbnail_face.h"

#include <algorithm>

#include "pages/draw.h"

namespace lensward {
namespace {

// Lengths as fractions of stature, across to the head's own right and up from midway between chin and crown.
constexpr double eye_out = 0.0178, eye_up = 0.0015, eye_half = 0.0092, iris = 0.0047;
constexpr double brow_up = 0.0148, brow_half = 0.0118, mouth_up = -0.0372, mouth_half = 0.0128;

// The place on the page of a point on somebody's surface, if that surface shows there: nothing stands before it by more
// than `grace` metres.
template <class Parts>
std::optional<Vec2> shown_at(const ScenePicture& picture, const FrameOnPage& frame, PersonId person, Vec3 point,
                             double grace, const Parts& parts) {
  const std::optional<Projected> projected = project(picture.lens, point);
  if (!projected) return std::nullopt;
  const int x = static_cast<int>(std::floor(projected->at.u * picture.width));
  const int y = static_cast<int>(std::floor(projected->at.v * picture.height));
  if (x < 0 || y < 0 || x >= picture.width || y >= picture.height) return std::nullopt;
  const std::int32_t shown = picture.solid_at(x, y);
  if (shown < 0) return std::nullopt;
  const auto index = static_cast<std::size_t>(shown);
  const Target& owner = picture.scene.owner[index];
  if (owner.kind != Target::Kind::person || owner.index != person.index) return std::nullopt;
  if (!parts(picture.scene.solids[index].part)) return std::nullopt;
  const double before = projected->depth.value - static_cast<double>(picture.raster.depth[picture.pixel(x, y)]);
  if (before > grace) return std::nullopt;
  return frame.place(projected->at);
}

class FaceHand {
 public:
  FaceHand(const ScenePicture& picture, const PersonFigure& figure, PersonId person, Metres stature,
           const FacePen& face_pen, const FrameOnPage& frame)
      : picture_(picture), figure_(figure), person_(person), stature_(stature), pen_(face_pen), frame_(frame) {
    const auto chin = project(picture.lens, figure.chin), crown = project(picture.lens, figure.crown);
    if (chin && crown) height_ = length(frame.place(chin->at) - frame.place(crown->at));
  }

  // Of the head on the page, in mm, as the lens foreshortens it.
  double height() const { return height_; }
  Vec3 on(double across, double up) const { return on_face(figure_, stature_, stature_ * across, stature_ * up); }
  Vec3 in_head(Vec3 local) const {
    const Vec3 right = cross(figure_.face_direction, figure_.head_up);
    return figure_.head_middle +
           (right * local.x + figure_.face_direction * local.y + figure_.head_up * local.z) * stature_.value;
  }
  // Where the lens stands, in the head's own directions.
  Vec3 toward_lens() const {
    const Vec3 way = unit(picture_.lens.at - figure_.head_middle);
    return {dot(way, cross(figure_.face_direction, figure_.head_up)), dot(way, figure_.face_direction),
            dot(way, figure_.head_up)};
  }

  std::optional<Vec2> seen(Vec3 point) const {
    return shown_at(picture_, frame_, person_, point, 0.012, [](Part part) { return part == Part::face; });
  }

  // The longest stretch of the points that shows.
  std::vector<Vec2> stretch(const std::vector<Vec3>& points) const {
    std::vector<Vec2> best, now;
    for (const Vec3& point : points) {
      if (const std::optional<Vec2> place = seen(point)) {
        now.push_back(*place);
      } else {
        now.clear();
      }
      if (now.size() > best.size()) best = now;
    }
    return best;
  }

  void stroke(const std::vector<Vec3>& points, Ink ink, double width) {
    const std::vector<Vec2> line = stretch(points);
    if (line.size() >= 2) items.push_back(shape(polyline(line), Fill{}, pen(ink, width + pen_.wider)));
  }
  const FacePen& inks() const { return pen_; }
  void blot(const std::vector<Vec3>& points, Ink ink) {
    const std::vector<Vec2> outline = stretch(points);
    if (outline.size() >= 4) items.push_back(shape(polygon(outline), flat(ink), no_stroke()));
  }

  Vec3 gaze() const {
    const Vec3 way = figure_.gaze_direction;
    return {dot(way, cross(figure_.face_direction, figure_.head_up)), dot(way, figure_.face_direction),
            dot(way, figure_.head_up)};
  }

  std::vector<Item> items;

 private:
  const ScenePicture& picture_;
  const PersonFigure& figure_;
  PersonId person_;
  Metres stature_;
  FacePen pen_;
  const FrameOnPage& frame_;
  double height_ = 0;
};

// A bow over a span: `lift` at its middle.
std::vector<Vec3> bow(const FaceHand& hand, double middle, double up, double half, double lift, double slope) {
  constexpr int parts = 8;
  std::vector<Vec3> points;
  for (int i = 0; i <= parts; ++i) {
    const double t = 2.0 * i / parts - 1;
    points.push_back(hand.on(middle + half * t, up + lift * (1 - t * t) + slope * t));
  }
  return points;
}

std::vector<Vec3> oval(const FaceHand& hand, double middle, double up, double half_across, double half_up) {
  // Twelve points of the unit circle, thirty degrees apart.
  constexpr double c = 0.8660254;
  constexpr Vec2 around[] = {{1, 0},  {c, 0.5},   {0.5, c},   {0, 1},  {-0.5, c}, {-c, 0.5},
                             {-1, 0}, {-c, -0.5}, {-0.5, -c}, {0, -1}, {0.5, -c}, {c, -0.5}};
  std::vector<Vec3> points;
  for (const Vec2& p : around) points.push_back(hand.on(middle + half_across * p.x, up + half_up * p.y));
  return points;
}

void draw_eyes(FaceHand& hand) {
  const double width = std::clamp(hand.height() * 0.022, 0.10, 0.34);
  const Vec3 gaze = hand.gaze();
  const double aside = std::clamp(gaze.x * 0.0085, -0.0052, 0.0052), over = std::clamp(gaze.z * 0.006, -0.003, 0.003);
  const bool small = hand.height() < 3.5;
  for (const double side : {-1.0, 1.0}) {
    const double middle = side * eye_out;
    hand.stroke(bow(hand, middle, brow_up, brow_half, 0.0026, side * 0.0006), hand.inks().lines, 1.45 * width);
    if (!small)
      hand.stroke(bow(hand, middle, eye_up - 0.0012, eye_half, 0.0056, side * 0.0006), hand.inks().lines, width);
    const double r = small ? 0.0066 : iris;
    hand.blot(oval(hand, middle + aside, eye_up + over + (small ? 0 : 0.0008), r, small ? 0.0052 : iris * 0.95),
              Ink::black);
  }
}

void draw_nose(FaceHand& hand) {
  const double width = std::clamp(hand.height() * 0.018, 0.10, 0.28);
  const Vec3 lens = hand.toward_lens();
  if (lens.y < 0.25) return;
  const auto at = [&](double x, double y, double z) { return hand.in_head({x, y, z}); };
  // The contour on the side turned away from the lens, and under the tip.
  const double far = lens.x > 0 ? -1 : 1;
  std::vector<Vec3> line;
  if (std::fabs(lens.x) > 0.14) {
    line = {at(far * 0.0042, 0.0470, 0.0010), at(far * 0.0050, 0.0512, -0.0080), at(far * 0.0062, 0.0545, -0.0160)};
  }
  line.push_back(at(far * 0.0068, 0.0530, -0.0205));
  line.push_back(at(far * 0.0036, 0.0545, -0.0252));
  line.push_back(at(0, 0.0560, -0.0262));
  line.push_back(at(-far * 0.0040, 0.0540, -0.0250));
  if (hand.height() > 3.5 || std::fabs(lens.x) > 0.14) hand.stroke(line, hand.inks().fine, width);
}

void draw_mouth(FaceHand& hand, bool speaks) {
  const double width = std::clamp(hand.height() * 0.020, 0.10, 0.30);
  if (speaks) {
    hand.blot(oval(hand, 0, mouth_up - 0.001, mouth_half * 0.72, 0.0052), hand.inks().lines);
    return;
  }
  hand.stroke(bow(hand, 0, mouth_up, mouth_half, -0.0012, 0), hand.inks().lines, width);
  if (hand.height() > 5)
    hand.stroke(bow(hand, 0, mouth_up - 0.0068, mouth_half * 0.45, -0.0010, 0), Ink::mid, width * 0.8);
}

}  // namespace

std::vector<Item> face_marks(const ScenePicture& picture, const Plan& plan, PersonId person, bool speaks,
                             const FacePen& pen, const FrameOnPage& frame) {
  const auto index = static_cast<std::size_t>(person.index);
  const PersonFigure& figure = picture.scene.figures[index];
  FaceHand hand(picture, figure, person, plan.stage.people[index].stature, pen, frame);
  if (hand.height() < 1.2 || hand.height() < 5 * pen.wider || hand.toward_lens().y < -0.35) return {};
  draw_eyes(hand);
  draw_nose(hand);
  draw_mouth(hand, speaks);
  return hand.items;
}

std::vector<Item> seam_marks(const ScenePicture& picture, PersonId person, double width, const FrameOnPage& frame) {
  std::vector<Item> items;
  for (const std::vector<Vec3>& seam : picture.scene.figures[static_cast<std::size_t>(person.index)].seams) {
    std::vector<Vec2> line;
    const auto finish = [&] {
      if (line.size() >= 2) items.push_back(shape(polyline(line), Fill{}, pen(Ink::black, width)));
      line.clear();
    };
    for (const Vec3& point : seam) {
      const std::optional<Vec2> place = shown_at(picture, frame, person, point, 0.03, [](Part part) {
        return part == Part::chest || part == Part::waist || part == Part::cloth;
      });
      if (place) line.push_back(*place);
      if (!place) finish();
    }
    finish();
  }
  return items;
}

}  // namespace lensward
