#include "mend/statement.h"

#include <algorithm>
#include <array>
#include <utility>

namespace lensward {
namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 4> quotes{
    {{"\"", "\""}, {"“", "”"}, {"«", "»"}, {"「", "」"}}};

// Past the quoted words that begin here; `at` itself when none do.
std::size_t past_quote(std::string_view line, std::size_t at) {
  for (const auto& [open, close] : quotes) {
    if (!line.substr(at).starts_with(open)) continue;
    const std::size_t end = line.find(close, at + open.size());
    return end == std::string_view::npos ? line.size() : end + close.size();
  }
  return at;
}

}  // namespace

std::string without_speech(std::string_view line) {
  std::string bare(line);
  for (std::size_t at = 0; at < line.size();) {
    std::size_t end = past_quote(line, at);
    if (line.substr(at).starts_with("--")) end = line.size();
    std::fill(bare.begin() + static_cast<std::ptrdiff_t>(at), bare.begin() + static_cast<std::ptrdiff_t>(end), '"');
    at = std::max(end, at + 1);
  }
  return bare;
}

std::optional<PointTold> point_told(std::string_view line) {
  constexpr std::string_view closing = ") m";
  const std::string bare = without_speech(line);
  const std::size_t begin = bare.find('(');
  const std::size_t end = begin == std::string::npos ? begin : bare.find(closing, begin);
  return end == std::string::npos ? std::nullopt : std::optional(PointTold{begin, end + closing.size()});
}

std::string cue_clause(std::string_view line) {
  const std::string bare = without_speech(line);
  std::size_t begin = std::string::npos;
  for (const char* word : {", on ", ", after ", ", as ", ", midway ", ", from ", ", while "}) {
    begin = std::min(begin, bare.find(word));
  }
  if (begin == std::string::npos) return {};
  const std::size_t comment = [&] {
    for (std::size_t at = 0; at < line.size(); at = std::max(past_quote(line, at), at + 1)) {
      if (line.substr(at).starts_with("--")) return at;
    }
    return line.size();
  }();
  const std::size_t end = std::min({bare.find(", ", begin + 1), comment, line.size()});
  const std::size_t last = line.find_last_not_of(" \t\r", end - 1);
  return std::string(line.substr(begin, last + 1 - begin));
}

}  // namespace lensward
