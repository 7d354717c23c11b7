#include <algorithm>
#include <utility>

#include "base/listing.h"
#include "crew/trades.h"
#include "plan/called.h"

namespace lensward {
namespace {

template <class Value>
bool changes_in(const Lane<Value>& lane, Span line) {
  return std::ranges::any_of(lane, [&](const Segment<Value>& segment) {
    return segment.said_at.file == line.file && segment.said_at.begin >= line.begin && segment.said_at.begin < line.end;
  });
}

// What others do to somebody is theirs too: who is given something has to take it.
bool is_done_to(const PersonTrack& track, Span line) {
  return changes_in(track.feet, line) || changes_in(track.body, line) || changes_in(track.stance, line) ||
         changes_in(track.eyes, line) || changes_in(track.left_hand, line) || changes_in(track.right_hand, line);
}

CrewTable opening(const Plan& plan, PersonId person) {
  CrewTable table{"opening",
                  "As the scene opens",
                  "",
                  {{"mark", "mark", 16},
                   {"posture", "posture", 22},
                   {"faces", "faces", 24},
                   {"looks_at", "looks at", 34},
                   {"left_hand", "left hand", 34},
                   {"right_hand", "right hand", 34}},
                  {}};
  const PersonState state = person_at(plan, person, {});
  if (!state.present)
    table.rows.push_back({std::string("away"), {}, {}, {}, {}, {}});
  else
    table.rows.push_back({mark_at(plan, person, {}), std::string(spelling(state.posture)), compass_words(state.facing),
                          look_words(plan, person, {}), hand_words(plan, state.left_hand),
                          hand_words(plan, state.right_hand)});
  return table;
}

CrewTable moves(const Plan& plan, PersonId person) {
  CrewTable table{"moves",
                  "In order",
                  "The cue is what you hear or see; the times are reckoned. Metres in brackets count from the scene's "
                  "origin, eastward and northward. A look in brackets is assumed.",
                  {{"at_s", "at", 13},
                   {"cue", "cue", 54},
                   {"what", "what you do and say", 78},
                   {"lasts_s", "takes", 13},
                   {"mark", "then at", 12}},
                  {}};
  for (const Beat& beat : plan.beats)
    for (const BeatLine& line : beat.lines)
      if (concerns(plan, line, person))
        table.rows.push_back({OnTheClock{line.begin}, cue_words(plan, line.begin, person), deed_words(plan, line),
                              line.end > line.begin ? Entry{line.end - line.begin} : Entry{},
                              mark_at(plan, person, line.end)});
  put_in_time(table);
  return table;
}

}  // namespace

bool concerns(const Plan& plan, const BeatLine& line, PersonId person) {
  if (line.kind == BeatLine::Kind::intent || line.kind == BeatLine::Kind::story) return false;
  if (line.speech >= 0) return plan.speeches[static_cast<std::size_t>(line.speech)].speaker == person;
  return std::ranges::find(line.people, person) != line.people.end() ||
         is_done_to(plan.people[static_cast<std::size_t>(person.index)], line.said_at);
}

CrewSheet actor_sheet(const Plan& plan, PersonId person) {
  CrewSheet sheet{CrewSheet::For::actors, called(plan, person), person, {}, {}};
  CrewTable order = moves(plan, person);
  if (order.rows.empty()) return sheet;
  add(opening(plan, person), sheet);
  add(std::move(order), sheet);
  return sheet;
}

}  // namespace lensward
