#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage no_time_to_settle_page{
    .sees =
        "Whether after the last change of favour in the beat the eye rests on anyone for the time that "
        "`settle` asks (0.5 s if unsaid).",
    .why = "A cut or the next beat takes the picture away before anyone has read it.",
    .example =
        "settle 2 s\n"
        "favour Tobias, on \"go\"\n"
        "Oda: \"You may go.\"",
    .better =
        "settle 2 s\n"
        "favour Tobias, on \"go\"\n"
        "Oda: \"You may go.\"\n"
        "pause 2 s",
    .source = "common practice, no source.",
};

void no_time_to_settle(const Checked& checked, Reporter& report) {
  report_verdicts(
      checked, "no-time-to-settle", Explains::nothing, report,
      [&](const Verdict& verdict) {
        const Measure& unmet = first_unmet(verdict);
        return "the eye rests for only " + unmet.value + " after the last change of favour in " +
               beat_words(checked, verdict.beat) + ", " + unmet.limit + " asked";
      },
      [&](const Verdict& verdict) {
        return std::string("end with a `pause` of " + first_unmet(verdict).limit + " in which nothing moves");
      });
}

}  // namespace lensward
