// Those who matter to a stretch: the favoured and the speaking.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "rules/rule.h"

namespace lensward {

struct Featured {
  Target who;
  Stretch when;
  Span said_at;
  int beat = -1;
  bool speaks = false;  // else favoured
};

// Favoured by an intent, in the plan's order; then, unless `favoured_only`, speakers whose line is neither `off` nor
// thrown away. People only; beats that are not judged are left out.
enum class Whom { favoured_only, favoured_or_speaking };
std::vector<Featured> featured(const Checked& checked, Whom whom);

// Goes through the featured and reports each person once a beat, at the worst slice, when `bad` holds for long enough.
struct FrameRule {
  Whom whom = Whom::favoured_or_speaking;
  Milliseconds for_at_least{500};                                  // together
  Share of_the_stretch{0};                                         // and this part of the stretch
  std::function<double(const Slice&, const PersonSeen&)> how_bad;  // over 0: bad; the most is the worst
  std::function<std::string(const Featured&, const Slice&, const PersonSeen&, Milliseconds)> message;
  std::function<std::string(const Featured&, const Slice&, const PersonSeen&)> next_step;
};
void report_frame_rule(const Checked& checked, const FrameRule& rule, Reporter& report);

}  // namespace lensward
