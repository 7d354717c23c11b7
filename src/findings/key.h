// What makes a finding the same finding after an edit elsewhere.
#pragma once

#include <compare>
#include <string>
#include <vector>

#include "findings/finding.h"

namespace lensward {

// The rule and what it is about. No line, no moment, no measured value and no severity is part of it: those move when
// something else is edited. Several findings of one scene may have the same key; they are counted.
struct FindingKey {
  std::string rule, scene, beat;
  std::vector<std::string> people;

  auto operator<=>(const FindingKey&) const = default;
};
FindingKey key_of(const Finding& finding);

}  // namespace lensward
