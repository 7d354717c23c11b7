// What a line may go on with: for editors that complete words as they are typed.
#pragma once

#include <string_view>
#include <vector>

namespace lensward {

// One thing that could stand next. A literal is a word or sign of the language, anything else is in the words of the
// grammar's messages: "a name", "a verb", "a unit", "a [Mark]".
struct CouldFollow {
  std::string_view text;
  bool literal = false;

  bool operator==(const CouldFollow&) const = default;
};

// All that could stand behind the beginning of a line, each once, in the order it would be tried. Nothing inside
// comments and spoken words, and nothing behind words that cannot be read. `line` is UTF-8 without a line end; of more
// than 4,000 bytes nothing is said.
std::vector<CouldFollow> could_follow(std::string_view line);

}  // namespace lensward
