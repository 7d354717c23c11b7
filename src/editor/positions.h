// Places as editors count them: lines and characters from 0, characters in bytes of UTF-8 or units of UTF-16.
#pragma once

#include <compare>
#include <cstdint>
#include <string_view>
#include <vector>

namespace lensward {

enum class Columns { utf8, utf16 };

struct Caret {
  std::int64_t line = 0, character = 0;
  auto operator<=>(const Caret&) const = default;
};

struct CaretRange {
  Caret begin, end;
};

// The lines of a text. They end at LF, CRLF or CR alone (Language Server Protocol 3.17, "Text Documents"), so a CR
// within a line of ours begins another of theirs.
class TextLines {
 public:
  // The text must outlive it.
  TextLines(std::string_view text, Columns columns);

  // The byte it stands for. A caret behind the end of its line is the end of the line, behind the last line the
  // end of the text, within a character its beginning.
  std::uint32_t offset(Caret caret) const;
  // Past the end counts as the end; within a character counts as its beginning.
  Caret caret(std::uint32_t offset) const;
  CaretRange range(std::uint32_t begin, std::uint32_t end) const { return {caret(begin), caret(end)}; }
  std::int64_t count() const { return static_cast<std::int64_t>(starts_.size()); }

 private:
  // Without its end.
  std::string_view line_text(std::size_t line) const;

  std::string_view text_;
  Columns columns_;
  std::vector<std::uint32_t> starts_;
};

}  // namespace lensward
