#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage burning_page{
    .sees = "A face in frame that is more than 1.5 stops over what the stop asks for, for half a second.",
    .why = "Skin that bright loses its features.",
    .example =
        "light Pendant, at 0.8 m above Tobias, gives 600 lux at 1 m\n"
        "Tobias: \"Closed.\"",
    .better =
        "light Pendant, at 0.8 m above Tobias, gives 600 lux at 1 m, level 40%\n"
        "Tobias: \"Closed.\"",
    .source = "common practice, no source.",
};

namespace {

constexpr double stops_over = 1.5;
constexpr Milliseconds held_for{500};

}  // namespace

void burning(const Checked& checked, Reporter& report) {
  for (std::size_t i = 0; i < checked.plan.beats.size(); ++i) {
    const Beat& beat = checked.plan.beats[i];
    if (!beat.judged) continue;
    const Window window = window_of(checked.playback(), {beat.begin, beat.end});
    for (std::size_t p = 0; p < checked.plan.stage.people.size(); ++p) {
      const Target who{Target::Kind::person, static_cast<int>(p), {}};
      const auto over = [&](const Slice& slice) {
        const PersonSeen* seen = person_in(*slice.view, who);
        return seen != nullptr && seen->head_visible.value > 0.25 ? seen->exposure.value : -20.0;
      };
      const Milliseconds burns = together(window, [&](const Slice& slice) { return over(slice) > stops_over; });
      if (burns < held_for) continue;
      const Slice* worst = least(window, [&](const Slice& slice) { return -over(slice); });
      Finding& finding =
          report.add(beat.heading, {static_cast<int>(i), worst->begin, {who}},
                     "the face of " + quoted(checked, who) + " is " + text_of(Stops{over(*worst)}) + " over " +
                         at_words(worst->begin) + " in " + beat_words(checked, static_cast<int>(i)) + ", for " +
                         text_of(burns) + "; limit 1.5 stops");
      finding.next_step = "dim the lamp nearest to them, or take them a step off it";
    }
  }
}

}  // namespace lensward
