#include "mend/edited_text.h"

#include <algorithm>

namespace lensward {
namespace {

void put_in_order(std::vector<TextEdit>& edits) {
  std::stable_sort(edits.begin(), edits.end(),
                   [](const TextEdit& a, const TextEdit& b) { return a.where.begin < b.where.begin; });
}

// The edits made to text[begin, end), which holds all of them.
std::string edited_part(std::string_view text, std::size_t begin, std::size_t end, const TextEdit* first,
                        const TextEdit* last) {
  std::string edited;
  std::size_t done = begin;
  for (const TextEdit* edit = first; edit != last; ++edit) {
    edited += text.substr(done, edit->where.begin - done);
    edited += edit->text;
    done = edit->where.end;
  }
  return edited += text.substr(done, end - done);
}

std::size_t line_end(std::string_view text, std::size_t from) {
  const std::size_t line_feed = text.find('\n', from);
  return line_feed == std::string_view::npos ? text.size() : line_feed + 1;
}

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = line_end(text, begin);
    lines.emplace_back(text.substr(begin, end - begin));
    begin = end;
  }
  return lines;
}

}  // namespace

bool overlap(const TextEdit& one, const TextEdit& other) {
  if (one.where.file != other.where.file) return false;
  if (one.where == other.where) return !one.where.empty();
  return one.where.begin < other.where.end && other.where.begin < one.where.end;
}

bool go_together(const std::vector<TextEdit>& some, const std::vector<TextEdit>& others) {
  return std::none_of(some.begin(), some.end(), [&](const TextEdit& one) {
    return std::any_of(others.begin(), others.end(), [&](const TextEdit& other) {
      return overlap(one, other) || (one.where == other.where && one.text == other.text);
    });
  });
}

std::string edited_text(std::string_view text, std::vector<TextEdit> edits) {
  put_in_order(edits);
  return edited_part(text, 0, text.size(), edits.data(), edits.data() + edits.size());
}

std::vector<LineChange> line_changes(std::string_view text, std::vector<TextEdit> edits) {
  put_in_order(edits);
  std::vector<LineChange> changes;
  const TextEdit* edit = edits.data();
  const TextEdit* const none = edit + edits.size();
  for (std::size_t begin = 0; begin < text.size();) {
    // Lines that one edit spans change together; what is inserted at the very end belongs to the last line.
    const TextEdit* const first = edit;
    std::size_t end = line_end(text, begin);
    for (; edit != none && (edit->where.begin < end || end == text.size()); ++edit) {
      while (end < edit->where.end) end = line_end(text, end);
    }
    changes.push_back({{}, lines_of(edited_part(text, begin, end, first, edit))});
    for (std::size_t next = line_end(text, begin); next < end; next = line_end(text, next)) changes.push_back({});
    begin = end;
  }
  return changes;
}

}  // namespace lensward
