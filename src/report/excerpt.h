// The line of the writer's text that a finding speaks of, with the place underlined.
#pragma once

#include <string>

#include "source/source_file.h"

namespace lensward {

// Two lines: the text behind its line number, and under it `^~~~` (or `~~~~` without a caret) below the span's part of
// that line. Widths are terminal cells; tabs stop every four; what cannot be printed shows as U+FFFD; a line wider
// than a screen is cut to a stretch round the span with `…` at each cut.
struct Excerpt {
  std::string text_line, mark_line;
};
Excerpt excerpt_of(const SourceSet& sources, Span span, bool caret);

}  // namespace lensward
