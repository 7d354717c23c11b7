#include "source/line_diff.h"

#include <algorithm>

namespace lensward {
namespace {

constexpr int context = 3;

struct DiffLine {
  char sign;  // ' ', '-' or '+'
  std::string text;
};

// Old lines before new ones wherever several changes follow one another.
void group(std::vector<DiffLine>& lines) {
  const auto same = [](const DiffLine& line) { return line.sign == ' '; };
  for (auto from = lines.begin(); from != lines.end();) {
    from = std::find_if_not(from, lines.end(), same);
    const auto to = std::find_if(from, lines.end(), same);
    std::stable_partition(from, to, [](const DiffLine& line) { return line.sign == '-'; });
    from = to;
  }
}

std::vector<DiffLine> diff_lines(std::string_view old_text, const std::vector<LineChange>& changes) {
  std::vector<DiffLine> all;
  for (const LineChange& line : changes) {
    const std::size_t line_feed = old_text.find('\n');
    const std::string was(old_text.substr(0, line_feed == std::string_view::npos ? line_feed : line_feed + 1));
    old_text.remove_prefix(was.size());
    if (!line.before.empty()) all.push_back({'+', line.before});
    const auto kept = std::find(line.after.begin(), line.after.end(), was);
    if (kept == line.after.end()) all.push_back({'-', was});
    for (auto is = line.after.begin(); is != line.after.end(); ++is) all.push_back({is == kept ? ' ' : '+', *is});
  }
  group(all);
  return all;
}

struct Hunk {
  std::string text;
  int old_first = 0, old_count = 0, new_first = 0, new_count = 0;

  void add(const DiffLine& line) {
    text += line.sign + line.text;
    if (!line.text.ends_with('\n')) text += "\n\\ No newline at end of file\n";
    old_count += line.sign != '+' ? 1 : 0;
    new_count += line.sign != '-' ? 1 : 0;
  }
};

// A range without lines is numbered by the line before it.
std::string range(int first, int count) {
  return std::to_string(count == 0 ? first - 1 : first) + "," + std::to_string(count);
}

}  // namespace

std::string diff_of(const std::string& name, std::string_view old_text, std::string_view new_text,
                    const std::vector<LineChange>& changes) {
  if (new_text == old_text) return {};
  const std::vector<DiffLine> all = diff_lines(old_text, changes);
  std::string diff = "--- " + name + "\n+++ " + name + "\n";
  const auto count = static_cast<int>(all.size());
  int old_line = 1;
  int new_line = 1;
  int done = 0;
  const auto pass = [&](const DiffLine& line) {
    old_line += line.sign != '+' ? 1 : 0;
    new_line += line.sign != '-' ? 1 : 0;
  };
  for (int i = 0; i < count;) {
    if (all[static_cast<std::size_t>(i)].sign == ' ') {
      ++i;
      continue;
    }
    const int begin = std::max(done, i - context);
    for (; done < begin; ++done) pass(all[static_cast<std::size_t>(done)]);
    // The hunk goes on while less than two contexts lie between changes.
    int end = i;
    for (int same = 0; end < count && same <= 2 * context; ++end) {
      same = all[static_cast<std::size_t>(end)].sign == ' ' ? same + 1 : 0;
    }
    while (all[static_cast<std::size_t>(end - 1)].sign == ' ') --end;
    i = end;
    end = std::min(count, end + context);
    Hunk hunk{{}, old_line, 0, new_line, 0};
    for (; done < end; ++done) {
      hunk.add(all[static_cast<std::size_t>(done)]);
      pass(all[static_cast<std::size_t>(done)]);
    }
    diff += "@@ -" + range(hunk.old_first, hunk.old_count) + " +" + range(hunk.new_first, hunk.new_count) + " @@\n" +
            hunk.text;
  }
  return diff;
}

}  // namespace lensward
