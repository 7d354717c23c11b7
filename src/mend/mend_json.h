// Ways out of findings, for other programs.
#pragma once

#include <nlohmann/json.hpp>
#include <vector>

#include "mend/mend.h"

namespace lensward {

// "schema": "lensward/mending/1". A line with `old` is changed in place, one without is put below that line; edits are
// bytes of the scene's file. Leads are points, times ms. `mends` counts the findings that go with it, its own among
// them; `goes_with` names a way of another finding that mends this one.
nlohmann::ordered_json mending_json(const Rehearsal& scene, const std::vector<Trouble>& troubles);

}  // namespace lensward
