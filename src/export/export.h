// Sheets -> bytes. The only folder that draws.
#pragma once

#include <string>
#include <vector>

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
// Drawings for a document that holds several: the inside of an <svg> for each, in mm, and the definitions of letters
// and clips that they share, for the document to hold once. Ids begin with `ids_begin`, a letter first, and are unique
// among all of them.
struct SvgParts {
  std::vector<std::string> drawings;
  std::string definitions;
};
SvgParts to_svg_parts(const std::vector<std::vector<Item>>& drawings, const std::string& ids_begin);
// One sheet as PNG at so many dots an inch, on paper white. Requires 1 <= dots_per_inch; pictures over 20 000 dots a
// side are made at the largest resolution that fits.
std::string to_png(const Sheet& sheet, double dots_per_inch);
// The same `width` dots across, 1..20 000, in sixteen inks, greys and tints of the accent: a quarter of the size, for
// files that hold many. May be called from several threads at once as long as the sheet has no words.
std::string to_small_png(const Sheet& sheet, int width);
// A table as CSV (RFC 4180, UTF-8): a row of keys, then one for each entry; numbers bare, in the unit of their key.
std::string to_csv(const CrewTable& table);

}  // namespace lensward
