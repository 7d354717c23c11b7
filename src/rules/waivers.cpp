#include "rules/waivers.h"

#include <algorithm>
#include <utility>

#include "rules/pages.h"

namespace lensward {
namespace {

std::optional<Severity> severity_named(const std::string& name) {
  for (const Severity severity : {Severity::error, Severity::warning, Severity::remark}) {
    if (name == name_of(severity)) return severity;
  }
  return std::nullopt;
}

bool dotted(const std::string& rule) { return rule.find('.') != std::string::npos; }

bool may_be_waived(const Finding& finding) {
  if (dotted(finding.rule)) return finding.severity == Severity::remark;
  const std::vector<RuleEntry>& rules = all_rules();
  const auto found =
      std::find_if(rules.begin(), rules.end(), [&](const RuleEntry& entry) { return entry.id == finding.rule; });
  return found != rules.end() && found->waivable;
}

bool concerns(const Waiver& waiver, const Finding& finding) {
  if (waiver.people.empty()) return true;
  // The first person of a finding is the one it complains about.
  const std::vector<std::string>& people = finding.subject.people;
  return !people.empty() &&
         std::find(waiver.people.begin(), waiver.people.end(), people.front()) != waiver.people.end();
}

bool within(const Plan& plan, const Waiver& waiver, const Finding& finding) {
  if (!finding.at) return waiver.begin == Moment{} && waiver.end >= plan.duration();
  return waiver.begin <= *finding.at && *finding.at <= waiver.end;
}

bool treated(const Settings& settings, Finding& finding) {
  const auto told = settings.treat.find(finding.rule);
  if (told == settings.treat.end()) return true;
  if (told->second == "off") return false;
  if (const auto severity = severity_named(told->second)) finding.severity = *severity;
  return true;
}

bool has_reason(const Waiver& waiver) { return waiver.because.find_first_not_of(" \t") != std::string::npos; }

}  // namespace

std::vector<bool> apply_waivers(const Plan& plan, Findings& findings) {
  std::vector<bool> used(plan.waivers.size(), false);
  for (Finding& finding : findings.all()) {
    if (!may_be_waived(finding)) continue;
    for (std::size_t i = 0; i < plan.waivers.size(); ++i) {
      const Waiver& waiver = plan.waivers[i];
      const bool fits = waiver.rule == finding.rule && concerns(waiver, finding) && within(plan, waiver, finding);
      if (!fits || !has_reason(waiver)) continue;
      used[i] = true;
      finding.waived_because = waiver.because;
    }
  }
  return used;
}

void apply_treatments(const Plan& plan, std::size_t from, Findings& findings) {
  std::vector<Finding> kept;
  for (std::size_t i = 0; i < findings.all().size(); ++i) {
    Finding& finding = findings.all()[i];
    const bool may = finding.severity == Severity::remark || (!dotted(finding.rule) && i >= from);
    if (!may || treated(plan.settings, finding)) kept.push_back(std::move(finding));
  }
  findings.all() = std::move(kept);
}

}  // namespace lensward
