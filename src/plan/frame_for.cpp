// The camera of a composition. Each round turns the aim so that the asked-for places come out, then sets the lens or
// the distance for the size; the two hardly disturb each other, so that a few rounds are enough.
#include "plan/frame_for.h"

#include <algorithm>
#include <cmath>

#include "base/angle.h"
#include "figure/proportions.h"

namespace lensward {
namespace {

constexpr int most_rounds = 60;
constexpr double shortest_focal = 8, longest_focal = 400;
constexpr double nearest = 0.3, farthest = 200;
// Eyes on the upper third, when no size says how much room there is above a head.
constexpr double eyes_down = 1.0 / 3;
// Nobody who is framed without a place may be nearer to the edge than this.
constexpr double edge = 0.08;

struct Misses {
  double across = 0, down = 0;  // in frame widths and heights, positive: right of, below where it should be
};

class Framing {
 public:
  Framing(const CameraState& now, const std::vector<Framed>& framed, Freedom freedom)
      : camera_(now), framed_(framed), freedom_(freedom) {
    camera_.focal = Millimetres{std::clamp(now.focal.value, 1.0, 3000.0)};
  }

  FrameAnswer solve() {
    face_them();
    for (int round = 0; round < most_rounds; ++round) {
      const Pinhole before = pinhole_of(camera_);
      set_size();
      turn();
      if (settled(before)) break;
    }
    return {camera_, width_error(), size_error()};
  }

 private:
  // Starts from the first one in the middle, so that everyone who can be is before the lens.
  void face_them() {
    Vec3 middle;
    for (const Framed& one : framed_) middle = middle + one.eyes * (1.0 / static_cast<double>(framed_.size()));
    const Aim aim = aim_at(camera_.at, middle);
    camera_.pan = aim.pan;
    camera_.tilt = Degrees{std::clamp(aim.tilt.value, -80.0, 80.0)};
  }

  std::optional<Projected> seen(Vec3 point) const { return project(pinhole_of(camera_), point); }

  double depth_of(const Framed& one) const { return dot(one.eyes - camera_.at, axes_of(pinhole_of(camera_)).forward); }

  bool any_place() const {
    return std::any_of(framed_.begin(), framed_.end(), [](const Framed& one) { return one.across.has_value(); });
  }

  // Room above the head and the head down to the eyes, in frame heights; nothing when neither a size nor a headroom
  // says.
  std::optional<double> eyes_from_top() const {
    const double below_crown = 1 - eye_fraction;
    if (const Framed* one = sized()) {
      const double height = frame_height_for(*one->size, one->stature).value;
      return one->size->headroom.value + below_crown * one->stature.value / height;
    }
    if (framed_.empty() || !framed_.front().headroom) return std::nullopt;
    const Framed& one = framed_.front();
    const double height = camera_.gate_height.value / camera_.focal.value * std::max(depth_of(one), nearest);
    return one.headroom->value + below_crown * one.stature.value / height;
  }

  const Framed* sized() const {
    for (const Framed& one : framed_) {
      if (one.size) return &one;
    }
    return nullptr;
  }

  // ---- Aim ---------------------------------------------------------------------------------------------------------

  double across_miss() const {
    if (!any_place()) return centre_miss();
    double sum = 0;
    int count = 0;
    for (const Framed& one : framed_) {
      const auto at = one.across ? seen(one.eyes) : std::nullopt;
      if (!at) continue;
      sum += at->at.u - one.across->value;
      ++count;
    }
    return count > 0 ? sum / count : 0;
  }

  // A group is in the middle when its two outermost are as far from it.
  double centre_miss() const {
    double left = 1e9;
    double right = -1e9;
    for (const Framed& one : framed_) {
      const auto at = seen(one.eyes);
      if (!at) continue;
      left = std::min(left, at->at.u);
      right = std::max(right, at->at.u);
    }
    return left > right ? 0 : (left + right) / 2 - 0.5;
  }

  double down_miss() const {
    if (const std::optional<double> wanted = eyes_from_top()) {
      const Framed* first = sized() == nullptr ? &framed_.front() : sized();
      const auto at = seen(first->eyes);
      return at ? at->at.v - *wanted : 0;
    }
    double sum = 0;
    int count = 0;
    for (const Framed& one : framed_) {
      const auto at = seen(one.eyes);
      if (!at) continue;
      sum += at->at.v;
      ++count;
    }
    return count > 0 ? sum / count - eyes_down : 0;
  }

  Misses misses() const { return {across_miss(), down_miss()}; }

