// The lines of a scene file, sorted under their headings.
#pragma once

#include <vector>

#include "findings/finding.h"
#include "source/source_file.h"
#include "syntax/script.h"

namespace lensward {

// Lines in the order they count: those of a chosen way stand in for the ones they replace.
struct BeatText {
  const HeadingLine* heading = nullptr;
  Span span;
  std::vector<const Statement*> lines;
};

struct SceneText {
  std::vector<const Statement*> above;  // declarations and settings
  std::vector<const Statement*> opening;
  std::vector<BeatText> beats;
};

// Pointers are into `script`. `choose way B of Rebuke` above the opening puts way B in place; the other ways are left
// out. Opening words that fit no line, or several, are `name.way-unclear`.
SceneText outline_of(const SourceSet& sources, const Script& script, Findings& findings);

}  // namespace lensward
