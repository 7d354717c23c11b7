// The fourteen cues: each one function in cues/, giving how strongly one thing draws the eye on one ground, 0..1.
// Strengths are pure: the same moment gives the same strength. What a cue needs of the past is in Memory.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include "emphasis/tally.h"
#include "lens/view.h"
#include "plan/plan.h"

namespace lensward {

// What is remembered of one person or thing from earlier samples.
struct Memory {
  std::array<double, cue_count> fading{};  // last strengths of the movement cues, faded to this moment
  std::optional<Moment> last_seen;
  std::optional<Moment> new_since;  // first sight, while it is still news

  bool operator==(const Memory&) const = default;
};

// Everything of one moment that cues read. `people` is by PersonId, as is `seen`, which is null for those who are away
// or behind the lens.
struct Instant {
  const Plan& plan;
  const View& view;
  const std::vector<PersonState>& people;
  std::vector<const PersonSeen*> seen;
  std::vector<const Speech*> sounding;  // from 0.3 s before the first word to 1 s after the last
  Moment picture_since;                 // the start of the scene or the last cut
  CameraState soon;                     // the camera on air 0.1 s later
  Share largest_head{0};
  Nits brightest_face;
};

struct CueInput {
  const Instant& now;
  Target target;
  const PersonSeen* person = nullptr;  // exactly one of these two is set
  const ThingSeen* thing = nullptr;
  const Memory& memory;
};

double voice(const CueInput& in);
double spoken_to(const CueInput& in);
double near_lens(const CueInput& in);
double near_light(const CueInput& in);
double sharp(const CueInput& in);
double body_moves(const CueInput& in);
double hands_move(const CueInput& in);
double eyes_move(const CueInput& in);
double centre(const CueInput& in);
double body_to_lens(const CueInput& in);
double apart(const CueInput& in);
double looked_at(const CueInput& in);
double camera_move(const CueInput& in);
double newness(const CueInput& in);

// ---- Shared between cues -----------------------------------------------------------------------------------------

// Movement fades over this time after it stops, and newly begun movement counts above going movement for as long.
inline constexpr Milliseconds movement_fades{800};

// 1 at 0 degrees, .85 at 45, .55 at 90, .25 at 135, .1 at 180; straight between. The angle's sign does not matter.
double turned_to_lens(Degrees angle);
// How plainly a face can be read, 0..1: visible × size × turn × sharp.
double plainness(const Instant& now, const PersonSeen& person);
// 1 up to no time passed, falling straight to 0 over `over`.
double falling(Milliseconds passed, Milliseconds over);
// 1 at the onset of a movement, falling to 0.6 while it goes on.
double onset(Milliseconds going_on);
// The blur disc against the two limits: 1 within the sharp circle, 0 from 6 % of a height (in the picture) on.
double sharpness(const Instant& now, Millimetres blur, Share height);
// Height in the picture, as a share of the frame's height: of the head, or of a thing's visible part.
Share height_in_picture(const CueInput& in);

}  // namespace lensward
