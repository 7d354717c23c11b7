// The writer's files, held whole and never changed, and the way from a byte to a line and column.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "source/span.h"

namespace lensward {

// Where a byte stands, for people: both count from 1. Columns count Unicode code points; a tab is one, a leading
// byte-order mark is none. Bytes that are not UTF-8 count one each.
struct Position {
  int line = 1;
  int column = 1;

  constexpr bool operator==(const Position&) const = default;
};

// One file's name and bytes. Lines end at LF or CRLF; the last may lack an end.
class SourceFile {
 public:
  SourceFile(std::string name, std::string bytes);

  const std::string& name() const { return name_; }
  std::string_view bytes() const { return bytes_; }
  int line_count() const { return static_cast<int>(line_starts_.size()); }
  // Requires 1 <= line <= line_count(). Without its line end.
  std::string_view line_text(int line) const;
  std::uint32_t line_start(int line) const;
  // Any offset is accepted; past the end counts as the end.
  Position position(std::uint32_t offset) const;

 private:
  std::string name_;
  std::string bytes_;
  std::vector<std::uint32_t> line_starts_;
};

// All files of one run. Files are added and never removed, so an index stays good.
class SourceSet {
 public:
  std::int32_t add(SourceFile file);
  int size() const { return static_cast<int>(files_.size()); }
  const SourceFile& file(std::int32_t index) const { return files_[static_cast<std::size_t>(index)]; }
  std::string_view text(Span span) const;
  Position begin_of(Span span) const { return file(span.file).position(span.begin); }
  Position end_of(Span span) const { return file(span.file).position(span.end); }

 private:
  std::vector<SourceFile> files_;
};

// Terminal cells taken by UTF-8 text: wide characters two, combining marks none (ICU's East Asian width property).
int display_width(std::string_view utf8);

}  // namespace lensward
