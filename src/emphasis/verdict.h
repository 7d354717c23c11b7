// How each intent came out.
#pragma once

#include <string>
#include <vector>

#include "emphasis/tally.h"
#include "plan/plan.h"

namespace lensward {

struct Verdict {
  enum class Result { holds, close, fails, not_judged };
  int intent = -1;  // index into Plan::intents; -1: a beat that says nothing, checked against its speakers
  int beat = -1;
  Result result = Result::not_judged;
  Target favoured;
  Target rival;    // the best rival at the deciding moment
  Moment decided;  // where the margin is least (fails, close) or the landing (holds)
  Points favoured_points, rival_points;
  Points mean_margin;  // over the stretch
  Share led{0};        // of the stretch
};

}  // namespace lensward
