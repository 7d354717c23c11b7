// How each intent came out.
#pragma once

#include <string>
#include <vector>

#include "emphasis/tally.h"
#include "plan/plan.h"

namespace lensward {

// One part of what an intent asks: "has the eye by 8 points" came to "63 %", the limit being "75 %". `told` is the same
// as a clause that a person reads, when it is missed with the limit: "has the eye by the 8 points asked for only 63 %
// of it, limit 75 %". It speaks of the verdict's favoured unless it names somebody; names stand in backticks.
struct Measure {
  std::string what;
  std::string value, limit;
  bool met = true;
  std::string told;
};

struct Verdict {
  enum class Result { holds, close, fails, not_judged };
  int intent = -1;  // index into Plan::intents; -1: a story's state, or a beat that says nothing
  int story = -1;   // index into Plan::stories; -1: none
  int beat = -1;
  int speech = -1;  // index into Plan::speeches, of a beat that says nothing: the line its speaker holds least
  Result result = Result::not_judged;
  std::string complaint;  // the rule it fails as, or is close as; empty when it holds
  std::vector<Measure> measures;
  Moment begin, end;  // the stretch it was judged over
  Target favoured;
  Target rival;    // the best rival at the deciding moment
  Moment decided;  // where the margin is least (fails, close) or the landing (holds)
  Points favoured_points, rival_points;
  Points margin;       // asked for
  Points mean_margin;  // over the stretch
  Share led{0};        // of the stretch
};

// What was asked, in the writer's words: "favour Oda", "story Sale leads"; "nothing asked: whoever speaks" of a beat
// that says nothing. Requires a verdict on this plan.
std::string asked_words(const Plan& plan, const Verdict& verdict);
// The line that asks it; of a beat that says nothing, the line its speaker holds least; empty when there is none.
Span asked_at(const Plan& plan, const Verdict& verdict);
// "holds", "close", "fails", "not judged".
const char* name_of(Verdict::Result result);

}  // namespace lensward
