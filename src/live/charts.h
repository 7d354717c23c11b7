// Who has the eye over the whole scene, and why one has it rather than another, as the book has them.
#pragma once

#include <string>

#include "pages/lay_out.h"

namespace lensward {

// A section of HTML: the chart of attention, and a tally for each verdict that fails or is close. Nothing without
// attention.
std::string charts_html(const Results& results);

}  // namespace lensward
