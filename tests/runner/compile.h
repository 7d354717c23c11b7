// A case's text through every stage, in memory.
#pragma once

#include <string>
#include <vector>

#include "case_file.h"
#include "syntax/script.h"

namespace lensward::test {

struct Compiled {
  std::vector<Note> notes;  // what the case's expectations come out as
  bool any_error = false;
  std::vector<std::string> findings;  // one a line, with its position
};

Compiled compile(const CaseFile& file);

// The findings of a file on disk with all it uses; those of other files with their names, from the folder of examples.
std::vector<std::string> findings_of(const std::string& path, const std::string& examples);

// Of what kind the file says it is.
FileKind kind_of_file(const std::string& path);

}  // namespace lensward::test
