// What single bytes and code points are to the language. Plain functions: no PEGTL here.
#pragma once

#include <unicode/uchar.h>

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <string_view>

namespace lensward::grammar {

constexpr bool is_lower(char c) { return c >= 'a' && c <= 'z'; }
constexpr bool is_upper(char c) { return c >= 'A' && c <= 'Z'; }
constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

// One code point of UTF-8 that is known to be valid; size 0 at the end.
struct CodePoint {
  std::uint32_t value = 0;
  std::size_t size = 0;
};
inline CodePoint code_point(const char* at, const char* end) {
  if (at == end) return {};
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(at[i]); };
  const std::size_t size = byte(0) < 0x80 ? 1 : byte(0) < 0xE0 ? 2 : byte(0) < 0xF0 ? 3 : 4;
  if (static_cast<std::size_t>(end - at) < size) return {0xFFFD, 1};
  std::uint32_t value = size == 1 ? byte(0) : byte(0) & (0xFFu >> (size + 1));
  for (std::size_t i = 1; i < size; ++i) value = value << 6 | (byte(i) & 0x3Fu);
  return {value, size};
}

// A letter, mark or number from U+00A1 up, by the general category that ICU's Unicode data gives it.
inline bool is_wide_letter(std::uint32_t point) {
  constexpr std::uint32_t letters_marks_numbers = U_GC_L_MASK | U_GC_M_MASK | U_GC_N_MASK;
  return point >= 0xA1 && (U_GET_GC_MASK(static_cast<UChar32>(point)) & letters_marks_numbers) != 0;
}

// The length of a wide letter at `at`, else 0.
inline std::size_t wide_size(const char* at, const char* end) {
  if (at == end || static_cast<unsigned char>(*at) < 0x80) return 0;
  const CodePoint point = code_point(at, end);
  return is_wide_letter(point.value) ? point.size : 0;
}

inline bool name_more_at(const char* at, const char* end) {
  return at != end && (is_lower(*at) || is_upper(*at) || is_digit(*at) || *at == '_' || wide_size(at, end) > 0);
}

// Whether a word of the language goes on at `at`.
inline bool word_more_at(const char* at, const char* end) {
  return name_more_at(at, end) || (at != end && *at == '-' && name_more_at(at + 1, end));
}

// Past space, tab and U+3000.
inline const char* past_blanks(const char* at, const char* end) {
  while (at != end) {
    if (*at == ' ' || *at == '\t') {
      ++at;
    } else if (end - at >= 3 && std::memcmp(at, "\xE3\x80\x80", 3) == 0) {
      at += 3;
    } else {
      break;
    }
  }
  return at;
}

inline bool starts_with(const char* at, const char* end, std::string_view text) {
  return static_cast<std::size_t>(end - at) >= text.size() && std::memcmp(at, text.data(), text.size()) == 0;
}

}  // namespace lensward::grammar
