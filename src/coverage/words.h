// Coverage in words, and as fields for other programs.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "coverage/coverage.h"

namespace lensward {

// "single of Maud, toward Bertil", "over Bertil's shoulder, on Maud", "insert of Ring", "master".
std::string set_up_name(const Plan& plan, const SetUp& set_up);

std::string coverage_text(const Plan& plan, const Coverage& coverage);
// "schema": "lensward/coverage/1". Places in m, bearings in deg, times in ms, hours in h.
nlohmann::ordered_json coverage_json(const Plan& plan, const Coverage& coverage);

}  // namespace lensward
