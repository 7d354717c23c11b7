// The one style of staging files: spelling of layout, never of meaning.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "findings/finding.h"
#include "source/line_diff.h"
#include "source/source_file.h"

namespace lensward {

// A file in the style. LF ends every line; there are no trailing blanks, no byte-order mark, no two empty lines in a
// row and none at either end; text outside quotation marks is in Unicode normal form C. One empty line stands before a
// heading and the comments just above it, but none between the language line and the heading that names the file.
// Nothing is indented at the top; lines below `opening`, `beat` and `way` by two blanks, lines of speech by four, `+`
// lines by two. One blank stands between tokens, none before a comma, two before a comment that shares its line.
// `favour centre colour toward round deep` are so spelt, verbs agree with their subject, numbers have no trailing
// zeros. What happens in time has its clauses in one order; declarations keep their writer's. Lines wider than 100
// cells are broken at commas into `+` lines, speeches at spaces into lines of speech; lines are never joined, moved or
// dropped, comments and spoken words never changed. What cannot be read is left byte for byte.
struct Tidied {
  std::string text;
  std::vector<LineChange> lines;  // one for each line of the old text
  Findings findings;              // of reading the old text
  // Why the new text would not be the same script, comments and all: a fault of this program. `text` is then the old
  // text. Empty when all is proved.
  std::string refusal;
};

// Reads the file, and reads the result again to prove that nothing changed but the style. Twice is as good as once.
Tidied tidy(const SourceSet& sources, std::int32_t file);

}  // namespace lensward
