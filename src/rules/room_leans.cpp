#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage room_leans_page{
    .sees = "A `favour nobody`: no one may lead by 6 points for more than 30 % of the stretch.",
    .why = "The audience picks a person although the scene should belong to the room.",
    .example =
        "favour nobody\n"
        "Oda is at foreground, frontal\n"
        "Wren and Jun are deep, back to lens",
    .better =
        "favour nobody\n"
        "Oda, Wren and Jun are by the Table, profile toward frame left",
    .source = "common practice, no source.",
};

void room_leans(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "room-leans", Explains::favoured_over_rival, report, [&](const Verdict& verdict) {
    return quoted(checked, verdict.favoured) + " leads by 6 points for " + text_of(verdict.led) + " of " +
           stretch_words(checked, verdict.beat, {verdict.begin, verdict.end}) + " while nobody is favoured, limit 30 %";
  });
}

}  // namespace lensward
