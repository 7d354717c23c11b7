// Marks as they were measured on the day: a table of the marks' sheet, with other figures in it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "plan/plan.h"

namespace lensward {

struct MeasuredMark {
  std::string mark;
  Vec2 at;
  int row = 0;  // of the file, counted from 1, the header being 1
};

struct MarksFile {
  std::vector<MeasuredMark> marks;
  std::vector<std::string> troubles;  // sentences: what cannot be read, and what to do
};

// Reads CSV (RFC 4180; with semicolons, as spreadsheets of some countries write it, decimal commas are read too) by the
// names of its columns, in any order, others ignored: `mark`, `mark_first_…`, `mark_second_…`, the unit last in the
// name: m, cm, mm, ft or in. A cell may have a unit of its own: "3.25 m", "10 ft 8 in". `first_from` and `second_from`,
// when there, say which walls were measured from; they may stand the other way round. Rows without figures are left
// out.
MarksFile marks_measured(std::string_view csv, const Plan& plan);

}  // namespace lensward
