#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage eyes_elsewhere_page{
    .sees =
        "Where the others in frame look through a favoured stretch: told looks only, at least two lookers. It "
        "speaks when two thirds of them, on average, look at one and the same person who is not favoured.",
    .why = "We look where others look, so a company that looks elsewhere takes the audience with it.",
    .example =
        "favour Oda\n"
        "Wren, Jun and Tobias watch Pell\n"
        "Oda: \"Is there a cook?\"",
    .better =
        "favour Oda\n"
        "Wren and Jun watch Oda\n"
        "Oda: \"Is there a cook?\"",
    .source = "common practice, no source; that gaze carries: Borji, Parks & Itti 2014.",
};

namespace {

constexpr double most_of_them = 2.0 / 3;

// The part of the told looks of people in frame, time over time, that rests on one person; 0 with fewer than two
// lookers.
Share looks_at(const Checked& checked, const Verdict& verdict, const Target& other) {
  double all = 0, on_other = 0;
  for (const Slice& slice : settled_window(checked.playback(), {verdict.begin, verdict.end})) {
    int lookers = 0, lookers_at_other = 0;
    for (const PersonSeen& seen : slice.view->people) {
      const PersonState state = person_at(checked.plan, seen.person, slice.begin);
      const bool counts = seen.head_visible.value > 0.25 && state.gaze_told && seen.person.index != other.index &&
                          seen.person.index != verdict.favoured.index;
      if (!counts) continue;
      ++lookers;
      if (state.gaze == other) ++lookers_at_other;
    }
    if (lookers < 2) continue;
    const auto time = static_cast<double>((slice.end - slice.begin).count);
    all += time * lookers;
    on_other += time * lookers_at_other;
  }
  return Share{all > 0 ? on_other / all : 0};
}

}  // namespace

void eyes_elsewhere(const Checked& checked, Reporter& report) {
  for (const Verdict& verdict : checked.verdicts) {
    if (verdict.intent < 0 || verdict.result == Verdict::Result::not_judged) continue;
    const Intent& intent = checked.plan.intents[static_cast<std::size_t>(verdict.intent)];
    if (intent.kind != Intent::Kind::favour) continue;
    for (std::size_t i = 0; i < checked.plan.stage.people.size(); ++i) {
      const Target other{Target::Kind::person, static_cast<int>(i), {}};
      if (other == verdict.favoured) continue;
      const Share looks = looks_at(checked, verdict, other);
      if (looks.value < most_of_them) continue;
      Finding& finding = report.add(intent.said_at, {verdict.beat, verdict.begin, {verdict.favoured, other}},
                                    text_of(looks) + " of the looks in " + beat_words(checked, verdict.beat) +
                                        " are on " + quoted(checked, other) + " while " +
                                        quoted(checked, verdict.favoured) + " is favoured, limit 66 %");
      finding.next_step = "turn one of them: `… looks at " + name_of(checked.plan, verdict.favoured) + "`";
    }
  }
}

}  // namespace lensward
