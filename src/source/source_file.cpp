#include "source/source_file.h"

#include <unicode/uchar.h>
#include <unicode/utf8.h>

#include <algorithm>

namespace lensward {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

struct CodePoint {
  UChar32 value = 0;  // negative: one byte that is not UTF-8
  std::size_t length = 1;
};

CodePoint code_point_at(std::string_view text, std::size_t at) {
  auto end = static_cast<std::int32_t>(at);
  UChar32 value = 0;
  U8_NEXT(text.data(), end, static_cast<std::int32_t>(text.size()), value);
  if (value < 0) return {value, 1};
  return {value, static_cast<std::size_t>(end) - at};
}

int cells_of(UChar32 value) {
  if (value < 0) return 1;
  if (u_iscntrl(value)) return 0;
  switch (u_charType(value)) {
    case U_NON_SPACING_MARK:
    case U_ENCLOSING_MARK:
    case U_FORMAT_CHAR:
      return 0;
    default:
      break;
  }
  // The vowels and finals of decomposed Hangul join the consonant before them.
  const auto hangul = u_getIntPropertyValue(value, UCHAR_HANGUL_SYLLABLE_TYPE);
  if (hangul == U_HST_VOWEL_JAMO || hangul == U_HST_TRAILING_JAMO) return 0;
  const auto width = u_getIntPropertyValue(value, UCHAR_EAST_ASIAN_WIDTH);
  return width == U_EA_WIDE || width == U_EA_FULLWIDTH ? 2 : 1;
}

}  // namespace

SourceFile::SourceFile(std::string name, std::string bytes) : name_(std::move(name)), bytes_(std::move(bytes)) {
  line_starts_.push_back(0);
  for (std::size_t at = bytes_.find('\n'); at != std::string::npos && at + 1 < bytes_.size();
       at = bytes_.find('\n', at + 1)) {
    line_starts_.push_back(static_cast<std::uint32_t>(at + 1));
  }
}

std::uint32_t SourceFile::line_start(int line) const { return line_starts_[static_cast<std::size_t>(line) - 1]; }

std::string_view SourceFile::line_text(int line) const {
  const std::size_t begin = line_start(line);
  const std::size_t end = line < line_count() ? line_start(line + 1) : bytes_.size();
  std::string_view text = std::string_view(bytes_).substr(begin, end - begin);
  if (text.ends_with('\n')) {
    text.remove_suffix(1);
    if (text.ends_with('\r')) text.remove_suffix(1);
  }
  return text;
}

Position SourceFile::position(std::uint32_t offset) const {
  const auto after = std::upper_bound(line_starts_.begin(), line_starts_.end(), offset);
  const int line = static_cast<int>(after - line_starts_.begin());
  const std::string_view text = line_text(line);
  const std::size_t wanted = std::min<std::size_t>(offset - line_start(line), text.size());
  std::size_t at = line == 1 && text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
  int column = 1;
  while (at < wanted) {
    at += code_point_at(text, at).length;
    // An offset within a character is that character's.
    if (at <= wanted) ++column;
  }
  return {line, column};
}

std::int32_t SourceSet::add(SourceFile file) {
  files_.push_back(std::move(file));
  return static_cast<std::int32_t>(files_.size()) - 1;
}

std::string_view SourceSet::text(Span span) const {
  const std::string_view bytes = file(span.file).bytes();
  const std::size_t begin = std::min<std::size_t>(span.begin, bytes.size());
  return bytes.substr(begin, std::max(span.begin, span.end) - span.begin);
}

int display_width(std::string_view utf8) {
  int width = 0;
  for (std::size_t at = 0; at < utf8.size();) {
    const CodePoint next = code_point_at(utf8, at);
    width += cells_of(next.value);
    at += next.length;
  }
  return width;
}

}  // namespace lensward
