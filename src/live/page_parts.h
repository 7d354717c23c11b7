// The parts of the page that read without scripts, as HTML.
#pragma once

#include <string>

#include "live/floor_drawing.h"
#include "live/pictures.h"
#include "live/show.h"

namespace lensward {

struct PageParts {
  const Results& results;
  const Show& show;
  const FloorDrawing& floor;
  const Pictures& pictures;
};

// Words of a person's name or the text, kept from turning the direction of those round them.
std::string isolated(const std::string& words);
// `names` in backticks become bold.
std::string with_names(const std::string& message);

std::string beats_html(const PageParts& parts);
std::string people_html(const PageParts& parts);
// Those that belong to no beat.
std::string findings_html(const PageParts& parts);
std::string cautions_html(const Show& show);

// Symbols of the moving floor: bodies, head; see page.js.
std::string symbols_html(const FloorDrawing& floor);

}  // namespace lensward
