// Inside of syntax: which word was meant.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace lensward {

// Edits that make one word the other: a letter put in, left out, changed, or two neighbours exchanged.
int edits_between(std::string_view a, std::string_view b);

// The nearest candidate, of equals the one that begins most alike, then the earliest. At most one edit away for words
// of up to six letters, two for longer ones, never the word itself, and never one that begins with another letter but
// for the first two exchanged. Words of one letter, or of more than 40, have none.
std::optional<std::string_view> nearest(std::string_view word, const std::vector<std::string_view>& candidates);

}  // namespace lensward
