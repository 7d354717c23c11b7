#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage missed_payoff_page{
    .sees = "A pay-off: for 0.8 s the thing has the eye, or can be read in the hands of whoever has it.",
    .why = "The plant was laid for nothing.",
    .example =
        "pay off Letter\n"
        "Ines puts Letter on the Sideboard",
    .better =
        "pay off Letter\n"
        "Ines lifts Letter",
    .source = "common practice, no source.",
};

void missed_payoff(const Checked& checked, Reporter& report) {
  report_verdicts(
      checked, "missed-payoff", Explains::nothing, report,
      [&](const Verdict& verdict) {
        return quoted(checked, verdict.favoured) + " is paid off in " + beat_words(checked, verdict.beat) + " but " +
               shortfall_words(verdict);
      },
      [&](const Verdict& verdict) {
        return std::string("let whoever has the eye take up " + quoted(checked, verdict.favoured) +
                           ", or look at it in plain sight");
      });
}

}  // namespace lensward
