// Inside of syntax: how one line is read, and what is known when it cannot be.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "syntax/node_kind.h"
#include "syntax/tree.h"

namespace lensward {

// Something that would have been read where reading stopped. A literal is the bytes themselves (`walks`, `,`), anything
// else is in words for a person ("a name").
struct Expected {
  std::string_view text;
  bool literal = false;
};

// Why a line cannot be read: the farthest byte that reading came to, and what it looked for there.
struct Stop {
  std::uint32_t at = 0;
  std::vector<Expected> expected;
  bool clause_here = false;  // a whole clause stands at `at`
};

// Reads the lines of one file, each for itself. The bytes must outlive it.
class LineReader {
 public:
  explicit LineReader(std::string_view bytes) : bytes_(bytes) {}

  // Reads bytes begin..end as one line, UTF-8 without its line end. Appends its nodes, and its leaves without gaps.
  // When it cannot be read, nothing is appended.
  std::optional<Stop> read(std::uint32_t begin, std::uint32_t end, Tree& tree);

 private:
  std::string_view bytes_;
  std::vector<Leaf> tokens_;
};

// Splits the words begin..end of a speech into nodes speech_words, speech_mark and speech_rest. Returns where a square
// bracket opens neither a mark nor a rest.
std::optional<std::uint32_t> read_speech(std::string_view bytes, std::uint32_t begin, std::uint32_t end,
                                         std::vector<Node>& nodes);

// Every word of the language that a line, or a clause, may begin with, in alphabetic order.
const std::vector<std::string_view>& leading_words();
const std::vector<std::string_view>& clause_words();

}  // namespace lensward
