// The set-ups of coverage, each told once.
#pragma once

#include <vector>

#include "coverage/coverage.h"

namespace lensward {

// The master first, then singles and over-shoulders by when they are first wanted, inserts last.
std::vector<SetUp> set_ups_of(const Plan& plan, const std::vector<Exchange>& exchanges);

}  // namespace lensward
