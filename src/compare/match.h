// Which thing of one list is which of another.
#pragma once

#include <functional>
#include <utility>
#include <vector>

namespace lensward {

// Pairs of indices in order of both lists, as many as can be: the longest common subsequence under `same`.
std::vector<std::pair<int, int>> in_common(int before, int after, const std::function<bool(int, int)>& same);

// A matched pair, or one side alone (-1).
struct Pair {
  int before = -1, after = -1;
};

// Every index of both lists once, in order: those in common paired; between them those that are `alike`, in order; the
// rest alone.
std::vector<Pair> paired(int before, int after, const std::function<bool(int, int)>& same,
                         const std::function<bool(int, int)>& alike);

}  // namespace lensward
