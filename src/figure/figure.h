// A person as solids: parametric from stature, posture, turn and what the hands do.
#pragma once

#include <optional>
#include <vector>

#include "base/units.h"
#include "base/vec.h"
#include "base/words.h"
#include "figure/solid.h"

namespace lensward {

// Everything that shapes one body at one moment.
struct Pose {
  Metres stature{1.7};
  Posture posture = Posture::standing;
  Vec2 at;            // between the feet; sitting: the middle of the seat
  Metres seat{0};     // height sat, leaned or lain on; 0: the floor
  Degrees facing;     // bearing of the chest
  Vec3 looks_at;      // the head turns toward it as far as a neck goes, the eyes the rest
  double stride = 0;  // phase of a walk, 0..1; standing still is 0
  bool walking = false;
  std::optional<Vec3> left_hand_at, right_hand_at;  // where a hand reaches; as far as the arm goes
  int look = 0;                                     // picks hair and cut of dress, so that people are told apart
  Tone dress = Tone::mid;

  bool operator==(const Pose&) const = default;
};

struct PersonFigure {
  std::vector<Solid> solids;
  std::vector<std::vector<Vec3>> seams;  // collars, lapels, plackets: lines on the surface of the clothes, for drawing
  Vec3 eyes;                             // between the eyes
  Vec3 head_middle;
  Vec3 crown, chin;
  Vec3 head_up;         // unit, from chin to crown
  Vec3 face_direction;  // unit, where the nose points
  Vec3 gaze_direction;  // unit, where the eyes point
};

// Head turned within ±80 degrees of the chest and eyes within ±35 of the head (facts: Ferrario 2002; LaValle). Requires
// stature > 0. Every number is finite.
PersonFigure figure_of(const Pose& pose);
// Where that figure has its eyes, without clothing it.
Vec3 eyes_of(const Pose& pose);

// A point of the face's surface, for what is drawn on it: `across` to the face's own right and `up` from midway between
// chin and crown, both in metres. Beyond the face's edge it is the edge.
Vec3 on_face(const PersonFigure& figure, Metres stature, Metres across, Metres up);

}  // namespace lensward
