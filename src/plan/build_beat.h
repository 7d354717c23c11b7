// One beat: its lines put on the clock, performed, and asked what they want of the eye.
#pragma once

#include <vector>

#include "plan/building.h"
#include "plan/intents.h"
#include "plan/scene_text.h"

namespace lensward {

// A line that runs on past its beat, to be held against the end of the scene.
struct RunsOn {
  Moment end;
  Span said_at;
};

// Adds the beat to the plan, from `top` on.
void build_beat(Building& building, const BeatText& text, Moment top, std::vector<WaitingWaiver>& waiting,
                std::vector<RunsOn>& running);

}  // namespace lensward
