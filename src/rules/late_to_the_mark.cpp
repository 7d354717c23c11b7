#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage late_to_the_mark_page{
    .sees = "A walk that has to be done by a cue (`until`, `while`) and needs over a tenth more time than it has.",
    .why = "They will be on the way when the cue comes, and what hangs from it happens to nobody on a mark.",
    .example =
        "Oda walks to the Sink, until \"keys\"\n"
        "Jun: \"The keys.\"",
    .better =
        "Oda walks to the Sink, until [There]\n"
        "Jun: \"You can go and stand by that sink as long as you like, I have the keys. [There]\"",
    .source = "common practice, no source.",
};

void late_to_the_mark(const Checked& checked, Reporter& report) {
  constexpr double slack = 1.1;
  for (const MoveByCue& move : checked.plan.moves_by_cue) {
    const Milliseconds has = move.by - move.begin;
    if (static_cast<double>(move.needs.count) <= static_cast<double>(has.count) * slack) continue;
    const Target who{Target::Kind::person, move.person.index, {}};
    const int beat = beat_at(checked.plan, move.begin);
    Finding& finding =
        report.add(move.said_at, {beat, move.by, {who}},
                   quoted(checked, who) + " needs " + text_of(move.needs) + " to the mark but the cue " +
                       "comes after " + text_of(has) + " in " + beat_words(checked, beat) + ", limit 10 % over");
    finding.next_step = "begin the walk " + text_of(move.needs - has) + " earlier, or cue it later";
  }
}

}  // namespace lensward
