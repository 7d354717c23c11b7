#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage under_time_page{
    .sees =
        "A beat with `about` that lasts more than a tenth less than hoped for, or a scene that lasts more than 3 % "
        "less "
        "than asked.",
    .why = "Room that was asked for is not used: a look or a silence may be missing from the page.",
    .example =
        "about 20 s\n"
        "Oda to Jun: \"We are eleven short.\"",
    .better =
        "about 3 s\n"
        "Oda to Jun: \"We are eleven short.\"\n"
        "pause 1.5 s",
    .source = "a tenth for `about`, 3 % for a scene: common practice, no source.",
};

void under_time(const Checked& checked, Reporter& report) {
  constexpr double beat_slack = 0.9, scene_slack = 0.97;
  const Plan& plan = checked.plan;
  for (std::size_t i = 0; i < plan.beats.size(); ++i) {
    const Beat& beat = plan.beats[i];
    const Milliseconds lasts = beat.end - beat.begin;
    if (!beat.about || static_cast<double>(lasts.count) >= static_cast<double>(beat.about->count) * beat_slack)
      continue;
    const int index = static_cast<int>(i);
    Finding& finding = report.add(beat.about_at, {index, beat.begin, {}},
                                  beat_words(checked, index) + " lasts only " + text_of(lasts) + ", about " +
                                      text_of(*beat.about) + " asked, limit 10 % under");
    finding.next_step = "write `about " + text_of(lasts) + "`, or give it a pause";
  }
  const auto& asked = plan.facts.asked_length;
  const Milliseconds whole = plan.duration() - Moment{};
  if (!asked || static_cast<double>(whole.count) >= static_cast<double>(asked->count) * scene_slack) return;
  report
      .add(plan.facts.heading, {},
           "the scene lasts only " + text_of(whole) + ", " + text_of(*asked) + " asked, limit 3 % under")
      .next_step = "ask for " + text_of(whole) + ", or give it more room";
}

}  // namespace lensward
