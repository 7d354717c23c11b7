// Lines that ask something of the eye: intents, stories, waivers and notes, each with the stretch it holds for.
#pragma once

#include <string>
#include <vector>

#include "plan/building.h"
#include "plan/timeline.h"

namespace lensward {

// A waiver that holds until a beat that may come later.
struct WaitingWaiver {
  std::size_t waiver = 0;
  std::string until;
};

// The beat the lines stand in.
struct BeatAsked {
  Building& building;
  BeatClock& clock;
  Moment top, end;
  bool judged = true;  // set false by a line whose cue means nothing
};

// Reads one line; false when it is none of these. `waiting` gathers waivers whose end is not known yet.
bool read_asking(BeatAsked& beat, const Statement& statement, std::vector<WaitingWaiver>& waiting);

// `favour`, `share`, `pass` and `favour nobody` replace one another: each ends where the next begins.
void end_replaced(std::vector<Intent>& intents, std::size_t first_of_beat);
// A story's state holds until its next; `hide` until its reveal, else until the scene ends.
void end_carried(Plan& plan);

// A waiver, with its people and its reason; its stretch is the caller's.
Waiver read_waiver(Building& building, const WaiveLine& line, Span span);
}  // namespace lensward
