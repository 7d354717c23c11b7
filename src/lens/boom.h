// Where a microphone on a boom can be: the nearest place to a speaking mouth that the picture does not show.
#pragma once

#include <optional>

#include "plan/plan.h"

namespace lensward {

struct Boom {
  enum class From { over, below, frame_left, frame_right };
  Metres distance;  // from the mouth
  From from = From::over;
};
// "over", "frame left".
const char* spelling(Boom::From from);

// Farther than this from the mouth a wire is worth having ready, and then needed; common practice, no source.
inline constexpr Metres wire_ready_beyond{1.0}, wire_beyond{1.5};

// Outside the picture and a rim round it, inside the room, clear of furniture and of each hard lamp's way to a face, at
// the hardest of the line's begin, middle and end. Nothing: there is no such place within 3 m. The pole has no shadow.
// Requires a plan with a camera, and a speaker who is present.
std::optional<Boom> boom_for(const Plan& plan, const Speech& speech);

}  // namespace lensward
