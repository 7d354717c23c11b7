#include <algorithm>

#include "base/listing.h"
#include "crew/trades.h"
#include "plan/called.h"

namespace lensward {
namespace {

std::vector<Entry> state_row(const Plan& plan, const std::string& when, PersonId person, Moment moment) {
  const PersonState state = person_at(plan, person, moment);
  return {OnTheClock{moment},
          when,
          called(plan, person),
          mark_at(plan, person, moment),
          std::string(spelling(state.posture)),
          compass_words(state.facing),
          look_words(plan, person, moment),
          hand_words(plan, state.left_hand),
          hand_words(plan, state.right_hand)};
}

CrewTable states(const Plan& plan) {
  CrewTable table{"states",
                  "As each beat begins, and at the end",
                  "",
                  {{"at_s", "at", 12},
                   {"when", "beat", 26},
                   {"person", "who", 24},
                   {"mark", "mark", 16},
                   {"posture", "posture", 18},
                   {"faces", "faces", 20},
                   {"looks_at", "looks at", 20},
                   {"left_hand", "left hand", 18},
                   {"right_hand", "right hand", 18}},
                  {}};
  const auto add_all = [&](const std::string& when, Moment moment) {
    for (std::size_t i = 0; i < plan.stage.people.size(); ++i)
      if (const PersonId person{static_cast<int>(i)}; person_at(plan, person, moment).present)
        table.rows.push_back(state_row(plan, when, person, moment));
  };
  for (const Beat& beat : plan.beats) add_all(beat.name, beat.begin);
  add_all("the end", plan.duration());
  return table;
}

CrewTable choices(const Plan& plan) {
  CrewTable table{"choices",
                  "Taken for granted",
                  "What stands on the right, written down, settles it.",
                  {{"what", "what was chosen", 110}, {"line", "the line that settles it", 66}},
                  {}};
  for (const Assumption& assumption : plan.assumptions)
    table.rows.push_back({plain(assumption.what), plain(assumption.pin)});
  return table;
}

CrewTable waivers(const Plan& plan) {
  CrewTable table{"waivers",
                  "Broken on purpose",
                  "",
                  {{"from_s", "from", 14},
                   {"to_s", "to", 14},
                   {"rule", "rule", 36},
                   {"who", "who", 36},
                   {"because", "because", 70}},
                  {}};
  for (const Waiver& waiver : plan.waivers)
    table.rows.push_back({OnTheClock{waiver.begin}, OnTheClock{waiver.end}, waiver.rule,
                          waiver.people.empty() ? std::string("everyone") : listed(waiver.people), waiver.because});
  return table;
}

}  // namespace

CrewSheet script_sheet(const Plan& plan) {
  CrewSheet sheet{CrewSheet::For::script, "Script supervisor", {}, {}, {}};
  add(states(plan), sheet);
  add(choices(plan), sheet);
  add(waivers(plan), sheet);
  add_notes(plan, sheet);
  return sheet;
}

}  // namespace lensward
