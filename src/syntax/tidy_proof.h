// Inside of tidy: whether two texts say the same.
#pragma once

#include <string>

#include "findings/finding.h"
#include "source/source_file.h"
#include "syntax/script.h"
#include "syntax/tidy_line.h"
#include "syntax/tree.h"

namespace lensward {

// A file, read.
struct ReadFile {
  std::string_view bytes;
  Tree tree;
  Script script;
  Findings findings;
};
ReadFile read_file(const SourceSet& sources, std::int32_t file);

// Lines that the style may not touch: those that cannot be read, and all of an unfinished merge.
std::vector<bool> lines_to_keep(const ReadFile& file);

// The first difference in words, or nothing: the same statements with the same nodes and tokens, apart from where they
// stand, how they are spelt and the order of clauses; the same comments after the same statements; unread lines byte
// for byte; the same findings; the same lines called by opening words.
std::string difference(const ReadFile& before, const ReadFile& after);

}  // namespace lensward
