#include "source/source_file.h"

#include <algorithm>
#include <utility>

#include "source/character.h"

namespace lensward {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

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
    at += character_at(text, at).length;
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

}  // namespace lensward
