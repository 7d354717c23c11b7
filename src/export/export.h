// Sheets -> bytes. The only folder that draws.
#pragma once

#include <string>

#include "pages/sheet.h"

namespace lensward {

// A PDF of all sheets, tagged and outlined. Same book, same bytes: dates are fixed.
std::string to_pdf(const Book& book);
// One sheet as SVG: groups carry ids, titles and descriptions; words are outlines, so no font is needed to show them.
std::string to_svg(const Sheet& sheet);
// One sheet as PNG at so many dots an inch.
std::string to_png(const Sheet& sheet, double dots_per_inch);

}  // namespace lensward
