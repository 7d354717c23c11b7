#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage payoff_from_nowhere_page{
    .sees = "A `pay off` of something that no earlier `plant` in this scene has laid.",
    .why = "The audience asks where it came from instead of what it means.",
    .example = "pay off Letter",
    .better =
        "plant Letter\n"
        "pay off Letter",
    .source = "by the meaning of the words.",
};

void payoff_from_nowhere(const Checked& checked, Reporter& report) {
  for (const Intent& payoff : checked.plan.intents) {
    if (payoff.kind != Intent::Kind::pay_off || payoff.targets.empty()) continue;
    const bool laid = std::any_of(checked.plan.intents.begin(), checked.plan.intents.end(), [&](const Intent& other) {
      return other.kind == Intent::Kind::plant && other.targets == payoff.targets && other.begin <= payoff.begin;
    });
    if (laid) continue;
    const int beat = beat_at(checked.plan, payoff.begin);
    report.add(payoff.said_at, {beat, payoff.begin, payoff.targets},
               quoted(checked, payoff.targets.front()) + " is paid off in " + beat_words(checked, beat) +
                   " and never planted before in this scene");
  }
}

}  // namespace lensward
