// Findings as the writer reads them in a terminal, and as editors and scripts read them a line at a time.
#pragma once

#include <string>

#include "findings/finding.h"
#include "source/source_file.h"

namespace lensward {

// What is wrong with the text, then what is wrong with the staging, each with the place it speaks of, why it matters,
// what to do next and the reckoning behind it; then the remarks, in their words and what would settle them; then what
// was waived; then the counts and where to start. Findings must be sorted. What one cause repeats is told once, with
// the further places and times: the same rule with the same words, or at the same place about the same people. `colour`
// adds terminal colours. Nothing from the writer's file reaches the terminal that could steer it.
std::string findings_text(const SourceSet& sources, const Findings& findings, bool colour);

// `file:line:column: severity: message [rule]`, one line a finding; a waived one says `waived` as its severity.
std::string findings_lines(const SourceSet& sources, const Findings& findings);

// "2 errors, 1 warning, 5 remarks; start at scene.staging:12:3". "no findings" when there are none.
std::string counts_in_words(const SourceSet& sources, const Findings& findings);

}  // namespace lensward
