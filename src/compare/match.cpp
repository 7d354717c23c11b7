#include "compare/match.h"

#include <algorithm>

namespace lensward {
namespace {

// Pairs what is alike in the gap between two pairs in common, then adds the rest alone.
void pair_gap(Pair from, Pair to, const std::function<bool(int, int)>& alike, std::vector<Pair>& pairs) {
  const auto inner = in_common(to.before - from.before, to.after - from.after,
                               [&](int a, int b) { return alike(from.before + a, from.after + b); });
  Pair next = from;
  const auto alone_until = [&](int before, int after) {
    while (next.before < before) pairs.push_back({next.before++, -1});
    while (next.after < after) pairs.push_back({-1, next.after++});
  };
  for (const auto& [a, b] : inner) {
    alone_until(from.before + a, from.after + b);
    pairs.push_back({next.before++, next.after++});
  }
  alone_until(to.before, to.after);
}

}  // namespace

std::vector<std::pair<int, int>> in_common(int before, int after, const std::function<bool(int, int)>& same) {
  const auto rows = static_cast<std::size_t>(before), columns = static_cast<std::size_t>(after);
  std::vector<std::vector<int>> best(rows + 1, std::vector<int>(columns + 1, 0));
  std::vector<std::vector<bool>> equal(rows, std::vector<bool>(columns, false));
  for (std::size_t a = rows; a-- > 0;) {
    for (std::size_t b = columns; b-- > 0;) {
      equal[a][b] = same(static_cast<int>(a), static_cast<int>(b));
      best[a][b] = equal[a][b] ? best[a + 1][b + 1] + 1 : std::max(best[a + 1][b], best[a][b + 1]);
    }
  }
  std::vector<std::pair<int, int>> pairs;
  for (std::size_t a = 0, b = 0; a < rows && b < columns;) {
    if (equal[a][b]) {
      pairs.emplace_back(static_cast<int>(a++), static_cast<int>(b++));
    } else if (best[a + 1][b] >= best[a][b + 1]) {
      ++a;
    } else {
      ++b;
    }
  }
  return pairs;
}

std::vector<Pair> paired(int before, int after, const std::function<bool(int, int)>& same,
                         const std::function<bool(int, int)>& alike) {
  std::vector<Pair> pairs;
  Pair from{0, 0};
  for (const auto& [a, b] : in_common(before, after, same)) {
    pair_gap(from, {a, b}, alike, pairs);
    pairs.push_back({a, b});
    from = {a + 1, b + 1};
  }
  pair_gap(from, {before, after}, alike, pairs);
  return pairs;
}

}  // namespace lensward
