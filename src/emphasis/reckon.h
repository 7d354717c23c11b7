// One moment's tally, and who keeps the eye from one moment to the next.
#pragma once

#include <utility>
#include <vector>

#include "emphasis/cues.h"
#include "emphasis/tally.h"

namespace lensward {

// Reckons samples in order of time, carrying what cues and the eye remember.
class Reckoner {
 public:
  explicit Reckoner(const Plan& plan);

  // Requires a moment not before the last one's, and a state for every person of the plan. `soon` is the camera on
  // air 0.1 s later.
  Sample reckon(const View& view, const std::vector<PersonState>& people, const CameraState& soon);
  // The same with people and camera as the plan has them.
  Sample reckon(const View& view);

  const std::array<Points, cue_count>& weights() const { return weights_; }

 private:
  Memory& memory_of(const Target& target);
  Standing stand(const CueInput& in, Memory& memory);
  void remember(const CueInput& in, const Standing& standing, Memory& memory);
  Target hold(const Sample& sample, bool new_picture);

  const Plan& plan_;
  std::array<Points, cue_count> weights_;
  std::vector<Memory> people_;
  std::vector<std::pair<Target, Memory>> things_;
  std::optional<Moment> last_;
  CameraId camera_;
  Moment picture_since_;
  Target holder_;
  std::optional<Moment> challenged_since_;
};

}  // namespace lensward
