#include "source/character.h"

#include <unicode/uchar.h>
#include <unicode/utf8.h>

#include "source/source_file.h"

namespace lensward {

Character character_at(std::string_view text, std::size_t at) {
  auto end = static_cast<std::int32_t>(at);
  UChar32 code = 0;
  // NOLINTNEXTLINE(bugprone-inc-dec-in-conditions): the library's own macro.
  U8_NEXT(text.data(), end, static_cast<std::int32_t>(text.size()), code);
  if (code < 0) return {-1, 1};
  return {code, static_cast<std::size_t>(end) - at};
}

int cells_of(Character character) {
  const UChar32 code = character.code;
  if (code < 0) return 1;
  if (code >= 0x20 && code < 0x7f) return 1;
  if (u_iscntrl(code)) return 0;
  switch (u_charType(code)) {
    case U_NON_SPACING_MARK:
    case U_ENCLOSING_MARK:
    case U_FORMAT_CHAR:
      return 0;
    default:
      break;
  }
  // The vowels and finals of decomposed Hangul join the consonant before them.
  const auto hangul = u_getIntPropertyValue(code, UCHAR_HANGUL_SYLLABLE_TYPE);
  if (hangul == U_HST_VOWEL_JAMO || hangul == U_HST_TRAILING_JAMO) return 0;
  const auto width = u_getIntPropertyValue(code, UCHAR_EAST_ASIAN_WIDTH);
  return width == U_EA_WIDE || width == U_EA_FULLWIDTH ? 2 : 1;
}

bool is_unprintable(Character character) {
  const UChar32 code = character.code;
  return code < 0 || u_charType(code) == U_CONTROL_CHAR || u_hasBinaryProperty(code, UCHAR_BIDI_CONTROL) ||
         code == 0x2028 || code == 0x2029;
}

std::string printable(std::string_view text) {
  std::string result;
  for (std::size_t at = 0; at < text.size();) {
    const Character next = character_at(text, at);
    result += is_unprintable(next) ? std::string_view("\xEF\xBF\xBD") : text.substr(at, next.length);
    at += next.length;
  }
  return result;
}

std::string printable_lines(std::string_view text) {
  std::string clean;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    clean += printable(text.substr(at, end - at)) + "\n";
    at = end == std::string_view::npos ? text.size() : end + 1;
  }
  return clean;
}

int display_width(std::string_view utf8) {
  int width = 0;
  for (std::size_t at = 0; at < utf8.size();) {
    const Character next = character_at(utf8, at);
    width += cells_of(next);
    at += next.length;
  }
  return width;
}

}  // namespace lensward
