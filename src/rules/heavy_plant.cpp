#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage heavy_plant_page{
    .sees = "A plant has the eye for no more than 1.5 s at a stretch.",
    .why = "A plant that is dwelt on tells the audience what will happen.",
    .example =
        "plant Letter\n"
        "Ines, Runa and Piet watch Letter",
    .better =
        "plant Letter\n"
        "Ines glances at Letter",
    .source = "common practice, no source.",
};

void heavy_plant(const Checked& checked, Reporter& report) {
  report_verdicts(
      checked, "heavy-plant", Explains::nothing, report,
      [&](const Verdict& verdict) {
        return quoted(checked, verdict.favoured) + " is planted in " + beat_words(checked, verdict.beat) + " but " +
               shortfall_words(verdict);
      },
      [&](const Verdict&) {
        return std::string("give the eye somebody to go on to, or plant it with a smaller move");
      });
}

}  // namespace lensward
