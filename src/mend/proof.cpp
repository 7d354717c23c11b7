#include "mend/proof.h"

#include <algorithm>

#include "findings/key.h"
#include "mend/edited_text.h"
#include "mend/picture.h"
#include "mend/tallies.h"

namespace lensward {
namespace {

void tell_leads(const Verdict& verdict, const Rehearsal& again, WayOut& way) {
  const auto same = std::find_if(again.verdicts.begin(), again.verdicts.end(), [&](const Verdict& other) {
    return other.intent == verdict.intent && other.story == verdict.story && other.beat == verdict.beat;
  });
  if (same == again.verdicts.end()) return;
  way.lead_before = lead_of(verdict);
  way.lead_after = lead_of(*same);
}

}  // namespace

Proof::Proof(const Rehearsal& scene, const Rehearse& rehearse) : scene_(scene), rehearse_(rehearse) {
  before_ = rehearse(std::string(scene.text()), Depth::marks).findings;
}

std::optional<WayOut> Proof::proved(const Finding& finding, const Case& about, const Trial& change) const {
  const std::string text = edited_text(scene_.text(), change.edits);
  const Rehearsal at_marks = rehearse_(text, Depth::marks);
  if (worse(at_marks) || !helps(finding, before_, at_marks)) return std::nullopt;
  // As a director will check it, with everybody elsewhere in their places too.
  const Rehearsal again = rehearse_(text, Depth::places);
  if (!helps(finding, scene_.findings, again)) return std::nullopt;
  if (times(again.findings, key_of(finding)) >= times(scene_.findings, key_of(finding))) return std::nullopt;
  WayOut way;
  way.edits = change.edits;
  for (const Offer& offer : change.offers) way.department = std::max(way.department, std::optional(offer.department));
  way.lines = change.lines;
  if (about.judged) tell_leads(about.verdict, again, way);
  way.mends = gone(scene_.findings, again.findings);
  way.come_late = who_comes_late(again.findings);
  way.leaves = lost_from_picture(scene_, again);
  return way;
}

std::optional<WayOut> Proof::repaired(const Finding& finding, const Repair& repair) const {
  const Rehearsal again = rehearse_(edited_text(scene_.text(), repair.edits), Depth::marks);
  if (times(again.findings, key_of(finding)) >= times(before_, key_of(finding))) return std::nullopt;
  // What was found in a scene that could be read hides nothing.
  const bool was_read = finding.rule.find('.') == std::string::npos;
  if (was_read && more_in(tallied(again.findings, risen(again)), tallied(before_)) > 0) return std::nullopt;
  WayOut way;
  way.edits = repair.edits;
  if (was_read) way.department = department_of(finding.rule);
  for (const TextEdit& edit : repair.edits) {
    const std::string old(scene_.sources.text(edit.where));
    way.lines.push_back({scene_.sources.begin_of(edit.where).line, true, edit.text, old});
  }
  way.mends = gone(before_, again.findings);
  return way;
}

// No error or warning more than before; and less of the finding in question, if it was there.
bool Proof::helps(const Finding& finding, const Findings& before, const Rehearsal& again) const {
  const Findings& after = again.findings;
  const int was = times(before, key_of(finding));
  return more_in(tallied(after, risen(again)), tallied(before)) == 0 &&
         (was == 0 || times(after, key_of(finding)) < was);
}

// Where the wishes stand that failed and fail no longer. Only now can it be asked whether they come late: that is
// no harm.
std::vector<Span> Proof::risen(const Rehearsal& again) const {
  std::vector<Span> risen;
  for (std::size_t i = 0; i < std::min(again.verdicts.size(), scene_.verdicts.size()); ++i) {
    const bool failed = scene_.verdicts[i].result == Verdict::Result::fails;
    if (failed && rank_of(again.verdicts[i].result) > 0) risen.push_back(asked_at(again.plan, again.verdicts[i]));
  }
  return risen;
}

// The findings of the scene that another text has fewer of than this one had, both played as far.
std::vector<int> Proof::gone(const Findings& before, const Findings& again) const {
  std::vector<int> gone;
  const auto& all = scene_.findings.all();
  for (std::size_t i = 0; i < all.size(); ++i) {
    const FindingKey key = key_of(all[i]);
    if (counts(all[i]) && times(again, key) < times(before, key)) gone.push_back(static_cast<int>(i));
  }
  return gone;
}

// What `risen` lets pass is told with the way out.
std::vector<std::string> Proof::who_comes_late(const Findings& again) const {
  std::vector<std::string> late;
  const auto before = tallied(scene_.findings);
  for (const auto& [key, count] : tallied(again)) {
    const auto was = before.find(key);
    if (key.rule != "slow-landing" || count <= (was == before.end() ? 0 : was->second)) continue;
    if (!key.people.empty()) late.push_back(key.people.front());
  }
  return late;
}

bool Proof::worse(const Rehearsal& again) const {
  if (again.verdicts.size() != scene_.verdicts.size()) return true;
  for (std::size_t i = 0; i < again.verdicts.size(); ++i) {
    if (rank_of(again.verdicts[i].result) < rank_of(scene_.verdicts[i].result)) return true;
  }
  return false;
}

}  // namespace lensward
