// Where a name stands, and calling it otherwise.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "editor/read_files.h"
#include "findings/finding.h"

namespace lensward {

// The name at a byte of the open file, or just before it.
std::optional<Mention> mention_at(const ReadFiles& read, std::uint32_t offset);

// Every place where the same thing is named, by file and then in the order of the text. A thing that a shared file
// declares is looked for in all that use this file; any other within the open one.
std::vector<Mention> places_of(const ReadFiles& read, const Mention& mention);

// Why a name stays as it is, in words for the writer.
struct NotRenamed {
  std::string reason;
};

// The edits that call what is named at a byte by another name, wherever it is named. Spoken words are never changed.
// Refused: what is no name, a name that something else bears or that looks like one, and whatever would make a line
// read otherwise than before: the changed files are read again to prove that it does not.
std::variant<std::vector<TextEdit>, NotRenamed> renamed(const ReadFiles& read, std::uint32_t offset,
                                                        const std::string& name);

}  // namespace lensward
