#include <cmath>

#include "base/quantity_text.h"
#include "rules/featured.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage merging_page{
    .sees =
        "A favoured head that touches another head in the picture and is within half a stop of what is behind it, for "
        "a "
        "second and half of the stretch.",
    .why = "Two heads grow together, and the one that matters has no edge.",
    .example =
        "favour Oda\n"
        "Oda is at 0.5 m camera side of Pell",
    .better =
        "favour Oda\n"
        "Oda is at 0.5 m camera left of Pell",
    .source = "common practice, no source.",
};

namespace {

constexpr double half_a_stop = 0.5;

bool touch(const Box& a, const Box& b) {
  return a.right > a.left && b.right > b.left && a.left <= b.right && b.left <= a.right && a.top <= b.bottom &&
         b.top <= a.bottom;
}

// Whose head it grows together with; nobody known when it has an edge of its own.
PersonId grown_into(const View& view, const PersonSeen& seen) {
  if (seen.head_visible.value < 0.3 || std::fabs(seen.against_behind.value) >= half_a_stop) return {};
  for (const PersonSeen& other : view.people)
    if (other.person != seen.person && other.in_front && other.head_visible.value > 0.2 &&
        touch(seen.head_box, other.head_box))
      return other.person;
  return {};
}

}  // namespace

void merging(const Checked& checked, Reporter& report) {
  FrameRule rule;
  rule.whom = Whom::favoured_only;
  rule.for_at_least = Milliseconds{1000};
  rule.of_the_stretch = Share{0.5};
  rule.how_bad = [](const Slice& slice, const PersonSeen& seen) {
    return grown_into(*slice.view, seen).known() ? 1 - std::fabs(seen.against_behind.value) : 0;
  };
  rule.message = [&](const Featured& one, const Slice& slice, const PersonSeen& seen, Milliseconds together) {
    const Target other{Target::Kind::person, grown_into(*slice.view, seen).index, {}};
    return "the head of " + quoted(checked, one.who) + ", who is favoured, runs into that of " +
           quoted(checked, other) + " in the picture and is only " +
           text_of(Stops{std::fabs(seen.against_behind.value)}) + " off what is behind " + at_words(slice.begin) +
           " in " + beat_words(checked, one.beat) + ", for " + text_of(together) + "; limit 0.5 stops";
  };
  rule.next_step = [&](const Featured& one, const Slice&, const PersonSeen&) {
    return "take a step between them, or put light behind " + quoted(checked, one.who);
  };
  report_frame_rule(checked, rule, report);
}

}  // namespace lensward
