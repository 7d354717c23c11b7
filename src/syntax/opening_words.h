// Inside of tidy: which lines the opening words of a way's changes call, so that tidying changes neither.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

#include "syntax/script.h"

namespace lensward {

// How many lines some opening words call and, of those, one; of a single one, that one.
struct CalledLines {
  std::size_t count = 0;
  std::size_t statement = 0;  // index into Script::statements; meaningless for a count of 0
  bool by_text = false;       // by the line's own first words, not by its label or the words it speaks
};

// All that a line can be called by: its first words, its label, the first words of a stretch of its speech.
class OpeningWords {
 public:
  // Both must outlive it. Cheap for a script without changes.
  OpeningWords(std::string_view bytes, const Script& script);

  // In the order of the script's ChangeLines.
  const std::vector<CalledLines>& called() const { return called_; }
  // Whether some change calls the statement, perhaps among others.
  bool is_called(std::size_t statement) const { return !called_.empty() && pinned_[statement]; }
  // Whether some change calls it and others too, or calls it although it cannot be read.
  bool is_called_unclearly(std::size_t statement) const { return !called_.empty() && unclear_[statement]; }

 private:
  std::vector<CalledLines> called_;
  std::vector<bool> pinned_, unclear_;
};

}  // namespace lensward
