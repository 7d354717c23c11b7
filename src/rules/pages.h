// The manual of all rules: those checked here and those that earlier stages report.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "findings/finding.h"

namespace lensward {

struct RuleEntry {
  std::string_view id;
  Severity severity;  // when it fails; a close call is a warning
  bool waivable;      // of those with a dot only as a remark
  std::string_view says;
};

// In the order of the reference.
const std::vector<RuleEntry>& all_rules();

// The manual page of a rule, as `explain` prints it; nothing when no rule is called so.
std::optional<std::string> rule_page(std::string_view id);

// The rule that was meant by a name that no rule has, by spelling; nothing when none is near.
std::optional<std::string_view> nearest_rule(std::string_view name);

// docs/rules.md: one table of all rules and the pages of those checked here.
std::string rules_document();

}  // namespace lensward
