// Composition with the camera as the subject: where it must stand and aim so that people stand in the picture as told.
#pragma once

#include <optional>
#include <vector>

#include "base/words.h"
#include "plan/plan.h"

namespace lensward {

// One person or thing the picture is made for.
struct Framed {
  PersonId person;
  Vec3 eyes;
  Metres stature;
  std::optional<Share> across;  // asked-for place across the picture, 0 left edge .. 1 right edge
  std::optional<Sizing> size;
  std::optional<Share> headroom = {};  // frame heights left above the head; without a size only
};

// What the camera may change (by its rig): aim always; the focal length when `zooms`; place on the floor when `moves`.
struct Freedom {
  bool moves = false;
  bool zooms = false;
};

struct FrameAnswer {
  CameraState camera;
  double width_error = 0;  // worst, of the asked-for places, in frame widths
  double size_error = 0;   // worst, relative
};

// Uses freedom in the order of least disturbance: aim, then lens, then place along the line to the first subject.
// Requires at least one framed.
FrameAnswer frame_for(const CameraState& now, const std::vector<Framed>& framed, Freedom freedom);

}  // namespace lensward
