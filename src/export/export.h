// Sheets -> bytes. The only folder that draws.
#pragma once

#include <string>

#include "crew/crew_sheet.h"
#include "pages/sheet.h"
#include "source/source_file.h"

namespace lensward {

// A PDF of all sheets, tagged and outlined. Same book, same bytes: dates are fixed. A book without sheets gives one
// empty page. A link whose destination is on no sheet is left out.
std::string to_pdf(const Book& book);
// One sheet as SVG: groups carry ids, titles and descriptions, and the line of the text that made them when `sources`
// is given; words are outlines, so no font is needed to show them. An id used twice gets a number at its second use.
std::string to_svg(const Sheet& sheet, const SourceSet* sources = nullptr);
// One sheet as PNG at so many dots an inch, on paper white. Requires 1 <= dots_per_inch; pictures over 20 000 dots a
// side are made at the largest resolution that fits.
std::string to_png(const Sheet& sheet, double dots_per_inch);
// A table as CSV (RFC 4180, UTF-8): a row of keys, then one for each entry; numbers bare, in the unit of their key.
std::string to_csv(const CrewTable& table);

}  // namespace lensward
