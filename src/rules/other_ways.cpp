#include "rules/other_ways.h"

#include <algorithm>
#include <utility>

namespace lensward {
namespace {

bool same(const Finding& a, const Finding& b) {
  return a.rule == b.rule && a.where == b.where && a.message == b.message;
}

// Findings of reading and naming know no beat; they are of the line they stand in.
bool stands_in(const Finding& finding, const Plan& plan, const std::string& beat) {
  const auto found =
      std::find_if(plan.beats.begin(), plan.beats.end(), [&](const Beat& candidate) { return candidate.name == beat; });
  if (found == plan.beats.end()) return false;
  return std::any_of(found->lines.begin(), found->lines.end(), [&](const BeatLine& line) {
    return line.said_at.file == finding.where.file && line.said_at.begin <= finding.where.begin &&
           finding.where.begin < line.said_at.end;
  });
}

}  // namespace

void add_findings_of_way(const WayOfScene& way, const Plan& plan, const Findings& with_way, Findings& told) {
  const std::string name = "way " + way.choice.way + " of " + way.choice.beat;
  const std::string words = "way " + way.choice.way + " of `" + way.choice.beat + '`';
  for (const Finding& finding : with_way.all()) {
    if (finding.severity == Severity::remark || finding.waived_because) continue;
    const bool nameless = finding.subject.beat.empty() && stands_in(finding, plan, way.choice.beat);
    if (finding.subject.beat != way.choice.beat && !nameless) continue;
    Finding of_way = finding;
    // What cannot be read or named is so in every way the line belongs to.
    const bool known = nameless && std::any_of(told.all().begin(), told.all().end(),
                                               [&](const Finding& other) { return same(other, finding); });
    if (known) continue;
    of_way.subject.beat = name;
    of_way.message = words + ": " + finding.message;
    told.add(std::move(of_way));
  }
}

}  // namespace lensward
