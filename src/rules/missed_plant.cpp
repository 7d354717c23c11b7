#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage missed_plant_page{
    .sees =
        "A plant: for 0.8 s together its shorter side is at least 1 % of the frame's height and it can be "
        "read.",
    .why = "What is not noticed now cannot be remembered later.",
    .example =
        "plant Letter\n"
        "Letter is on the Sideboard",
    .better =
        "plant Letter\n"
        "Ines lifts Letter",
    .source = "common practice, no source.",
};

void missed_plant(const Checked& checked, Reporter& report) {
  report_verdicts(
      checked, "missed-plant", Explains::nothing, report,
      [&](const Verdict& verdict) {
        return quoted(checked, verdict.favoured) + " is planted in " + beat_words(checked, verdict.beat) + " but " +
               shortfall_words(verdict);
      },
      [&](const Verdict& verdict) {
        return std::string("show " + quoted(checked, verdict.favoured) +
                           " larger, sharper or longer, or let somebody look at it");
      });
}

}  // namespace lensward
