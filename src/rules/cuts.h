// The cuts of a scene with the pictures on both sides.
#pragma once

#include <vector>

#include "rules/rule.h"

namespace lensward {

struct CutSeen {
  const View* before = nullptr;  // the last picture of the camera before, never null
  const View* after = nullptr;   // the first of the next one, never null
  Span said_at;
  int beat = -1;
};

// In order; the camera on air at the start is no cut, nor is one to the camera that is on air.
std::vector<CutSeen> cuts_of(const Checked& checked);

// Clear of the frame's edge and of what stands before it, more than half of the head.
bool is_plain(const PersonSeen& seen);

}  // namespace lensward
