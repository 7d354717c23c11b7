#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage over_time_page{
    .sees =
        "A beat with `about` that lasts more than a tenth longer than hoped for, or a scene that lasts more than 3 % "
        "longer than asked.",
    .why = "Every second over is found later by cutting into something that was meant to stay.",
    .example =
        "about 5 s\n"
        "Oda to Jun: \"I have counted the plates three times tonight, and we are still eleven short of a table.\"",
    .better =
        "about 7 s\n"
        "Oda to Jun: \"I have counted the plates three times tonight, and we are still eleven short of a table.\"",
    .source = "a tenth for `about`, 3 % for a scene: common practice, no source.",
};

void over_time(const Checked& checked, Reporter& report) {
  constexpr double beat_slack = 1.1, scene_slack = 1.03;
  const Plan& plan = checked.plan;
  for (std::size_t i = 0; i < plan.beats.size(); ++i) {
    const Beat& beat = plan.beats[i];
    const Milliseconds lasts = beat.end - beat.begin;
    if (!beat.about || static_cast<double>(lasts.count) <= static_cast<double>(beat.about->count) * beat_slack)
      continue;
    const int index = static_cast<int>(i);
    Finding& finding = report.add(beat.about_at, {index, beat.begin, {}},
                                  beat_words(checked, index) + " lasts " + text_of(lasts) + ", about " +
                                      text_of(*beat.about) + " asked, limit 10 % over");
    finding.next_step = "write `about " + text_of(lasts) + "`, or take something out";
  }
  const auto& asked = plan.facts.asked_length;
  const Milliseconds whole = plan.duration() - Moment{};
  if (!asked || static_cast<double>(whole.count) <= static_cast<double>(asked->count) * scene_slack) return;
  report
      .add(plan.facts.heading, {},
           "the scene lasts " + text_of(whole) + ", " + text_of(*asked) + " asked, limit 3 % over")
      .next_step = "ask for " + text_of(whole) + ", or take something out";
}

}  // namespace lensward
