// Where the writer has written what the page shows.
#pragma once

#include <nlohmann/json.hpp>

#include "live/show.h"

namespace lensward {

// Lines of people (by index), marks and findings (by index), as {"file", "line", "text"}; null for what no line says. A
// mark has its name, whose it is, where it is (m) and when it is reached besides. Words of lines are cut at 400 bytes.
nlohmann::ordered_json written_json(const Results& results, const Show& show);

// One of them.
nlohmann::ordered_json line_json(const SourceSet& sources, Span where);

}  // namespace lensward
