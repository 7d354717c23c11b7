#include <algorithm>

#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage crowded_lens_page{
    .sees =
        "Somebody within 1.5 m of the lens, of whom no wish of the beat speaks and who says nothing in it, takes up "
        "35 % of the frame or more, as the box round what of them is in it, for a second.",
    .why = "The audience looks past a back for as long as it stands there, whatever happens behind.",
    .example =
        "favour Oda\n"
        "Pell is at 0.6 m camera side of the Table, back to us",
    .better =
        "favour Oda\n"
        "Pell is at 2 m camera side of the Table, back to us",
    .source = "common practice, no source.",
};

namespace {

constexpr double takes_up = 0.35;
constexpr Metres near_the_lens{1.5};
constexpr Milliseconds for_at_least{1000};

double part_of_frame(const PersonSeen& seen) {
  if (!seen.in_front || seen.distance > near_the_lens || seen.body_visible.value <= 0) return 0;
  const double across = std::clamp(seen.body_box.right, 0.0, 1.0) - std::clamp(seen.body_box.left, 0.0, 1.0);
  const double down = std::clamp(seen.body_box.bottom, 0.0, 1.0) - std::clamp(seen.body_box.top, 0.0, 1.0);
  return std::max(across, 0.0) * std::max(down, 0.0);
}

bool is_asked_for(const Plan& plan, const Beat& beat, const Target& who) {
  const auto within = [&](Moment begin, Moment end) { return begin < beat.end && end > beat.begin; };
  return std::ranges::any_of(plan.intents,
                             [&](const Intent& intent) {
                               return within(intent.begin, intent.end) &&
                                      std::ranges::find(intent.targets, who) != intent.targets.end();
                             }) ||
         std::ranges::any_of(plan.speeches, [&](const Speech& speech) {
           return within(speech.begin, speech.end) && speech.speaker.index == who.index;
         });
}

void look_at(const Checked& checked, int index, const Target& who, Reporter& report) {
  const Beat& beat = checked.plan.beats[static_cast<std::size_t>(index)];
  const Window window = window_of(checked.playback(), {beat.begin, beat.end});
  const auto crowds = [&](const Slice& slice) {
    const PersonSeen* seen = person_in(*slice.view, who);
    return seen != nullptr && part_of_frame(*seen) >= takes_up;
  };
  const Slice* when = first(window, crowds);
  const Milliseconds long_for = together(window, crowds);
  if (when == nullptr || long_for < for_at_least || is_asked_for(checked.plan, beat, who)) return;
  const PersonSeen& seen = *person_in(*when->view, who);
  Finding& finding = report.add(beat.heading, {index, when->begin, {who}},
                                quoted(checked, who) + ", " + text_of(seen.distance) + " from the lens, takes up " +
                                    text_of(Share{part_of_frame(seen)}) + " of the frame " + at_words(when->begin) +
                                    " in " + beat_words(checked, index) + ", for " + text_of(long_for) +
                                    ", and the beat asks nothing of them; limit 35 %");
  finding.next_step = "let them stand farther from the lens or to the side of it, or sit";
}

}  // namespace

void crowded_lens(const Checked& checked, Reporter& report) {
  for (std::size_t beat = 0; beat < checked.plan.beats.size(); ++beat) {
    if (!checked.plan.beats[beat].judged) continue;
    for (std::size_t i = 0; i < checked.plan.people.size(); ++i)
      look_at(checked, static_cast<int>(beat), {Target::Kind::person, static_cast<int>(i), {}}, report);
  }
}

}  // namespace lensward
