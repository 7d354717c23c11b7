// What covering the same scene the usual way would take, beside the held frame: a master, singles, over-shoulders and
// inserts, by who speaks to whom (docs/coverage.md).
#pragma once

#include <string>
#include <vector>

#include "emphasis/verdict.h"
#include "plan/exchanges.h"
#include "plan/plan.h"

namespace lensward {

struct SetUp {
  enum class Kind { master, single, over_shoulder, insert };
  Kind kind = Kind::master;
  PersonId of;                  // of singles and over-shoulders
  PersonId toward;              // whom they face; not known when they speak to nobody in particular
  Target thing;                 // of an insert
  CameraState camera;           // where it would stand, what it would see; of an insert not reckoned
  bool looks_right = false;     // of `of`, in the picture; of singles and over-shoulders
  bool in_the_way = false;      // stands in a wall that stays, beyond it, in furniture or in somebody
  std::vector<int> beats;       // in which it is wanted, in order
  int lines = 0;                // of `of`, spoken toward `toward`; of a master all
  Milliseconds spoken;          // and how long they are
  std::vector<Moment> moments;  // at which a cut to it would be motivated: a line begins, a thing is looked at
};

// One of the few set-ups worth taking beside the held frame.
struct Insurance {
  int set_up = -1;       // index into the set-ups
  Milliseconds rescues;  // in which the eye should be on what it shows, and is not, or hardly
  Moment joins;          // where a cut to it lets two takes be joined
};

// What one mistake costs.
struct HeldTake {
  int set_ups = 0;  // cameras that are on air
  Milliseconds length;
  int lines = 0, moves_of_people = 0, looks = 0, pulls = 0, moves_of_camera = 0, changes_of_light = 0;
  int failing = 0, close = 0;  // wishes and stories
};

struct HoursRange {
  double least = 0, most = 0;
};
// 20 to 45 minutes a set-up. Weak: what producers of small films write, no statistics; crowds, weather and traffic take
// an hour.
HoursRange hours_for(int set_ups);

struct Coverage {
  std::vector<SetUp> set_ups;  // the master first, then by when they are first wanted
  std::vector<CrossedLine> crossed;
  HeldTake held;
  std::vector<Insurance> insurance;  // three at most, the one that buys most first
};

// Requires verdicts on this plan. A scene without beats or without a camera has no set-ups.
Coverage coverage_of(const Plan& plan, const std::vector<Verdict>& verdicts);

}  // namespace lensward
