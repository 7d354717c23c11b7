#include "base/quantity_text.h"
#include "rules/featured.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage masked_page{
    .sees =
        "A body, a piece of furniture or a prop that hides 30 % or more of the favoured or speaking face, of "
        "what of it is in frame, for half a second.",
    .why = "The audience looks at whatever stands in front.",
    .example =
        "favour Wren\n"
        "Oda is at 1 m camera side of Wren",
    .better =
        "favour Wren\n"
        "Oda is at 1 m camera side of Wren, crouching",
    .source = "common practice, no source.",
};

namespace {

constexpr double hides_too_much = 0.3;

double hidden_part(const PersonSeen& seen) {
  if (seen.head_in_frame.value < 0.3) return 0;
  return 1 - seen.head_visible.value / seen.head_in_frame.value;
}

std::string by_whom(const Checked& checked, const PersonSeen& seen) {
  return seen.masked_by.empty() ? std::string("the set") : quoted(checked, seen.masked_by.front());
}

}  // namespace

void masked(const Checked& checked, Reporter& report) {
  FrameRule rule;
  rule.how_bad = [](const Slice&, const PersonSeen& seen) {
    return hidden_part(seen) >= hides_too_much ? hidden_part(seen) : 0;
  };
  rule.message = [&](const Featured& one, const Slice& slice, const PersonSeen& seen, Milliseconds together) {
    return by_whom(checked, seen) + " hides " + text_of(Share{hidden_part(seen)}) + " of the face of " +
           quoted(checked, one.who) + " " + at_words(slice.begin) + " in " + beat_words(checked, one.beat) + ", for " +
           text_of(together) + (one.speaks ? " of the line" : " of the favoured stretch") + "; limit 30 % for 0.5 s";
  };
  rule.next_step = [&](const Featured&, const Slice&, const PersonSeen& seen) {
    return seen.masked_by.empty() ? std::string{} : "move " + by_whom(checked, seen) + " a step aside, or the camera";
  };
  report_frame_rule(checked, rule, report);
}

}  // namespace lensward
