// Who speaks to whom, where both are then.
#pragma once

#include <vector>

#include "plan/plan.h"

namespace lensward {

// Which side of the way from one to another a point is on: 1 to the left of it, -1 to the right, 0 less than 20 cm off
// the line.
int side_of_line(Vec2 from, Vec2 to, Vec2 at);

// The angle at the subject between two cameras, 0..180. Under 30 degrees a cut from one to the other reads as a jump
// unless the size changes well (the 30-degree rule).
Degrees angle_between(Vec2 subject, Vec2 one, Vec2 other);

struct Exchange {
  PersonId speaker, listener;  // the listener is not known when nobody is spoken to in particular
  Vec2 speaker_at, listener_at;
  int side = 1;   // of the line from speaker to listener on which the cameras stay
  Moment moment;  // the middle of the speech, at which everything is looked at
  int speech = -1, beat = -1;
  bool aside = false;  // to everyone or nobody: no line of its own to keep, and no shoulder
};

// A pair whose line the held frame's camera has on the other side later on.
struct CrossedLine {
  PersonId one, other;
  Moment at;
};

// In the order of the speeches; what is said off, and by people who are not there, has none. A pair keeps the side that
// the held frame's camera had when they first spoke; where it is on the other side later, that is told in `crossed`.
std::vector<Exchange> exchanges_of(const Plan& plan, std::vector<CrossedLine>& crossed);

}  // namespace lensward
