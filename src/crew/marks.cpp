#include <algorithm>
#include <utility>

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
  for (Field& wall : Tape::names_of_walls()) table.fields.push_back(std::move(wall));
  table.how += walls_out(plan);
  for (const Mark* mark : marks_in_order(plan)) {
    const PersonState state = person_at(plan, mark->person, mark->reached);
    table.rows.push_back({Count{static_cast<int>(table.rows.size()) + 1}, mark->name, called(plan, mark->person),
                          person_of(plan, mark->person).tape, tape.from_first(mark->at), tape.from_second(mark->at),
                          compass_words(state.facing), OnTheClock{mark->reached}, std::string(known_by(mark->origin))});
    for (Entry& wall : tape.walls()) table.rows.back().push_back(std::move(wall));
  }
  return table;
}

// Where the furniture stands, since the marks are found by it.
CrewTable furniture(const Plan& plan) {
  const Tape tape(plan.stage);
  CrewTable table{"furniture",
                  "Furniture",
                  "To the middle of each, square to the same two walls.",
                  {{"piece", "piece", 34},
                   {"length_m", "long", 18},
                   {"depth_m", "deep", 18},
                   {"piece_height_m", "high", 18},
                   tape.first("piece"),
                   tape.second("piece"),
                   {"front", "front to", 24}},
                  {}};
  for (const Piece& piece : plan.stage.pieces)
    table.rows.push_back({piece.name, piece.length, piece.depth, piece.height, tape.from_first(piece.at),
                          tape.from_second(piece.at), compass_words(piece.front)});
  return table;
}

}  // namespace

CrewSheet marks_sheet(const Plan& plan) {
  CrewSheet sheet{CrewSheet::For::marks, "Marks", {}, {}, {}};
  add(to_tape(plan), sheet);
  add(furniture(plan), sheet);
  add_notes(plan, sheet);
  return sheet;
}

}  // namespace lensward
