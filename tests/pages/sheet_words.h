// All the words that stand on sheets.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "pages/sheet.h"

namespace lensward {

// Each piece of text with a blank after it, in the order of the items.
inline void collect_words(const std::vector<Item>& items, std::string& words) {
  for (const Item& item : items) {
    if (const auto* text = std::get_if<Text>(&item.body)) words += text->words + " ";
    if (const auto* group = std::get_if<Group>(&item.body)) collect_words(group->items, words);
  }
}

inline std::string words_of(const std::vector<Sheet>& sheets) {
  std::string words;
  for (const Sheet& sheet : sheets) collect_words(sheet.items, words);
  return words;
}

// How often a part stands in a text, overlaps not counted.
inline int times(const std::string& text, const std::string& part) {
  int count = 0;
  for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size())) ++count;
  return count;
}

}  // namespace lensward
