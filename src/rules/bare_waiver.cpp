#include "rules/rule.h"

namespace lensward {

const ManualPage bare_waiver_page{
    .sees = "A `waive` line without `because`, or with an empty one.",
    .why = "Whoever reads the sheet must know that it was meant, and why.",
    .example = "waive masked for Piet",
    .better = "waive masked for Piet, because \"he is the turned back in this group\"",
    .source = "by the meaning of the word.",
};

void bare_waiver(const Checked& checked, Reporter& report) {
  for (const Waiver& waiver : checked.plan.waivers) {
    if (waiver.because.find_first_not_of(" \t") != std::string::npos) continue;
    Finding& finding =
        report.add(waiver.said_at, {}, "the waiver of `" + waiver.rule + "` gives no reason, so it excuses nothing");
    finding.next_step = "end the line with `because \"…\"`";
  }
}

}  // namespace lensward
