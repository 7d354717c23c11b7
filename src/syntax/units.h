// Inside of syntax: the units as words. What they measure is for later stages.
#pragma once

#include <span>
#include <string_view>

namespace lensward {

// How many of the lesser unit go into one of the greater, for two that may be written together: `5 ft 7 in`, `1 min
// 30 s`. 0 for two that may not.
double lesser_units_in(std::string_view greater, std::string_view lesser);

// All units, as the grammar spells them.
std::span<const std::string_view> unit_words();

// The unit a writer meant by another word for it: "metres" is "m". Empty when unknown.
std::string_view unit_meant(std::string_view word);

}  // namespace lensward
