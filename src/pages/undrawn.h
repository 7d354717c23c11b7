// Letters that no built-in face has: a box stands for each on the pages.
#pragma once

#include <string>
#include <vector>

#include "pages/sheet.h"

namespace lensward {

struct UndrawnWord {
  std::string word;                  // as set, without the signs round it
  std::vector<std::string> letters;  // those that are boxes, each once
};

// The words with such letters, in the order in which the sheets first show them; one whose letters are all told with
// words before it is left out. Words are parted by blanks.
std::vector<UndrawnWord> undrawn_words(const std::vector<Sheet>& sheets);

}  // namespace lensward
