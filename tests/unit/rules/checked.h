// What rule tests share: findings of a hand-made playback, changed as the test says.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "../emphasis/reel.h"
#include "rules/check.h"

namespace lensward {

inline std::vector<Finding> findings_of(const Reel& reel, const std::function<void(Attention&)>& change = {}) {
  Attention attention = reel.attention();
  if (change) change(attention);
  Findings findings;
  check_rules(reel.plan, attention, judge(reel.plan, attention), findings);
  return findings.all();
}

// The messages of one rule, in order.
inline std::vector<std::string> messages(const std::vector<Finding>& findings, const std::string& rule) {
  std::vector<std::string> found;
  for (const Finding& finding : findings) {
    if (finding.rule == rule) found.push_back(finding.message);
  }
  return found;
}

}  // namespace lensward
