#include <algorithm>

#include "crew/trades.h"
#include "plan/called.h"

namespace lensward {
namespace {

const char* known_by(Origin origin) {
  switch (origin) {
    case Origin::settled:
    case Origin::assumed:
      return "chosen by the program";
    case Origin::bound:
      return "reckoned from the text";
    default:
      return "as written";
  }
}

CrewTable to_tape(const Plan& plan) {
  const Tape tape(plan.stage);
  CrewTable table{"marks",
                  "To tape, in this order",
                  "From the middle of the feet, square to each wall.",
                  {{"order", "no.", 8},
                   {"mark", "mark", 12},
                   {"person", "who", 24},
                   {"tape", "tape", 16},
                   tape.first("mark"),
                   tape.second("mark"),
                   {"faces", "faces", 20},
                   {"reached_s", "reached", 14},
                   {"known", "place", 20}},
                  {}};
  std::vector<const Mark*> marks;
  for (const Mark& mark : plan.marks)
    if (!mark.name.empty()) marks.push_back(&mark);
  std::ranges::stable_sort(marks, {}, [](const Mark* mark) { return mark->reached; });
  for (const Mark* mark : marks) {
    const PersonState state = person_at(plan, mark->person, mark->reached);
    table.rows.push_back({Count{static_cast<int>(table.rows.size()) + 1}, mark->name, called(plan, mark->person),
                          person_of(plan, mark->person).tape, tape.from_first(mark->at), tape.from_second(mark->at),
                          compass_words(state.facing), OnTheClock{mark->reached}, std::string(known_by(mark->origin))});
  }
  return table;
}

}  // namespace

CrewSheet marks_sheet(const Plan& plan) {
  CrewSheet sheet{CrewSheet::For::marks, "Marks", {}, {}, {}};
  add(to_tape(plan), sheet);
  add_notes(plan, {"floor"}, sheet);
  return sheet;
}

}  // namespace lensward
