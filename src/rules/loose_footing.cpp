#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/safe_part.h"
#include "rules/words.h"

namespace lensward {

const ManualPage loose_footing_page{
    .sees =
        "A `favour` or `pass` that does not fail over the whole of a vague place, but with a lead that differs by "
        "more than 10 points between one end of it and another. The person takes the corners of the place and points "
        "half a metre apart, and points a quarter of a metre apart where a verdict turns between them (40 at most), "
        "everybody else at their marks, the beat being looked at four times a second, a long one 32 times; when a "
        "glance a second shows that six points far apart change little, none is tried. A verdict that turns is told "
        "under its own name.",
    .why = "On the day somebody stands where it suits them, and the picture is not the one that was checked.",
    .example =
        "favour Oda\n"
        "Tobias is by the Range\n"
        "Oda is at foreground, frontal",
    .better =
        "favour Oda\n"
        "Tobias is by the Range\n"
        "mark T1 at (2.5, 4.1) m\n"
        "Oda is at foreground, frontal",
    .source = "common practice, no source.",
};

namespace {

constexpr double spread_at_most = 10;

struct Spread {
  Points least{1000}, most{-1000};
};

Spread spread_of(const PlaceTried& place) {
  Spread spread;
  for (const PointTried& point : place.points) {
    spread.least = std::min(spread.least, point.lead);
    spread.most = std::max(spread.most, point.lead);
  }
  return spread;
}

bool asks_for_a_lead(const Checked& checked, const Verdict& verdict) {
  if (verdict.intent < 0 || verdict.result == Verdict::Result::fails) return false;
  const Intent::Kind kind = checked.plan.intents[static_cast<std::size_t>(verdict.intent)].kind;
  return kind == Intent::Kind::favour || kind == Intent::Kind::pass;
}

}  // namespace

void loose_footing(const Checked& checked, Reporter& report) {
  for (const PlaceTried& place : checked.tried.places) {
    const Verdict& verdict = checked.verdicts[static_cast<std::size_t>(place.verdict)];
    const Spread spread = spread_of(place);
    const bool wide = (spread.most - spread.least).value > spread_at_most;
    if (!wide || !asks_for_a_lead(checked, verdict) || turned_by_place(checked, place.verdict) != nullptr) continue;
    const Mark& mark = checked.plan.marks[static_cast<std::size_t>(place.mark)];
    const Target person{Target::Kind::person, mark.person.index, {}};
    Finding& finding = report.add(line_of(checked, verdict), {verdict.beat, verdict.decided, {person}},
                                  "`" + asked_words(checked, verdict) + "` in " + beat_words(checked, verdict.beat) +
                                      " rests on the vague place of " + quoted(checked, person) +
                                      ": the lead goes from " + text_of(spread.least) + " to " + text_of(spread.most) +
                                      " points, limit " + text_of(Points{spread_at_most}) + " apart");
    finding.next_step = pin_words(checked, place);
  }
}

}  // namespace lensward
