#include "export/palette.h"

#include <fmt/core.h>

#include "base/angle.h"

namespace lensward {
namespace {

int bytes_of(Ink ink) {
  switch (ink) {
    case Ink::none:
    case Ink::paper:
      return 0xffffff;
    case Ink::black:
      return 0x1d1916;
    case Ink::dark:
      return 0x47413b;
    case Ink::mid:
      return 0x756e66;
    case Ink::light:
      return 0x979087;
    case Ink::faint:
      return 0xd3cec7;
    case Ink::accent:
      return 0x9c2a12;
  }
  return 0;
}

double linear(double encoded) { return encoded <= 0.04045 ? encoded / 12.92 : power((encoded + 0.055) / 1.055, 2.4); }

double luminance(Colour colour) {
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

}  // namespace

Colour colour_of(Ink ink) {
  const int rgb = bytes_of(ink);
  return {(rgb >> 16 & 0xff) / 255.0, (rgb >> 8 & 0xff) / 255.0, (rgb & 0xff) / 255.0};
}

std::string hex_of(Ink ink) { return fmt::format("#{:06x}", bytes_of(ink)); }

double contrast_on_paper(Ink ink) {
  return (luminance(colour_of(Ink::paper)) + 0.05) / (luminance(colour_of(ink)) + 0.05);
}

}  // namespace lensward
