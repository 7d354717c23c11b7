#include "syntax/declared_names.h"

#include <algorithm>

#include "grammar/letters.hpp"
#include "syntax/broken.h"
#include "syntax/near_miss.h"

namespace lensward {
namespace {

constexpr std::string_view declaring[] = {"people", "person", "group",     "crowd", "story", "camera", "lens",
                                          "light",  "prop",   "furniture", "wall",  "door",  "window", "area"};

bool is_name(std::string_view token) {
  return !token.empty() &&
         (grammar::is_upper(token.front()) || grammar::wide_size(token.data(), token.data() + token.size()) > 0);
}

// Takes the tokens of one line, one after another.
class Tokens {
 public:
  explicit Tokens(std::string_view line) : line_(line) {}
  std::string_view next() {
    const char* const from = grammar::past_blanks(line_.data() + at_, line_.data() + line_.size());
    at_ = static_cast<std::uint32_t>(from - line_.data());
    const std::string_view token = token_at(line_, at_, static_cast<std::uint32_t>(line_.size()));
    at_ += static_cast<std::uint32_t>(token.size());
    return token;
  }

 private:
  std::string_view line_;
  std::uint32_t at_ = 0;
};

void read_line(std::string_view line, std::vector<DeclaredName>& names) {
  Tokens tokens(line);
  const std::string_view kind = tokens.next();
  if (std::ranges::find(declaring, kind) == std::end(declaring)) return;
  std::string_view token = tokens.next();
  if (token == "the") token = tokens.next();
  if (!is_name(token)) return;
  names.push_back({kind, token, {}});
  if (kind != "people") {
    if (tokens.next() == ",") names.back().piece = tokens.next();
    return;
  }
  for (token = tokens.next(); !token.empty(); token = tokens.next()) {
    if (is_name(token)) names.push_back({kind, token, {}});
  }
}

// Whether one of the words that hyphens join is the word.
bool has_part(std::string_view name, std::string_view word) {
  const std::string parts = '-' + lowered(name) + '-';
  return parts.find('-' + std::string(word) + '-') != std::string::npos;
}

std::vector<std::string> nearest_of(const std::vector<DeclaredName>& names, std::string_view word) {
  std::vector<std::string> small;
  for (const DeclaredName& declared : names) small.push_back(lowered(declared.name));
  const auto near = nearest(word, {small.begin(), small.end()});
  if (!near) return {};
  const auto index = static_cast<std::size_t>(std::ranges::find(small, *near) - small.begin());
  return {std::string(names[index].name)};
}

}  // namespace

std::vector<DeclaredName> declared_names(std::string_view bytes) {
  constexpr std::size_t most = 32768;
  std::vector<DeclaredName> names;
  bytes = bytes.substr(0, most);
  while (!bytes.empty()) {
    const std::string_view line = bytes.substr(0, bytes.find('\n'));
    if (line.starts_with("beat ") || line.starts_with("opening")) break;
    const LineText text{line, 0, 0, static_cast<std::uint32_t>(line.size())};
    if (!refuse(text)) read_line(line.substr(0, line.find('\r')), names);
    bytes.remove_prefix(std::min(bytes.size(), line.size() + 1));
  }
  return names;
}

std::vector<std::string> names_meant(std::string_view bytes, std::string_view word) {
  constexpr std::size_t most = 3;
  // `a` is no camera.
  if (word.size() < 2) return {};
  const std::vector<DeclaredName> names = declared_names(bytes);
  std::vector<std::string> meant;
  for (const DeclaredName& declared : names) {
    if (lowered(declared.name) == word) return {std::string(declared.name)};
    const bool fits = declared.kind == word || declared.piece == word || has_part(declared.name, word);
    if (fits && meant.size() < most) meant.emplace_back(declared.name);
  }
  return meant.empty() ? nearest_of(names, word) : meant;
}

std::string lowered(std::string_view word) {
  std::string low(word);
  for (char& c : low) {
    if (grammar::is_upper(c)) c = static_cast<char>(c - 'A' + 'a');
  }
  return low;
}

}  // namespace lensward
