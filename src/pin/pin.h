// A scene with its marks where they were measured: which lines change, and what could not be done.
#pragma once

#include <string>
#include <vector>

#include "findings/finding.h"
#include "pin/measured.h"
#include "plan/plan.h"
#include "source/source_file.h"

namespace lensward {

struct MovedMark {
  std::string mark;
  PersonId person;
  Vec2 was, now;
};

struct Pinning {
  std::vector<TextEdit> edits;  // of the scene's own file
  std::vector<MovedMark> moved;
  int as_before = 0;                  // measured, and less than 2 cm off
  std::vector<std::string> troubles;  // sentences
};

// A point told by a `mark NAME at` line or in the line that leads to the mark is told otherwise; below a line whose
// place is vague, or told by words, a `mark` line is put. Refused: a mark that is a seat, one told in another file, one
// more than 1.5 m off (a unit or a column is more likely wrong), and all of them when they fit far better with the two
// columns exchanged. Lines of two marks at once are refused too. `file` is the scene's own.
Pinning pin(const Plan& plan, const SourceSet& sources, std::int32_t file, const std::vector<MeasuredMark>& measured);

// Marks that came out elsewhere than they were to be, by 2 cm or more, when the changed text was played: sentences.
std::vector<std::string> missed(const Plan& played, const std::vector<MovedMark>& moved);

}  // namespace lensward
