#include "rules/verdict_finding.h"

#include <algorithm>

#include "rules/reasons.h"
#include "rules/safe_part.h"
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

std::string whose_place(const Checked& checked, const PlaceTried& place) {
  const Mark& mark = checked.plan.marks[static_cast<std::size_t>(place.mark)];
  return quoted(checked, {Target::Kind::person, mark.person.index, {}});
}

Span place_line(const Checked& checked, const PlaceTried& place) {
  return checked.plan.marks[static_cast<std::size_t>(place.mark)].said_at;
}

// What fails at the settled mark and holds elsewhere in the place told is not lost yet.
void tell_where_it_holds(const Checked& checked, int verdict, Finding& finding) {
  const PlaceTried* place = turned_by_place(checked, verdict);
  if (place == nullptr) return;
  finding.severity = std::min(finding.severity, Severity::warning);
  finding.message += "; it depends on the vague place of " + whose_place(checked, *place) + ": it holds " +
                     safe_part_words(checked, *place);
  if (finding.labels.empty() || finding.labels.front().where != place_line(checked, *place))
    finding.labels.push_back({place_line(checked, *place), whose_place(checked, *place) + " is placed here"});
  finding.next_step = pin_words(checked, *place);
}

// What holds at the settled mark and fails elsewhere in the place told.
void report_depends(const Checked& checked, std::string_view rule, Reporter& report) {
  for (std::size_t i = 0; i < checked.verdicts.size(); ++i) {
    const Verdict& verdict = checked.verdicts[i];
    const PlaceTried* place = turned_by_place(checked, static_cast<int>(i));
    if (place == nullptr || verdict.result == Verdict::Result::fails) continue;
    const auto lost = std::find_if(place->points.begin(), place->points.end(),
                                   [](const PointTried& point) { return point.result == Verdict::Result::fails; });
    if (lost->complaint != rule) continue;
    Finding& finding = report.add(line_of(checked, verdict), {verdict.beat, verdict.decided, people_of(verdict)},
                                  "`" + asked_words(checked, verdict) + "` in " + beat_words(checked, verdict.beat) +
                                      " depends on the vague place of " + whose_place(checked, *place) + ": it holds " +
                                      safe_part_words(checked, *place));
    finding.severity = std::min(finding.severity, Severity::warning);
    finding.labels.push_back({place_line(checked, *place), whose_place(checked, *place) + " is placed here"});
    finding.next_step = pin_words(checked, *place);
  }
}

}  // namespace

void report_verdicts(const Checked& checked, std::string_view rule, Explains explains, Reporter& report,
                     const VerdictWords& message, const VerdictWords& step) {
  for (std::size_t i = 0; i < checked.verdicts.size(); ++i) {
    const Verdict& verdict = checked.verdicts[i];
    if (verdict.complaint != rule) continue;
    Finding& finding =
        report.add(line_of(checked, verdict), {verdict.beat, verdict.decided, people_of(verdict)}, message(verdict));
    if (verdict.result == Verdict::Result::close) finding.severity = std::min(finding.severity, Severity::warning);
    explain(checked, verdict, explains, finding);
    if (verdict.result == Verdict::Result::fails) tell_where_it_holds(checked, static_cast<int>(i), finding);
    if (step && finding.next_step.empty()) finding.next_step = step(verdict);
  }
  report_depends(checked, rule, report);
}

std::string shortfall_words(const Verdict& verdict) { return first_unmet(verdict).told; }

}  // namespace lensward
