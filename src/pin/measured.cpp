#include "pin/measured.h"

#include <fmt/core.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>

#include "base/listing.h"
#include "crew/tape.h"

namespace lensward {
namespace {

using Row = std::vector<std::string>;

std::vector<Row> rows_of(std::string_view csv, char comma) {
  std::vector<Row> rows{{""}};
  bool quoted = false;
  for (std::size_t i = 0; i < csv.size(); ++i) {
    const char letter = csv[i];
    std::string& cell = rows.back().back();
    // Inside a cell that does not begin with one it is an inch.
    if (letter == '"' && (quoted || cell.empty())) {
      const bool doubled = quoted && i + 1 < csv.size() && csv[i + 1] == '"';
      if (doubled) cell += csv[++i];
      if (!doubled) quoted = !quoted;
    } else if (quoted || (letter != comma && letter != '\n' && letter != '\r')) {
      cell += letter;
    } else if (letter == comma) {
      rows.back().emplace_back();
    } else if (letter == '\n') {
      rows.push_back({""});
    }
  }
  return rows;
}

std::string trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \t"), end = text.find_last_not_of(" \t");
  return begin == std::string_view::npos ? "" : std::string(text.substr(begin, end - begin + 1));
}

std::optional<double> metres_in(std::string_view unit) {
  constexpr std::pair<std::string_view, double> units[] = {{"m", 1},      {"cm", 0.01},   {"mm", 0.001}, {"ft", 0.3048},
                                                           {"'", 0.3048}, {"in", 0.0254}, {"\"", 0.0254}};
  for (const auto& [name, metres] : units)
    if (name == unit) return metres;
  return std::nullopt;
}

std::string_view past_blanks(std::string_view text) {
  return text.substr(std::min(text.find_first_not_of(" \t"), text.size()));
}

std::optional<double> decimal_in(std::string_view& rest) {
  double value = 0;
  const auto read = std::from_chars(rest.data(), rest.data() + rest.size(), value, std::chars_format::fixed);
  if (read.ec != std::errc{} || !std::isfinite(value) || value < 0) return std::nullopt;
  rest.remove_prefix(static_cast<std::size_t>(read.ptr - rest.data()));
  return value;
}

// What stands behind a `/`, and divides; 1 where there is none. Nothing when it is no number over 0.
std::optional<double> divisor_in(std::string_view& rest) {
  if (!rest.starts_with('/')) return 1;
  rest.remove_prefix(1);
  const auto divisor = decimal_in(rest);
  return divisor && *divisor > 0 ? divisor : std::nullopt;
}

// "5", "5.5", "1/2", "5 1/2": as a tape is read.
std::optional<double> number_in(std::string_view& rest) {
  const auto value = decimal_in(rest);
  const bool is_fraction = rest.starts_with('/');
  const auto divisor = divisor_in(rest);
  if (!value || !divisor) return std::nullopt;
  std::string_view behind = past_blanks(rest);
  const auto more = decimal_in(behind);
  if (is_fraction || !more || !behind.starts_with('/')) return *value / *divisor;
  const auto of_more = divisor_in(behind);
  if (!of_more) return std::nullopt;
  rest = behind;
  return *value + *more / *of_more;
}

// "3.25", "325 cm", "10 ft 8 in", "7' 5 1/2\"", "-0.4"; nothing when it is no length.
std::optional<Metres> length_in(std::string cell, double metres_by_default, bool decimal_comma) {
  if (decimal_comma) std::ranges::replace(cell, ',', '.');
  double sum = 0;
  bool any = false, less = false;
  std::string_view rest = cell;
  while (!(rest = past_blanks(rest)).empty()) {
    if (!any && rest.starts_with('-')) {
      less = true;
      rest.remove_prefix(1);
    }
    const auto value = number_in(rest);
    if (!value) return std::nullopt;
    const std::string_view from_unit = past_blanks(rest);
    const std::string_view unit =
        from_unit.substr(0, std::min(from_unit.find_first_of(" \t0123456789"), from_unit.size()));
    const auto metres = unit.empty() ? std::optional(metres_by_default) : metres_in(unit);
    if (!metres || (any && unit.empty())) return std::nullopt;
    sum += *value * *metres;
    any = true;
    rest = from_unit.substr(unit.size());
  }
  return any ? std::optional(Metres{less ? -sum : sum}) : std::nullopt;
}

struct Columns {
  std::optional<std::size_t> mark, first, second, first_from, second_from;
  double first_unit = 1, second_unit = 1;
};

void find_length(const std::string& name, std::string_view begin, std::size_t at, std::optional<std::size_t>& column,
                 double& unit) {
  if (!name.starts_with(begin)) return;
  if (const auto metres = metres_in(std::string_view(name).substr(begin.size()))) {
    column = at;
    unit = *metres;
  }
}

Columns columns_of(const Row& header) {
  constexpr std::string_view mark_of_order = "\xEF\xBB\xBF";
  Columns columns;
  for (std::size_t i = 0; i < header.size(); ++i) {
    std::string name = trimmed(header[i]);
    if (name.starts_with(mark_of_order)) name = name.substr(mark_of_order.size());
    if (name == "mark") columns.mark = i;
    if (name == "first_from") columns.first_from = i;
    if (name == "second_from") columns.second_from = i;
    find_length(name, "mark_first_", i, columns.first, columns.first_unit);
    find_length(name, "mark_second_", i, columns.second, columns.second_unit);
  }
  return columns;
}

std::string cell_of(const Row& row, std::optional<std::size_t> column) {
  return column && *column < row.size() ? trimmed(row[*column]) : "";
}

class Reading {
 public:
  Reading(std::string_view csv, const Plan& plan) : plan_(plan), tape_(plan.stage) {
    const std::string_view header = csv.substr(0, csv.find('\n'));
    with_semicolons_ = header.find(';') != std::string_view::npos && header.find(',') == std::string_view::npos;
    rows_ = rows_of(csv, with_semicolons_ ? ';' : ',');
  }

