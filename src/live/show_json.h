// What plays, for the page's script.
#pragma once

#include <nlohmann/json.hpp>

#include "live/show.h"

namespace lensward {

// "schema": "lensward/scene/1". Moments in ms, floors in m (x east, y north), bearings in degrees, shares in percent.
// Rows of tracks are lists, to be short; what stands in which place of them is said beside each in docs/page.md.
nlohmann::ordered_json show_json(const Show& show);

}  // namespace lensward
