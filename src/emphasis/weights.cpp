#include "emphasis/weights.h"

#include <algorithm>
#include <string>

namespace lensward {
namespace {

// A craftsman's starting point and not a law of vision. What evidence there is orders them (docs/model.md, "Emphasis"):
// speech and faces first, light and centre last.
constexpr std::array<double, cue_count> starting_weights{18, 7, 10, 8, 12, 6, 4, 2, 7, 6, 6, 6, 4, 4};

std::optional<double> told_weight(const Settings& settings, CueKind cue) {
  std::string name = name_of(cue);
  if (const auto told = settings.weights.find(name); told != settings.weights.end()) return told->second;
  std::replace(name.begin(), name.end(), ' ', '-');
  if (const auto told = settings.weights.find(name); told != settings.weights.end()) return told->second;
  return std::nullopt;
}

}  // namespace

Points default_weight(CueKind cue) { return Points{starting_weights[static_cast<std::size_t>(cue)]}; }

std::array<Points, cue_count> weights_of(const Settings& settings) {
  std::array<Points, cue_count> weights;
  double sum = 0;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    const auto cue = static_cast<CueKind>(i);
    weights[i] = Points{std::max(0.0, told_weight(settings, cue).value_or(default_weight(cue).value))};
    sum += weights[i].value;
  }
  if (!(sum > 0)) {
    for (std::size_t i = 0; i < weights.size(); ++i) weights[i] = default_weight(static_cast<CueKind>(i));
    return weights;
  }
  for (Points& weight : weights) weight = weight * (100 / sum);
  return weights;
}

}  // namespace lensward
