// A beat on its own: so much of a plan as decides what is seen of the beat, and nothing that could change without it.
#pragma once

#include <vector>

#include "plan/plan.h"

namespace lensward {

// How much before a beat and after it belongs to it: what has just begun or is about to.
inline constexpr Milliseconds before_a_beat{1000}, after_a_beat{300};

struct BeatAlone {
  // Its one beat is the beat. Stage and settings are the scene's; of all else there is what is under way from
  // `before_a_beat` to `after_a_beat`, without the places in the text and what only pages print. What is over by then
  // has always been so.
  Plan plan;
  Milliseconds later;  // by which its times are later than the scene's
  // By index in its plan: the index in the scene's.
  std::vector<int> intents, stories, marks;
};

// States of people, cameras and lamps are those of the scene from `before_a_beat` to `after_a_beat`, bit for bit. Two
// beats that differ in nothing but when they are played give the same value. Requires a beat of the scene.
BeatAlone beat_alone(const Plan& scene, int beat);

}  // namespace lensward
