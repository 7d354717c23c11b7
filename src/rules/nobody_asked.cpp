#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage nobody_asked_page{
    .sees =
        "A beat with talk in which no intent says whom to watch. It is checked against its speakers: each "
        "must have the eye at half of each own line.",
    .why = "If the listener is meant to have the line, say so; if not, the speaker should be easier to look at.",
    .example =
        "Tobias is deep, back to lens\n"
        "Oda is at foreground, frontal\n"
        "Tobias: \"Somebody has to lock up.\"",
    .better =
        "play \"Somebody\" on Oda\n"
        "Tobias is deep, back to lens\n"
        "Oda is at foreground, frontal\n"
        "Tobias: \"Somebody has to lock up.\"",
    .source = "common practice, no source.",
};

void nobody_asked(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "nobody-asked", Explains::rival_over_favoured, report, [&](const Verdict& verdict) {
    return beat_words(checked, verdict.beat) + " says nothing of whom to watch; " + quoted(checked, verdict.favoured) +
           " has the eye for " + text_of(verdict.led) + " of the own line " + at_words(verdict.begin) + ", limit 50 %";
  });
}

}  // namespace lensward
