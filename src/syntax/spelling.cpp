#include "syntax/spelling.h"

#include <unicode/bytestream.h>
#include <unicode/normalizer2.h>

#include <algorithm>
#include <cstdint>

namespace lensward {
namespace {

constexpr std::string_view curled_apostrophe = "’";
constexpr std::string_view minus_sign = "−";

struct Spelling {
  std::string_view also, one;
};
constexpr Spelling spellings[] = {{"favor", "favour"},   {"center", "centre"}, {"color", "colour"},
                                  {"towards", "toward"}, {"around", "round"},  {"background", "deep"}};

bool is_plain(std::string_view text) {
  return std::ranges::all_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

}  // namespace

std::string composed(std::string_view utf8) {
  std::string result;
  if (is_plain(utf8)) {
    result = utf8;
    return result;
  }
  UErrorCode error = U_ZERO_ERROR;
  const icu::Normalizer2* form = icu::Normalizer2::getNFCInstance(error);
  if (U_SUCCESS(error)) {
    icu::StringByteSink<std::string> sink(&result);
    form->normalizeUTF8(0, icu::StringPiece(utf8.data(), static_cast<std::int32_t>(utf8.size())), sink, nullptr, error);
  }
  if (U_FAILURE(error)) result = utf8;
  return result;
}

std::string spelled_name(std::string_view name) {
  std::string spelled = composed(name);
  for (std::size_t at = spelled.find(curled_apostrophe); at != std::string::npos;
       at = spelled.find(curled_apostrophe, at)) {
    spelled.replace(at, curled_apostrophe.size(), "'");
  }
  return spelled;
}

std::string_view spelled_word(std::string_view word) {
  for (const Spelling& spelling : spellings) {
    if (spelling.also == word) return spelling.one;
  }
  return word;
}

std::string spelled_number(std::string_view number) {
  std::string spelled;
  if (number.starts_with(minus_sign)) {
    spelled = '-';
    number.remove_prefix(minus_sign.size());
  }
  spelled += number;
  if (spelled.find('.') == std::string::npos) return spelled;
  spelled.erase(spelled.find_last_not_of('0') + 1);
  if (spelled.ends_with('.')) spelled.pop_back();
  return spelled;
}

}  // namespace lensward
