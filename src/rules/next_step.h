// The one line a director could type to move the eye back.
#pragma once

#include <string>

#include "rules/reasons.h"

namespace lensward {

std::string next_step(const Checked& checked, Moment moment, const Target& ahead, const Target& behind,
                      const Reason& reason);

// A line that brings light onto somebody: a lamp that can be aimed, else a new one.
std::string light_step(const Checked& checked, const Target& who);

}  // namespace lensward