  MarksFile marks() {
    columns_ = columns_of(rows_.front());
    if (!columns_.mark || !columns_.first || !columns_.second) {
      file_.troubles.emplace_back(
          "the first line has to name the columns `mark`, `mark_first_m` and `mark_second_m`, as the marks' sheet "
          "does; "
          "the unit last: m, cm, mm, ft or in");
      return std::move(file_);
    }
    for (std::size_t i = 1; i < rows_.size(); ++i) read(rows_[i], static_cast<int>(i) + 1);
    return std::move(file_);
  }

 private:
  void trouble(int row, const std::string& what) { file_.troubles.push_back(fmt::format("row {}: {}", row, what)); }

  void read(const Row& row, int number) {
    const std::string name = cell_of(row, columns_.mark);
    const std::string first = cell_of(row, columns_.first), second = cell_of(row, columns_.second);
    if (name.empty() || (first.empty() && second.empty())) return;
    if (std::ranges::find(plan_.marks, name, &Mark::name) == plan_.marks.end())
      return trouble(number, "the scene has no mark `" + name + "`");
    if (std::ranges::find(file_.marks, name, &MeasuredMark::mark) != file_.marks.end())
      return trouble(number, "`" + name + "` is told a second time");
    if (first.empty() || second.empty()) return trouble(number, "`" + name + "` has only one figure");
    const auto one = length_in(first, columns_.first_unit, with_semicolons_);
    const auto other = length_in(second, columns_.second_unit, with_semicolons_);
    if (!one || !other)
      return trouble(number, fmt::format("`{}` is no length; write 2.15, 215 cm or 7 ft 1 in", one ? second : first));
    const auto turned = walls_turned(row, number);
    if (!turned) return;
    file_.marks.push_back({name, *turned ? tape_.place(*other, *one) : tape_.place(*one, *other), number});
  }

  // Whether the first figure is from the plan's second wall; nothing, and that told, when it is from neither.
  std::optional<bool> walls_turned(const Row& row, int number) {
    const std::string first = cell_of(row, columns_.first_from), second = cell_of(row, columns_.second_from);
    const auto is = [](const std::string& told, const std::string& wall) { return told.empty() || told == wall; };
    if (is(first, tape_.first_name()) && is(second, tape_.second_name())) return false;
    if (is(first, tape_.second_name()) && is(second, tape_.first_name())) return true;
    trouble(number, fmt::format("measured from {}; the scene's marks are measured from {}", listed({first, second}),
                                listed({tape_.first_name(), tape_.second_name()})));
    return std::nullopt;
  }

  const Plan& plan_;
  Tape tape_;
  bool with_semicolons_ = false;
  std::vector<Row> rows_;
  Columns columns_;
  MarksFile file_;
};

}  // namespace

MarksFile marks_measured(std::string_view csv, const Plan& plan) { return Reading(csv, plan).marks(); }

}  // namespace lensward
