// Findings that came and went, by their keys; intents and how they came out.
#include <algorithm>
#include <map>
#include <utility>

#include "compare/parts.h"
#include "findings/key.h"

namespace lensward {
namespace {

struct BothSides {
  std::vector<const Finding*> before, after;
};
using ByKey = std::map<FindingKey, BothSides>;

// A renamed beat or scene must not make its findings new ones.
FindingKey key_as_after(const Comparing& comparing, const Finding& finding) {
  FindingKey key = key_of(finding);
  if (key.scene == comparing.changes.scene_before) key.scene = comparing.changes.scene_after;
  for (const BeatChanges& beat : comparing.changes.beats) {
    if (beat.fate == BeatChanges::Fate::renamed && key.beat == beat.before) {
      key.beat = beat.after;
      break;
    }
  }
  return key;
}

ByKey by_key(const Comparing& comparing) {
  ByKey keys;
  for (const Finding& finding : comparing.before.findings.all()) {
    if (!finding.waived_because) keys[key_as_after(comparing, finding)].before.push_back(&finding);
  }
  for (const Finding& finding : comparing.after.findings.all()) {
    if (!finding.waived_because) keys[key_of(finding)].after.push_back(&finding);
  }
  return keys;
}

// Remarks tell of defaults taken; they are counted.
int told(const std::vector<const Finding*>& findings) {
  return static_cast<int>(std::count_if(findings.begin(), findings.end(),
                                        [](const Finding* finding) { return finding->severity != Severity::remark; }));
}

// The gravest; null when there are only remarks.
const Finding* gravest(const std::vector<const Finding*>& findings) {
  const Finding* worst = nullptr;
  for (const Finding* finding : findings) {
    if (finding->severity == Severity::remark) continue;
    if (worst == nullptr || finding->severity > worst->severity) worst = finding;
  }
  return worst;
}

bool waived_now(const Findings& findings, const FindingKey& key) {
  return std::any_of(findings.all().begin(), findings.all().end(),
                     [&](const Finding& finding) { return finding.waived_because && key_of(finding) == key; });
}

// Of a beat that is gone, and of no beat at all, it is the scene.
std::vector<Change>& place_of(Comparing& comparing, const std::string& beat) {
  if (beat.empty()) return comparing.changes.scene;
  for (BeatChanges& one : comparing.changes.beats) {
    if (one.after == beat && one.fate != BeatChanges::Fate::added) return one.changes;
  }
  return comparing.changes.scene;
}

void compare_key(Comparing& comparing, const FindingKey& key, const BothSides& sides) {
  const Finding *before = gravest(sides.before), *after = gravest(sides.after);
  const int more = told(sides.after) - told(sides.before);
  Change change;
  change.aspect = Aspect::finding;
  change.who = key.rule;
  change.amount = more;
  if (before != nullptr) change.before = before->message;
  if (after != nullptr) change.after = after->message;
  if (more != 0) {
    change.way = more > 0 ? ChangeWay::added : ChangeWay::dropped;
    // Where some of the key are left, what is told is that there are more or fewer.
    change.note = name_of((more > 0 ? after : before)->severity);
    if (more < 0 && waived_now(comparing.after.findings, key)) change.note = "waived";
  } else if (before != nullptr && before->severity != after->severity) {
    change.aspect = Aspect::finding_severity;
    change.note = name_of(after->severity);
    change.before = name_of(before->severity);
  } else {
    return;
  }
  place_of(comparing, key.beat).push_back(std::move(change));
}

// An intent is the same one under the same words, the first of them with the first.
std::vector<std::pair<std::string, const Verdict*>> named_verdicts(const Draft& draft, int beat) {
  std::map<std::string, int> seen;
  std::vector<std::pair<std::string, const Verdict*>> named;
  for (const Verdict& verdict : draft.verdicts) {
    if (verdict.beat != beat) continue;
    const std::string words = asked_words(draft.plan, verdict);
    const int count = ++seen[words];
    named.emplace_back(count == 1 ? words : words + " (" + std::to_string(count) + ")", &verdict);
  }
  return named;
}

const Verdict* verdict_named(const std::vector<std::pair<std::string, const Verdict*>>& named,
                             const std::string& words) {
  const auto found = std::find_if(named.begin(), named.end(), [&](const auto& one) { return one.first == words; });
  return found == named.end() ? nullptr : found->second;
}

void compare_verdicts_of(Comparing& comparing, const BeatPair& beat, std::vector<Change>& into) {
  const auto before = named_verdicts(comparing.before, beat.before);
  const auto after = named_verdicts(comparing.after, beat.after);
  for (const auto& [words, verdict] : before) {
    const Verdict* now = verdict_named(after, words);
    if (now == nullptr) {
      into.push_back({Aspect::intent, ChangeWay::dropped, words, name_of(verdict->result), "", "", 0});
    } else if (now->result != verdict->result) {
      into.push_back({Aspect::verdict, ChangeWay::changed, words, name_of(verdict->result), name_of(now->result),
                      now->complaint, 0});
    }
  }
  for (const auto& [words, verdict] : after) {
    if (verdict_named(before, words) != nullptr) continue;
    into.push_back({Aspect::intent, ChangeWay::added, words, "", name_of(verdict->result), verdict->complaint, 0});
  }
}

}  // namespace

void compare_findings(Comparing& comparing) {
  for (const auto& [key, sides] : by_key(comparing)) {
    compare_key(comparing, key, sides);
    const int remarks = static_cast<int>(sides.after.size()) - told(sides.after) -
                        (static_cast<int>(sides.before.size()) - told(sides.before));
    (remarks > 0 ? comparing.changes.remarks_came : comparing.changes.remarks_went) += std::abs(remarks);
  }
}

void compare_verdicts(Comparing& comparing) {
  for (std::size_t i = 0; i < comparing.beats.size(); ++i) {
    compare_verdicts_of(comparing, comparing.beats[i], *comparing.found[i]);
  }
}

}  // namespace lensward
