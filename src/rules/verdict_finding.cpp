#include "rules/verdict_finding.h"

#include <algorithm>

#include "rules/reasons.h"
#include "rules/words.h"

namespace lensward {
namespace {

std::vector<Target> people_of(const Verdict& verdict) {
  std::vector<Target> people;
  for (const Target& one : {verdict.favoured, verdict.rival}) {
    if (one.kind == Target::Kind::person) people.push_back(one);
  }
  return people;
}

void explain(const Checked& checked, const Verdict& verdict, Explains explains, Finding& finding) {
  if (explains == Explains::nothing || verdict.rival.kind == Target::Kind::nothing) return;
  const bool rival_leads = explains == Explains::rival_over_favoured;
  const Target& ahead = rival_leads ? verdict.rival : verdict.favoured;
  const Target& behind = rival_leads ? verdict.favoured : verdict.rival;
  add_reasons(checked, verdict.decided, ahead, behind, finding);
  if (rival_leads && verdict.result == Verdict::Result::fails) excuse_default(checked, verdict, ahead, behind, finding);
}

}  // namespace

void report_verdicts(const Checked& checked, std::string_view rule, Explains explains, Reporter& report,
                     const std::function<std::string(const Verdict&)>& message) {
  for (const Verdict& verdict : checked.verdicts) {
    if (verdict.complaint != rule) continue;
    Finding& finding =
        report.add(line_of(checked, verdict), {verdict.beat, verdict.decided, people_of(verdict)}, message(verdict));
    if (verdict.result == Verdict::Result::close) finding.severity = std::min(finding.severity, Severity::warning);
    explain(checked, verdict, explains, finding);
  }
}

std::string shortfall_words(const Verdict& verdict) { return first_unmet(verdict).told; }

}  // namespace lensward
