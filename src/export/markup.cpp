#include "export/markup.h"

namespace lensward {

std::string escaped(std::string_view words) {
  std::string safe;
  for (const char c : words) {
    switch (c) {
      case '&':
        safe += "&amp;";
        break;
      case '<':
        safe += "&lt;";
        break;
      case '>':
        safe += "&gt;";
        break;
      case '"':
        safe += "&quot;";
        break;
      case '\t':
      case '\n':
        safe += ' ';
        break;
      default:
        safe += static_cast<unsigned char>(c) < 0x20 ? std::string("\uFFFD") : std::string(1, c);
    }
  }
  return safe;
}

std::string base64(std::string_view bytes) {
  constexpr std::string_view digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const auto byte = [&](std::size_t at) { return at < bytes.size() ? static_cast<unsigned char>(bytes[at]) : 0U; };
    const unsigned group = byte(i) << 16U | byte(i + 1) << 8U | byte(i + 2);
    for (unsigned k = 0; k < 4; ++k) text += digits[group >> (18U - 6U * k) & 63U];
  }
  for (std::size_t k = 0; k < (3 - bytes.size() % 3) % 3; ++k) text[text.size() - 1 - k] = '=';
  return text;
}

}  // namespace lensward
