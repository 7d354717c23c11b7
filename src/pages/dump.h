// A sheet, printed: every placed item.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "pages/sheet.h"

namespace lensward {

// Stable and diffable; "schema" names its version. Printed as text by report/outline.h, or as JSON as it is.
nlohmann::ordered_json dump_sheet(const Sheet& sheet);

}  // namespace lensward
