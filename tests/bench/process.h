// Whole processes, timed from outside.
#pragma once

#include <string>
#include <vector>

namespace lensward::bench {

struct ProcessCost {
  double wall_seconds = 0;
  double cpu_seconds = 0;  // user and system
};

// Runs a program with its output thrown away and waits for it. A program that cannot be run costs nothing and is
// reported by `ran`.
ProcessCost run_process(const std::vector<std::string>& words, bool& ran);

}  // namespace lensward::bench
