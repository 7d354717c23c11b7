// Text -> lossless tree -> script. Reading cannot fail: what is unreadable stays in the tree as broken lines.
#pragma once

#include "findings/finding.h"
#include "source/source_file.h"
#include "syntax/script.h"
#include "syntax/tree.h"

namespace lensward {

// Reads one file. Every byte of it belongs to exactly one leaf of the tree, whatever the input. Unreadable lines become
// `parse.` findings, one each; the lines around them are unharmed.
Tree parse(const SourceSet& sources, std::int32_t file, Findings& findings);

// Folds the tree into statements: `+` lines and lines of speech join the statement above.
Script read_script(const SourceSet& sources, const Tree& tree, Findings& findings);

}  // namespace lensward
