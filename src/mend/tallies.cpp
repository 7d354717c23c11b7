#include "mend/tallies.h"

#include <algorithm>

namespace lensward {

bool counts(const Finding& finding) { return finding.severity != Severity::remark && !finding.waived_because; }

FindingTally tallied(const Findings& findings, const std::vector<Span>& left_out) {
  FindingTally tally;
  for (const Finding& finding : findings.all()) {
    const bool out =
        finding.rule == "slow-landing" && std::find(left_out.begin(), left_out.end(), finding.where) != left_out.end();
    tally[key_of(finding)] += counts(finding) && !out ? 1 : 0;
  }
  return tally;
}

int more_in(const FindingTally& tally, const FindingTally& than) {
  int more = 0;
  for (const auto& [key, count] : tally) {
    const auto other = than.find(key);
    more += std::max(0, count - (other == than.end() ? 0 : other->second));
  }
  return more;
}

int times(const Findings& findings, const FindingKey& key) {
  return static_cast<int>(std::count_if(findings.all().begin(), findings.all().end(), [&](const Finding& finding) {
    return !finding.waived_because && key_of(finding) == key;
  }));
}

std::vector<int> numbers_of(const Rehearsal& scene) {
  const auto& all = scene.findings.all();
  std::vector<int> numbers(all.size(), 0);
  int number = 0;
  for (const bool remarks : {false, true}) {
    for (std::size_t i = 0; i < all.size(); ++i) {
      const bool own = all[i].where.file == scene.file && !all[i].waived_because;
      if (own && (all[i].severity == Severity::remark) == remarks) numbers[i] = ++number;
    }
  }
  return numbers;
}

}  // namespace lensward
