// Findings as an editor keeps them beside the text while it is typed in.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "editor/compiled.h"
#include "findings/finding.h"

namespace lensward {

// A place in a file, by the path the file is known by.
struct ToldPlace {
  std::string path;
  std::uint32_t begin = 0, end = 0;

  bool operator==(const ToldPlace&) const = default;
};

struct ToldLabel {
  ToldPlace where;
  std::string words;

  bool operator==(const ToldLabel&) const = default;
};

struct Told {
  std::string rule;
  Severity severity = Severity::error;
  bool waived = false;
  ToldPlace where;
  std::string message;  // with why it matters and the next step below it
  std::vector<ToldLabel> labels;

  bool operator==(const Told&) const = default;
};

// All findings, in their order. `own`: the open file, index into the sources; `own_path`: what it is known by.
std::vector<Told> told_of(const Findings& findings, const Gathered& gathered, std::int32_t own,
                          const std::string& own_path);
// The same of what was made of a file; of one that could not be read, that.
std::vector<Told> told_of(const Compiled& compiled, const std::string& own_path);

// What is found before everything is worked out: of the text, once there is a plan; of the staging, with everybody at
// their marks.
enum class Ahead { text, marks };

// Whether what was found ahead is found in the end too, word for word.
bool will_stand(const Told& told, Ahead ahead);

// Bytes begin..end of a file became `length` bytes.
struct Replaced {
  std::string path;
  std::uint32_t begin = 0, end = 0, length = 0;
};

// Moves places with the words they stand at. Of what was replaced, the edge nearest stays.
void move_with(const Replaced& change, std::vector<Told>& all);

// The old text to the new one as one replacement: what is the same at both ends is left out.
Replaced difference(const std::string& path, const std::string& old_text, const std::string& new_text);

}  // namespace lensward
