#include "rules/pages.h"
#include "rules/rule.h"

namespace lensward {

const ManualPage stale_waiver_page{
    .sees = "A `waive` line that excuses no finding.",
    .why = "A waiver that outlives its reason hides the next mistake.",
    .example =
        "waive masked for Piet, because \"he is the turned back\"\n"
        "Piet is at foreground, frontal",
    .better = "Piet is at foreground, frontal",
    .source = "by the meaning of the word.",
};

void stale_waiver(const Checked& checked, Reporter& report) {
  for (std::size_t i = 0; i < checked.waiver_used.size(); ++i) {
    const Waiver& waiver = checked.plan.waivers[i];
    if (checked.waiver_used[i] || waiver.because.empty() || !rule_page(waiver.rule)) continue;
    Finding& finding = report.add(waiver.said_at, {}, "the waiver of `" + waiver.rule + "` excuses nothing here");
    finding.next_step = "delete the line";
  }
}

}  // namespace lensward
