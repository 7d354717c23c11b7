#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage unpaid_plant_page{
    .sees = "A `plant` without a later `pay off` of the same thing in this scene.",
    .why = "The audience goes on waiting for it.",
    .example = "plant Letter",
    .better =
        "plant Letter\n"
        "pay off Letter",
    .source = "by the meaning of the words.",
};

void unpaid_plant(const Checked& checked, Reporter& report) {
  for (const Intent& plant : checked.plan.intents) {
    if (plant.kind != Intent::Kind::plant || plant.targets.empty()) continue;
    const bool paid = std::any_of(checked.plan.intents.begin(), checked.plan.intents.end(), [&](const Intent& other) {
      return other.kind == Intent::Kind::pay_off && other.targets == plant.targets && other.begin >= plant.begin;
    });
    if (paid) continue;
    const int beat = beat_at(checked.plan, plant.begin);
    report.add(plant.said_at, {beat, plant.begin, plant.targets},
               quoted(checked, plant.targets.front()) + " is planted in " + beat_words(checked, beat) +
                   " and never paid off in this scene");
  }
}

}  // namespace lensward
