// Findings for other programs.
#pragma once

#include <nlohmann/json.hpp>

#include "findings/finding.h"
#include "source/source_file.h"

namespace lensward {

// "schema": "lensward/findings/1". Spans are in bytes, counted from 0, the end not included; lines and columns count
// from 1, columns in code points and, beside them, in units of UTF-16. Fields without a value are null.
nlohmann::ordered_json findings_json(const SourceSet& sources, const Findings& findings);

}  // namespace lensward
