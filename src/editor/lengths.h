// Seconds and metres beside the lines, as the plan has them.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "plan/plan.h"

namespace lensward {

struct LengthNote {
  std::uint32_t at = 0;  // the byte behind which it stands
  std::string words;     // "3.4 s", "2.1 s, 2.35 m"
};

// How long each beat and each line of the file takes, and how far feet and cameras go on it. Nothing for a line that
// takes no time. In the order of the text.
std::vector<LengthNote> length_notes(const Plan& plan, std::int32_t file);

}  // namespace lensward
