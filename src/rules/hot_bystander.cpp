#include "base/quantity_text.h"
#include "optics/light.h"
#include "rules/featured.h"
#include "rules/next_step.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage hot_bystander_page{
    .sees =
        "Somebody in frame, not favoured, whose face is brighter than the favoured face by more than a stop, "
        "for half of the favoured stretch.",
    .why = "The brighter face draws, and the favoured one has to fight it.",
    .example =
        "favour Oda\n"
        "light Key, aims at Jun\n"
        "Oda: \"I signed.\"",
    .better =
        "favour Oda\n"
        "light Key, aims at Oda\n"
        "Oda: \"I signed.\"",
    .source = "common practice, no source. A stop is a doubling.",
};

namespace {

constexpr double stop_of_difference = 1;
constexpr double part_of_stretch = 0.5;

double stops_over(const Slice& slice, const Target& other, const Target& favoured) {
  const PersonSeen *a = person_in(*slice.view, other), *b = person_in(*slice.view, favoured);
  if (a == nullptr || b == nullptr || a->head_visible.value < 0.25 || b->head_visible.value < 0.25) return -20;
  return stops_between(a->luminance.value, b->luminance.value).value;
}

bool favoured_too(const Plan& plan, const Target& other, Stretch when) {
  return std::any_of(plan.intents.begin(), plan.intents.end(), [&](const Intent& intent) {
    const bool gives = intent.kind == Intent::Kind::favour || intent.kind == Intent::Kind::share;
    const bool names = std::find(intent.targets.begin(), intent.targets.end(), other) != intent.targets.end();
    return gives && names && intent.begin < when.end && when.begin < intent.end;
  });
}

}  // namespace

void hot_bystander(const Checked& checked, Reporter& report) {
  for (const Featured& one : featured(checked, Whom::favoured_only)) {
    const Window window = window_of(checked.playback(), one.when);
    for (std::size_t p = 0; p < checked.plan.stage.people.size(); ++p) {
      const Target other{Target::Kind::person, static_cast<int>(p), {}};
      if (other == one.who || favoured_too(checked.plan, other, one.when)) continue;
      const auto brighter = [&](const Slice& slice) { return stops_over(slice, other, one.who); };
      const Share hot = part(window, [&](const Slice& slice) { return brighter(slice) > stop_of_difference; });
      if (hot.value < part_of_stretch) continue;
      const Slice* worst = least(window, [&](const Slice& slice) { return -brighter(slice); });
      Finding& finding =
          report.add(one.said_at, {one.beat, worst->begin, {other, one.who}},
                     quoted(checked, other) + " is " + text_of(Stops{brighter(*worst)}) + " brighter than " +
                         quoted(checked, one.who) + ", who is favoured, " + at_words(worst->begin) + " in " +
                         beat_words(checked, one.beat) + "; limit 1 stop");
      finding.next_step = light_step(checked, worst->begin, one.who);
    }
  }
}

}  // namespace lensward
