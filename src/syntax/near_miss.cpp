#include "syntax/near_miss.h"

#include <algorithm>
#include <utility>

namespace lensward {
namespace {

// Read, but not offered.
constexpr std::string_view second_spellings[] = {"favor", "center", "color", "towards", "around", "background"};

// A slip of the hand seldom takes the first letter, unless it changes places with the second; `hits` is not `sits`.
bool begin_alike(std::string_view a, std::string_view b) { return a[0] == b[0] || (a[0] == b[1] && a[1] == b[0]); }

}  // namespace

// Optimal string alignment, with three rows of the table.
int edits_between(std::string_view a, std::string_view b) {
  std::vector<int> before(b.size() + 1), last(b.size() + 1), now(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    now[0] = static_cast<int>(i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      now[j] = std::min({last[j] + 1, now[j - 1] + 1, last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
      const bool exchanged = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (exchanged) now[j] = std::min(now[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, now);
  }
  return last[b.size()];
}

std::optional<std::string_view> nearest(std::string_view word, const std::vector<std::string_view>& candidates) {
  constexpr std::size_t longest = 40;
  if (word.size() < 2 || word.size() > longest) return std::nullopt;
  const auto alike = [word](std::string_view other) { return std::ranges::mismatch(word, other).in1 - word.begin(); };
  constexpr std::size_t long_word = 7;
  int best = word.size() < long_word ? 1 : 2;
  std::optional<std::string_view> found;
  for (const std::string_view candidate : candidates) {
    // One-letter candidates are an edit away from every short word.
    if (candidate.size() < 2 || candidate == word || !begin_alike(word, candidate)) continue;
    if (std::ranges::find(second_spellings, candidate) != std::end(second_spellings)) continue;
    const int edits = edits_between(word, candidate);
    if (edits > best || (found && edits == best && alike(candidate) <= alike(*found))) continue;
    best = edits;
    found = candidate;
  }
  return found;
}

}  // namespace lensward
