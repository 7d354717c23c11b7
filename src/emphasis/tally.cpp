#include "emphasis/tally.h"

namespace lensward {

const char* name_of(CueKind cue) {
  static constexpr std::array<const char*, cue_count> names{
      "voice",     "spoken to", "near lens",    "near light", "sharp",     "body moves",  "hands move",
      "eyes move", "centre",    "body to lens", "apart",      "looked at", "camera move", "newness",
  };
  return names[static_cast<std::size_t>(cue)];
}

const Standing* standing_of(const Sample& sample, const Target& target) {
  for (const Standing& standing : sample.standings) {
    if (standing.target == target) return &standing;
  }
  return nullptr;
}

Points best_rival(const Sample& sample, const Target& of, Target* rival) {
  Points best{0};
  if (rival != nullptr) *rival = Target{};
  for (const Standing& standing : sample.standings) {
    if (standing.target == of || standing.points <= best) continue;
    best = standing.points;
    if (rival != nullptr) *rival = standing.target;
  }
  return best;
}

}  // namespace lensward
