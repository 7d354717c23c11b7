#include <algorithm>
#include <cmath>

#include "base/quantity_text.h"
#include "plan/exchanges.h"
#include "rules/cuts.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage weak_cut_page{
    .sees =
        "A cut between two cameras that both show the same person largest, from less than 30 degrees apart, and no "
        "more than 20 % larger or smaller.",
    .why = "The two pictures are nearly one, so the cut looks like a piece missing from the film.",
    .example =
        "camera A is at (3, -1) m, lens 50 mm\n"
        "camera B is at (3.4, -1) m, lens 50 mm\n"
        "cut to B",
    .better =
        "camera A is at (3, -1) m, lens 50 mm\n"
        "camera B is at (3.4, -1) m, lens 85 mm\n"
        "cut to B",
    .source =
        "the 30-degree rule (Murch, In the Blink of an Eye; Corrigan and White, The Film Experience; from memory); "
        "20 % of size is common practice, no source.",
};

namespace {

constexpr Degrees apart{30};
constexpr double of_one_size = 1.2;

const PersonSeen* largest(const View& view) {
  const PersonSeen* best = nullptr;
  for (const PersonSeen& seen : view.people)
    if (is_plain(seen) && (best == nullptr || seen.head_height > best->head_height)) best = &seen;
  return best;
}

void look_at(const Checked& checked, const CutSeen& cut, Reporter& report) {
  const PersonSeen *before = largest(*cut.before), *after = largest(*cut.after);
  if (before == nullptr || after == nullptr || before->person != after->person) return;
  const double larger = after->head_height.value / before->head_height.value;
  if (std::max(larger, 1 / larger) > of_one_size) return;
  const Vec2 subject = person_at(checked.plan, after->person, cut.after->moment).at;
  const Degrees turned = angle_between(subject, floor_of(cut.before->state.at), floor_of(cut.after->state.at));
  if (turned >= apart) return;
  const Target who{Target::Kind::person, after->person.index, {}};
  const int percent = static_cast<int>(std::lround((std::max(larger, 1 / larger) - 1) * 100));
  Finding& finding = report.add(
      cut.said_at, {cut.beat, cut.after->moment, {who}},
      "the cut to " + camera_words(checked, cut.after->camera) + " " + at_words(cut.after->moment) + " in " +
          beat_words(checked, cut.beat) + " goes only " + text_of(turned) + " round " + quoted(checked, who) +
          (percent == 0
               ? std::string(" and leaves the size as it was")
               : " and makes the head " + std::to_string(percent) + (larger > 1 ? " % larger" : " % smaller")) +
          "; less than 30 degrees and 20 % are a jump");
  finding.next_step = "take the two cameras farther round, or change the lens";
}

}  // namespace

void weak_cut(const Checked& checked, Reporter& report) {
  for (const CutSeen& cut : cuts_of(checked)) look_at(checked, cut, report);
}

}  // namespace lensward
