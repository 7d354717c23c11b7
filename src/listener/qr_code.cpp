#include <qrencode.h>

#include <memory>

#include "server/listener.h"

void lensward_qr_code(const char* text, std::string* code) {
  code->clear();
  const std::unique_ptr<QRcode, void (*)(QRcode*)> made(QRcode_encodeString8bit(text, 0, QR_ECLEVEL_L), QRcode_free);
  if (!made) return;
  // The standard asks for four light modules all round.
  constexpr int quiet = 4;
  const auto dark = [&](int x, int y) {
    if (x < 0 || y < 0 || x >= made->width || y >= made->width) return false;
    return (made->data[y * made->width + x] & 1) != 0;
  };
  for (int y = -quiet; y < made->width + quiet; y += 2) {
    // Black on white, whatever the terminal's own colours are.
    *code += "\x1b[30;47m";
    for (int x = -quiet; x < made->width + quiet; ++x) {
      const bool upper = dark(x, y), lower = dark(x, y + 1);
      *code += upper && lower ? "█" : upper ? "▀" : lower ? "▄" : " ";
    }
    *code += "\x1b[0m\n";
  }
}
