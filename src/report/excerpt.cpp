#include "report/excerpt.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "source/character.h"

namespace lensward {
namespace {

constexpr int widest_excerpt = 96;
constexpr int cells_before_span = 32;
constexpr int tab_stop = 4;
// No more of a line than this is looked at on either side of the span's begin, so that a line of megabytes costs
// nothing.
constexpr std::size_t reach = 1024;

// A character as drawn.
struct Cell {
  std::string drawn;
  int begin = 0, end = 0;
  std::size_t byte = 0;  // in the line
};

// The part of a line about the span, begin and end of the span in bytes of that part.
struct Part {
  std::string_view text;
  std::size_t begin = 0, end = 0;
  bool cut_before = false, cut_after = false;
};

bool is_trail(char byte) { return (static_cast<unsigned char>(byte) & 0xC0) == 0x80; }

Part part_about(std::string_view line, std::size_t begin, std::size_t end) {
  std::size_t from = begin > reach ? begin - reach : 0;
  while (from > 0 && from < begin && is_trail(line[from])) ++from;
  std::size_t to = std::min(line.size(), begin + reach);
  while (to < line.size() && to > begin && is_trail(line[to])) --to;
  return {line.substr(from, to - from), begin - from, std::min(end, to) - from, from > 0, to < line.size()};
}

std::vector<Cell> cells_in(std::string_view text) {
  std::vector<Cell> cells;
  int column = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Character next = character_at(text, at);
    Cell cell{std::string(text.substr(at, next.length)), column, column + cells_of(next), at};
    if (next.code == '\t') {
      cell.end = column + tab_stop - column % tab_stop;
      cell.drawn.assign(static_cast<std::size_t>(cell.end - column), ' ');
    } else if (next.code == 0xFEFF) {
      cell.drawn.clear();
    } else if (is_unprintable(next)) {
      cell.drawn = "\xEF\xBF\xBD";
      cell.end = column + 1;
    }
    column = cell.end;
    at += next.length;
    cells.push_back(std::move(cell));
  }
  return cells;
}

// The column of a byte; past the last character, the column after it.
int column_of(const std::vector<Cell>& cells, std::size_t byte) {
  const auto cell = std::find_if(cells.begin(), cells.end(), [&](const Cell& c) { return c.byte >= byte; });
  if (cell != cells.end()) return cell->begin;
  return cells.empty() ? 0 : cells.back().end;
}

std::string marks(int begin, int end, bool caret) {
  std::string line(static_cast<std::size_t>(std::max(begin, 0)), ' ');
  line.append(static_cast<std::size_t>(std::max(end - begin, 1)), '~');
  if (caret) line[static_cast<std::size_t>(std::max(begin, 0))] = '^';
  return line;
}

std::string gutter(const std::string& number) {
  return std::string(number.size() < 5 ? 5 - number.size() : 0, ' ') + number + " | ";
}

}  // namespace

Excerpt excerpt_of(const SourceSet& sources, Span span, bool caret) {
  const SourceFile& file = sources.file(span.file);
  const int line = file.position(span.begin).line;
  const std::string_view whole = file.line_text(line);
  const std::size_t line_start = file.line_start(line);
  const std::size_t begin = std::min(span.begin - line_start, whole.size());
  const std::size_t end =
      std::clamp<std::size_t>(span.end > line_start ? span.end - line_start : 0, begin, whole.size());
  const Part part = part_about(whole, begin, end);

  const std::vector<Cell> cells = cells_in(part.text);
  const int width = cells.empty() ? 0 : cells.back().end;
  const int mark_begin = column_of(cells, part.begin);
  const int mark_end = std::max(column_of(cells, part.end), mark_begin);
  int window_begin = 0;
  if (width > widest_excerpt || part.cut_before) {
    window_begin = std::clamp(mark_begin - cells_before_span, 0, std::max(width - widest_excerpt, 0));
  }
  const int window_end = window_begin + widest_excerpt;

  std::string drawn;
  bool cut_before = part.cut_before, cut_after = part.cut_after;
  int shown_from = -1, shown_to = 0;
  for (const Cell& cell : cells) {
    if (cell.begin < window_begin) {
      cut_before = true;
    } else if (cell.end > window_end) {
      cut_after = true;
    } else {
      if (shown_from < 0) shown_from = cell.begin;
      shown_to = cell.end;
      drawn += cell.drawn;
    }
  }
  const int shift = (cut_before ? 1 : 0) - std::max(shown_from, 0);
  const std::string number = std::to_string(line);
  const std::string text = (cut_before ? "…" : "") + drawn + (cut_after ? "…" : "");
  return {gutter(number) + text,
          gutter("") + marks(mark_begin + shift, std::min(mark_end, std::max(shown_to, mark_begin)) + shift, caret)};
}

}  // namespace lensward
