#include "syntax/could_follow.h"

#include <algorithm>
#include <string>

#include "syntax/reading.h"

namespace lensward {
namespace {

constexpr std::size_t longest_line = 4000;
// No rule takes it but those for comments and quotations, which take everything.
constexpr char stopper = '\x01';

}  // namespace

std::vector<CouldFollow> could_follow(std::string_view line) {
  if (line.size() > longest_line) return {};
  const std::string stopped = std::string(line) + stopper;
  Tree unused;
  const auto stop = LineReader(stopped).read(0, static_cast<std::uint32_t>(stopped.size()), unused);
  std::vector<CouldFollow> all;
  // The blanks before a token belong to it, so reading stops behind them.
  if (!stop || stop->at < line.size()) return all;
  for (const Expected& expected : stop->expected) {
    const CouldFollow next{expected.text, expected.literal};
    if (std::ranges::find(all, next) == all.end()) all.push_back(next);
  }
  return all;
}

}  // namespace lensward
