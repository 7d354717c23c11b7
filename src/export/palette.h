// The house inks as colours. The only place where a colour is written down.
#pragma once

#include "pages/sheet.h"

namespace lensward {

// sRGB, 0..1.
struct Colour {
  double red = 0, green = 0, blue = 0;
};

// Requires ink != Ink::none, which has no colour (it gives paper).
// Against paper black, dark, mid and accent have a contrast of at least 4.5:1, enough for words (WCAG 2.2, 1.4.3);
// light at least 3:1, enough for drawing (1.4.11); faint is tone only.
Colour colour_of(Ink ink);

// "#1d1916".
std::string hex_of(Ink ink);

// Contrast ratio of an ink on paper, 1..21 (WCAG 2.2, "relative luminance").
double contrast_on_paper(Ink ink);

}  // namespace lensward