  // One Newton step in pan and tilt. The slopes are measured, so that a rolled camera needs no formula of its own.
  void turn() {
    for (int step = 0; step < 4; ++step) {
      const Misses now = misses();
      constexpr double small = 0.01;
      const Misses by_pan = turned_by(small, 0);
      const Misses by_tilt = turned_by(0, small);
      const double a = (by_pan.across - now.across) / small, b = (by_tilt.across - now.across) / small;
      const double c = (by_pan.down - now.down) / small, d = (by_tilt.down - now.down) / small;
      const double determinant = a * d - b * c;
      if (!(std::fabs(determinant) > 1e-12)) return;
      const double pan = std::clamp((b * now.down - d * now.across) / determinant, -20.0, 20.0);
      const double tilt = std::clamp((c * now.across - a * now.down) / determinant, -10.0, 10.0);
      camera_.pan = wrapped(camera_.pan + Degrees{pan});
      camera_.tilt = Degrees{std::clamp(camera_.tilt.value + tilt, -85.0, 85.0)};
    }
  }

  Misses turned_by(double pan, double tilt) {
    const CameraState kept = camera_;
    camera_.pan = camera_.pan + Degrees{pan};
    camera_.tilt = camera_.tilt + Degrees{tilt};
    const Misses result = misses();
    camera_ = kept;
    return result;
  }

  // ---- Lens and distance -------------------------------------------------------------------------------------------

  void set_size() {
    if (!freedom_.zooms && !freedom_.moves) return;
    if (const Framed* first = sized(); first != nullptr && first->size) {
      const double depth = depth_of(*first);
      const double height = frame_height_for(*first->size, first->stature).value;
      if (depth > 0.01) scale(height / (depth * camera_.gate_height.value / camera_.focal.value), *first);
    } else {
      scale(wider_by(), framed_.front());
    }
  }

  // How many times wider the picture must be. Two asked-for places fix it; else everyone need only be in it.
  double wider_by() const {
    double asked = 0;
    double shown = 0;
    for (const Framed& a : framed_) {
      for (const Framed& b : framed_) {
        const auto at_a = a.across ? seen(a.eyes) : std::nullopt;
        const auto at_b = b.across ? seen(b.eyes) : std::nullopt;
        if (!at_a || !at_b || b.across->value - a.across->value < 0.02) continue;
        asked += b.across->value - a.across->value;
        shown += at_b->at.u - at_a->at.u;
      }
    }
    if (asked > 0 && shown > 0.01) return std::clamp(shown / asked, 0.5, 2.0);
    double most = 0;
    for (const Framed& one : framed_) {
      const auto at = seen(one.eyes);
      if (at) most = std::max(most, std::fabs(at->at.u - 0.5));
    }
    return std::clamp(most / (0.5 - edge), 1.0, 2.0);
  }

  // The lens first, then the way along the line to the first subject, at the height it has.
  void scale(double wider, const Framed& subject) {
    if (!std::isfinite(wider) || wider <= 0) return;
    if (freedom_.zooms) {
      camera_.focal = Millimetres{std::clamp(camera_.focal.value / wider, shortest_focal, longest_focal)};
      return;
    }
    const Vec2 line = floor_of(camera_.at) - floor_of(subject.eyes);
    const double far = length(line);
    if (far < 1e-6) return;
    const double moved = std::clamp(far * wider, nearest, farthest);
    const Vec2 at = floor_of(subject.eyes) + unit(line) * moved;
    camera_.at = raised(at, camera_.at.z);
  }

  bool settled(const Pinhole& before) const {
    return std::fabs(before.pan.value - camera_.pan.value) < 1e-7 &&
           std::fabs(before.tilt.value - camera_.tilt.value) < 1e-7 &&
           std::fabs(before.focal.value - camera_.focal.value) < 1e-7 && length(before.at - camera_.at) < 1e-8;
  }

  // ---- What is left ------------------------------------------------------------------------------------------------

  double width_error() const {
    double worst = 0;
    for (const Framed& one : framed_) {
      if (!one.across) continue;
      const auto at = seen(one.eyes);
      worst = std::max(worst, at ? std::fabs(at->at.u - one.across->value) : 1.0);
    }
    return worst;
  }

  double size_error() const {
    double worst = 0;
    for (const Framed& one : framed_) {
      if (!one.size) continue;
      const double depth = depth_of(one);
      const double height = frame_height_for(*one.size, one.stature).value;
      const double shown = depth * camera_.gate_height.value / camera_.focal.value;
      worst = std::max(worst, depth > 0 && height > 0 ? std::fabs(shown / height - 1) : 1.0);
    }
    return worst;
  }

  CameraState camera_;
  const std::vector<Framed>& framed_;
  Freedom freedom_;
};

}  // namespace

FrameAnswer frame_for(const CameraState& now, const std::vector<Framed>& framed, Freedom freedom) {
  if (framed.empty()) return {now, 0, 0};
  return Framing(now, framed, freedom).solve();
}

}  // namespace lensward
