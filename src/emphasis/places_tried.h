// Verdicts over vague places and small slips: would it still be so if somebody stood elsewhere in the place they were
// given, or a little off their mark?
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "emphasis/beats_known.h"
#include "emphasis/tally.h"
#include "emphasis/verdict.h"
#include "plan/plan.h"

namespace lensward {

// How a verdict came out with somebody at one point of their area.
struct PointTried {
  Vec2 at;
  Verdict::Result result = Verdict::Result::not_judged;
  Points lead;            // of the favoured over the best rival at the deciding moment
  std::string complaint;  // the rule it fails as, or is close as
};

// One verdict, one person, points of the place they were given: the area's corners, a grid of 50 cm through the mark,
// and of 25 cm where the verdict comes out otherwise at one point than at the next; of these, those with free floor and
// nobody else within 0.45 m. At most 40 by a wider grid. Only the mark moves: all others, all times
// and the way there are as before. An area that a glance at its first points shows to change little is left out.
struct PlaceTried {
  int verdict = -1;                // index into the verdicts
  int mark = -1;                   // index into Plan::marks
  std::vector<PointTried> points;  // the first is the mark
};

// The least slip along the lens axis found to turn a verdict that does not fail into one that does; positive: nearer
// the lens. Of 0.2 m, then halved twice for as long as it turns it. A slip that a glance shows to change too little for
// that is not looked at.
struct SlipFound {
  int verdict = -1;
  PersonId person;
  Metres slip;
};

struct PlacesTried {
  std::vector<PlaceTried> places;
  std::vector<SlipFound> slips;
};

// Looks at the beats again, each as if it were alone: four times a second (a long beat 32 times in all), and once a
// second for a glance. Verdicts that come out otherwise then are left out. After 1500 views of one area in a beat, or
// of a beat's slips, the rest of them is left untried. In the order of the text, however many threads share the work.
// `unwanted` and `known`: see weigh().
PlacesTried try_places(const Plan& plan, const Attention& attention, const std::vector<Verdict>& verdicts,
                       const std::function<bool()>& unwanted = {}, BeatsKnown* known = nullptr);

}  // namespace lensward
