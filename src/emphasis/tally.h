// Who has the eye, by how much and on what grounds.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "base/units.h"
#include "lens/view.h"
#include "plan/plan.h"

namespace lensward {

// The cues, in the order reports list them. Each is one file of emphasis/cues.
enum class CueKind {
  voice,
  spoken_to,
  near_lens,
  near_light,
  sharp,
  body_moves,
  hands_move,
  eyes_move,
  centre,
  body_to_lens,
  apart,
  looked_at,
  camera_move,
  newness,
};
inline constexpr int cue_count = 14;
const char* name_of(CueKind cue);  // "voice", "near lens", as reports print it

// One person's or thing's reckoning at one moment.
// points = gate × Σ weight × strength, 0..100, the weights adding to 100 (docs/model.md).
struct Standing {
  Target target;
  std::array<double, cue_count> strength{};                // 0..1
  std::array<Points, cue_count> contribution{};            // gate × weight × strength
  double gate_visible = 0, gate_size = 0, gate_light = 0;  // 0..1; the gate is their product
  Points points;
  Share share{0};  // of the points of all in frame at that moment

  bool operator==(const Standing&) const = default;
};

struct Sample {
  Moment moment;
  CameraId camera;
  std::vector<Standing> standings;  // in frame or not; people in the stage's order, then things
  Target leader;                    // most points at this moment; nothing when nobody has any
  Target holder;                    // who has the eye, with its stickiness

  bool operator==(const Sample&) const = default;
};

// Attention over the whole scene, sampled at least 12 times a second and at every turning point of the plan.
struct Attention {
  std::array<Points, cue_count> weights{};
  std::vector<Sample> samples;
  std::vector<View> views;  // the view behind each sample
};

// The standing of a target in a sample, or null.
const Standing* standing_of(const Sample& sample, const Target& target);
// The most points of anyone but `of`; 0 when there is nobody else. `rival` is set when given.
Points best_rival(const Sample& sample, const Target& of, Target* rival = nullptr);

}  // namespace lensward
