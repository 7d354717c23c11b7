#include "rules/across_scenes.h"

#include <algorithm>

namespace lensward {

void Ledger::enter(const Plan& plan) {
  scenes_.push_back(plan.facts.name);
  for (const Intent& intent : plan.intents) {
    const bool plant = intent.kind == Intent::Kind::plant;
    if (!plant && intent.kind != Intent::Kind::pay_off) continue;
    for (const Target& target : intent.targets) {
      entries_.push_back({scenes_.size() - 1, plant, name_of(plan, target)});
    }
  }
}

std::size_t Ledger::number_of(const std::string& scene) const {
  return static_cast<std::size_t>(std::find(scenes_.begin(), scenes_.end(), scene) - scenes_.begin());
}

bool Ledger::planted_before(const std::string& thing, const std::string& scene) const {
  return std::any_of(entries_.begin(), entries_.end(), [&](const Entry& entry) {
    return entry.plant && entry.thing == thing && entry.scene < number_of(scene);
  });
}

bool Ledger::paid_off_after(const std::string& thing, const std::string& scene) const {
  return std::any_of(entries_.begin(), entries_.end(), [&](const Entry& entry) {
    return !entry.plant && entry.thing == thing && entry.scene > number_of(scene);
  });
}

void settle_across_scenes(const Ledger& ledger, Findings& findings) {
  std::erase_if(findings.all(), [&](const Finding& finding) {
    if (finding.subject.people.empty()) return false;
    const std::string& thing = finding.subject.people.front();
    const std::string& scene = finding.subject.scene;
    return (finding.rule == "unpaid-plant" && ledger.paid_off_after(thing, scene)) ||
           (finding.rule == "payoff-from-nowhere" && ledger.planted_before(thing, scene));
  });
}

}  // namespace lensward
