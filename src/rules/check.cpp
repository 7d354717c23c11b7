#include "rules/check.h"

#include <algorithm>
#include <utility>

#include "rules/pages.h"
#include "rules/rule.h"
#include "rules/waivers.h"

namespace lensward {
namespace {

struct Rule {
  const char* id;
  Severity severity;
  const ManualPage& page;
  void (*check)(const Checked&, Reporter&);
};

const std::vector<Rule>& rules() {
  static const std::vector<Rule> all{
#define RULE(symbol, id, severity, waivable, line) {id, Severity::severity, symbol##_page, symbol},
#include "rules/rules.def"
#undef RULE
  };
  return all;
}

bool known(const std::string& name) {
  const std::vector<RuleEntry>& all = all_rules();
  return std::any_of(all.begin(), all.end(), [&](const RuleEntry& entry) { return entry.id == name; });
}

void report_unknown_rules(const Plan& plan, Findings& findings) {
  for (const Waiver& waiver : plan.waivers) {
    if (known(waiver.rule)) continue;
    Finding finding;
    finding.rule = "name.unknown-rule";
    finding.severity = Severity::warning;
    finding.where = waiver.said_at;
    finding.message = "no rule is called `" + waiver.rule + "`, so this line does nothing";
    const auto meant = nearest_rule(waiver.rule);
    finding.next_step = meant ? "did you mean `" + std::string(*meant) + "`" : "`lensward explain rules` lists them";
    findings.add(std::move(finding));
  }
}

void run(const Rule& rule, const Checked& checked, Findings& findings) {
  Reporter report(checked, rule.id, rule.severity, rule.page.why, findings);
  rule.check(checked, report);
}

}  // namespace

Finding& Reporter::add(Span where, const About& about, std::string message) {
  Finding finding;
  finding.rule = std::string(rule_);
  finding.severity = severity_;
  finding.where = where;
  finding.message = std::move(message);
  finding.on_set = why_;
  finding.at = about.at;
  finding.subject.scene = checked_.plan.facts.name;
  if (about.beat >= 0) finding.subject.beat = checked_.plan.beats[static_cast<std::size_t>(about.beat)].name;
  for (const Target& one : about.people) finding.subject.people.push_back(name_of(checked_.plan, one));
  return findings_.add(std::move(finding));
}

void check_rules(const Plan& plan, const Attention& attention, const std::vector<Verdict>& verdicts, Findings& findings,
                 const PlacesTried& tried) {
  Checked checked{plan, attention, verdicts, tried};
  const std::size_t from = findings.all().size();
  for (const Rule& rule : rules()) run(rule, checked, findings);
  report_unknown_rules(plan, findings);
  checked.waiver_used = apply_waivers(plan, findings);
  // Only now is it known which waivers are stale; before, the rule has nothing to look at.
  for (const Rule& rule : rules()) {
    if (rule.check == stale_waiver) run(rule, checked, findings);
  }
  apply_treatments(plan, from, findings);
}

}  // namespace lensward
