#include "pages/undrawn.h"

#include <algorithm>
#include <utility>

#include "type/face.h"

namespace lensward {
namespace {

bool is_ascii(char c) { return (static_cast<unsigned char>(c) & 0x80U) == 0; }

// Signs of the pages and of the language that may stand against a word.
std::string_view bare(std::string_view word) {
  constexpr std::string_view signs = ".,:;!?()[]\"'";
  const std::size_t first = word.find_first_not_of(signs), last = word.find_last_not_of(signs);
  return first == std::string_view::npos ? std::string_view{} : word.substr(first, last - first + 1);
}

std::string letter_at(std::string_view word, std::size_t byte) {
  std::size_t end = byte + 1;
  while (end < word.size() && (static_cast<unsigned char>(word[end]) & 0xC0U) == 0x80U) ++end;
  return std::string(word.substr(byte, end - byte));
}

class Search {
 public:
  void look_through(const std::vector<Item>& items) {
    for (const Item& item : items) {
      if (const auto* text = std::get_if<Text>(&item.body)) look_at(*text);
      if (const auto* group = std::get_if<Group>(&item.body)) look_through(group->items);
    }
  }
  std::vector<UndrawnWord> found;

 private:
  void look_at(const Text& text) {
    if (std::ranges::all_of(text.words, is_ascii) || shape(text.words, text.face, text.size).complete) return;
    for (std::size_t begin = 0; begin < text.words.size();) {
      const std::size_t end = std::min(text.words.find(' ', begin), text.words.size());
      look_at(bare(std::string_view(text.words).substr(begin, end - begin)), text.face);
      begin = end + 1;
    }
  }

  void look_at(std::string_view word, Face face) {
    std::vector<std::string> letters;
    for (const PlacedGlyph& glyph : shape(word, face, 1).glyphs) {
      if (glyph.glyph != 0) continue;
      std::string letter = letter_at(word, glyph.cluster);
      if (std::ranges::find(letters, letter) == letters.end()) letters.push_back(std::move(letter));
    }
    const auto is_told = [this](const std::string& letter) {
      return std::ranges::any_of(
          found, [&](const UndrawnWord& one) { return std::ranges::find(one.letters, letter) != one.letters.end(); });
    };
    if (std::ranges::all_of(letters, is_told)) return;
    found.push_back({std::string(word), std::move(letters)});
  }
};

}  // namespace

std::vector<UndrawnWord> undrawn_words(const std::vector<Sheet>& sheets) {
  Search search;
  for (const Sheet& sheet : sheets) search.look_through(sheet.items);
  return std::move(search.found);
}

}  // namespace lensward
