#include "findings/finding.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace lensward {
namespace {

// A finding without a moment stands before those at one.
auto place_in_order(const Finding& finding) {
  return std::tie(finding.where.file, finding.where.begin, finding.at, finding.rule);
}

bool repeats(const Finding& a, const Finding& b) {
  return a.rule == b.rule && a.where == b.where && a.message == b.message;
}

}  // namespace

Finding& Findings::add(Finding finding) {
  all_.push_back(std::move(finding));
  return all_.back();
}

int Findings::count(Severity severity) const {
  return static_cast<int>(std::count_if(all_.begin(), all_.end(), [&](const Finding& finding) {
    return finding.severity == severity && !finding.waived_because;
  }));
}

bool Findings::any_at_or_above(Severity bar) const {
  return std::any_of(all_.begin(), all_.end(),
                     [&](const Finding& finding) { return finding.severity >= bar && !finding.waived_because; });
}

void sort_findings(Findings& findings) {
  std::vector<Finding>& all = findings.all();
  std::stable_sort(all.begin(), all.end(),
                   [](const Finding& a, const Finding& b) { return place_in_order(a) < place_in_order(b); });
  std::vector<Finding> kept;
  for (Finding& finding : all) {
    // Repeats share file and begin, but a finding of another time or rule may stand between them.
    bool known = false;
    for (auto before = kept.rbegin(); before != kept.rend() && !known; ++before) {
      if (before->where.file != finding.where.file || before->where.begin != finding.where.begin) break;
      known = repeats(*before, finding);
    }
    if (!known) kept.push_back(std::move(finding));
  }
  all = std::move(kept);
}

const char* name_of(Severity severity) {
  switch (severity) {
    case Severity::remark:
      return "remark";
    case Severity::warning:
      return "warning";
    case Severity::error:
      return "error";
  }
  return "error";
}

}  // namespace lensward
