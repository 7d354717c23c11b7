// Several areas -> one mark: the floor they share, and the best free point of it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plan/areas.h"

namespace lensward {

// All that one line says of where, each phrase with the areas it may mean, the likeliest first.
struct Phrases {
  std::vector<std::vector<Area>> phrases;
  std::string words;
  Span span;
};

struct Mark2d {
  Vec2 at;
  Origin origin = Origin::settled;
  Outline area;              // the floor the areas share; empty when exact
  std::vector<Area> chosen;  // one of each phrase
};

struct Spread {
  int index = 0, count = 1;
  double apart = 0.9;
};

// Nothing when the phrases do not meet or leave no free floor; a `place.` finding says which. A place said to the point
// stands even where something is in its way, with the finding.
std::optional<Mark2d> settle_phrases(const Phrases& phrases, const Stage& stage, const Placing& placing,
                                     const Spread& spread, Findings& findings);

}  // namespace lensward
