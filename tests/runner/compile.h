// A case's text through every stage, in memory.
#pragma once

#include <string>
#include <vector>

#include "case_file.h"

namespace lensward::test {

struct Compiled {
  std::vector<Note> notes;  // what the case's expectations come out as
  bool any_error = false;
  std::vector<std::string> findings;  // one a line, with its position
};

Compiled compile(const CaseFile& file);

}  // namespace lensward::test
