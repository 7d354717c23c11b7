// Words and names that could stand where the writer is typing.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "editor/read_files.h"

namespace lensward {

struct Completion {
  enum class Kind { word, verb, name, unit, mark, rule };
  Kind kind = Kind::word;
  std::string text;
  std::string about;  // of a name: what bears it; may be empty
  int rank = 0;       // lower ones are likelier here

  bool operator==(const Completion&) const = default;
};

struct Completions {
  std::uint32_t begin = 0;  // what is typed of the word so far, up to the byte that was asked about
  std::vector<Completion> all;
};

// What the language lets stand at a byte of the open file: its words by the grammar, verbs by who does them, the names
// of the files that count here, the likeliest first. Empty inside comments and spoken words, where a new name is given,
// and behind what cannot be read.
Completions completions_at(const ReadFiles& read, std::uint32_t offset);

}  // namespace lensward
