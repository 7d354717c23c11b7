#include "editor/positions.h"

#include <algorithm>

#include "source/character.h"

namespace lensward {
namespace {

// Characters beyond the basic plane take two units of UTF-16.
std::int64_t units_of(Character character, Columns columns) {
  if (columns == Columns::utf8) return static_cast<std::int64_t>(character.length);
  return character.code > 0xFFFF ? 2 : 1;
}

}  // namespace

TextLines::TextLines(std::string_view text, Columns columns) : text_(text), columns_(columns), starts_{0} {
  for (std::size_t at = text.find_first_of("\r\n"); at != std::string_view::npos; at = text.find_first_of("\r\n", at)) {
    at += text.substr(at).starts_with("\r\n") ? 2 : 1;
    starts_.push_back(static_cast<std::uint32_t>(at));
  }
}

std::string_view TextLines::line_text(std::size_t line) const {
  const std::size_t begin = starts_[line];
  const std::size_t end = line + 1 < starts_.size() ? starts_[line + 1] : text_.size();
  const std::string_view whole = text_.substr(begin, end - begin);
  return whole.substr(0, std::min(whole.find_first_of("\r\n"), whole.size()));
}

std::uint32_t TextLines::offset(Caret caret) const {
  if (caret.line < 0) return 0;
  if (caret.line >= count()) return static_cast<std::uint32_t>(text_.size());
  const std::string_view line = line_text(static_cast<std::size_t>(caret.line));
  std::size_t at = 0;
  std::int64_t left = caret.character;
  while (at < line.size()) {
    const Character next = character_at(line, at);
    left -= units_of(next, columns_);
    if (left < 0) break;
    at += next.length;
  }
  return starts_[static_cast<std::size_t>(caret.line)] + static_cast<std::uint32_t>(at);
}

Caret TextLines::caret(std::uint32_t offset) const {
  offset = std::min(offset, static_cast<std::uint32_t>(text_.size()));
  const auto next = std::ranges::upper_bound(starts_, offset);
  const auto line = static_cast<std::size_t>(next - starts_.begin()) - 1;
  const std::string_view text = line_text(line);
  const std::size_t wanted = std::min<std::size_t>(offset - starts_[line], text.size());
  std::int64_t character = 0;
  for (std::size_t at = 0; at < wanted;) {
    const Character one = character_at(text, at);
    at += one.length;
    if (at <= wanted) character += units_of(one, columns_);
  }
  return {static_cast<std::int64_t>(line), character};
}

}  // namespace lensward
