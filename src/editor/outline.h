// The parts of a file: its headings, and what it declares.
#pragma once

#include <string>
#include <vector>

#include "editor/read_files.h"
#include "source/span.h"

namespace lensward {

struct OutlineEntry {
  enum class Kind { file, room, person, group, thing, equipment, story, opening, beat, way };
  Kind kind = Kind::thing;
  std::string name;
  std::string detail;  // a title, or the word that declares it; may be empty
  Span whole;          // of a heading: down to the next
  Span named;          // within `whole`
  std::vector<OutlineEntry> parts;
};

// In the order of the text. What stands below the heading of the file is part of that, ways are parts of the beat they
// follow.
std::vector<OutlineEntry> outline_of_file(const ReadFiles& read);

}  // namespace lensward
