// A file case: a staging file with its expectations in comments beside the lines they are about.
//
//   --! expect findings                 every finding, each below its line: `--! COLUMN SEVERITY[RULE]: MESSAGE`
//   --! expect findings of masked bump  only those rules
//   --! expect plan.marks               the part of `lensward dump plan` under that key, at the end of the file
//   --! expect view 3.2 s               the same of a moment
//
// The lines that begin `--! expect` are the case's own; all other `--!` lines are written by --update.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units.h"

namespace lensward::test {

struct Expect {
  std::string waist;               // findings, syntax, plan, view, emphasis
  std::vector<std::string> keys;   // plan.marks -> {"marks"}
  std::vector<std::string> rules;  // findings of …
  Moment at;
};

struct CaseFile {
  std::string path;
  std::string name;
  std::string whole;               // as it stands on disk
  std::vector<std::string> lines;  // without what --update writes
  std::vector<Expect> expects;

  std::string source() const;  // the lines, joined: what is compiled
};

std::optional<CaseFile> read_case(const std::string& path);

// What stands below a line (0: above the first) or at the end (line -1).
struct Note {
  int line = -1;
  std::string text;
};

// The case with its expectations written in.
std::string with_notes(const CaseFile& file, const std::vector<Note>& notes);

}  // namespace lensward::test
