// One moment's tally, and who keeps the eye from one moment to the next.
#pragma once

#include <array>
#include <optional>
#include <utility>
#include <vector>

#include "emphasis/cues.h"
#include "emphasis/tally.h"

namespace lensward {

// What the eye remembers between two samples.
struct EyeMemory {
  std::vector<Memory> people;  // by PersonId; empty as a scene begins
  std::vector<std::pair<Target, Memory>> things;
  std::optional<Moment> last;  // the last sample's
  CameraId camera;
  Moment picture_since;
  Target holder;
  std::optional<Moment> challenged_since;

  bool operator==(const EyeMemory&) const = default;
};

// The same, with times that are so much later; what was before 0 was at 0. Requires that 0 is long enough before the
// next sample for that to make no difference: 5 s.
EyeMemory later(EyeMemory memory, Milliseconds by);

// Reckons samples in order of time, carrying what cues and the eye remember.
class Reckoner {
 public:
  explicit Reckoner(const Plan& plan, EyeMemory memory = {});

  // Requires a moment not before the last one's, and a state for every person of the plan. `soon` is the camera on
  // air 0.1 s later.
  Sample reckon(const View& view, const std::vector<PersonState>& people, const CameraState& soon);
  // The same with people and camera as the plan has them.
  Sample reckon(const View& view);

  const std::array<Points, cue_count>& weights() const { return weights_; }
  const EyeMemory& memory() const { return eye_; }

 private:
  Memory& memory_of(const Target& target);
  Standing stand(const CueInput& in, Memory& memory);
  void remember(const CueInput& in, const Standing& standing, Memory& memory);
  Target hold(const Sample& sample, bool new_picture);

  const Plan& plan_;
  std::array<Points, cue_count> weights_;
  EyeMemory eye_;
};

}  // namespace lensward
