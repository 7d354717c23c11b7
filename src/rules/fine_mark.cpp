#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage fine_mark_page{
    .sees =
        "A verdict that holds, or is close, and fails when the favoured one or the rival stands up to 0.2 m nearer the "
        "lens or farther from it through the beat. The slip told is the smallest found of 0.2, 0.1 and 0.05 m.",
    .why = "People land within a hand of their marks at best, and this shot has not a hand to give.",
    .example =
        "favour Oda, outright\n"
        "Oda and Jun are at foreground, frontal",
    .better =
        "favour Oda, outright\n"
        "Oda is at foreground, frontal\n"
        "Jun is deep, profile toward frame left",
    .source = "common practice, no source.",
};

void fine_mark(const Checked& checked, Reporter& report) {
  for (const SlipFound& slip : checked.tried.slips) {
    const Verdict& verdict = checked.verdicts[static_cast<std::size_t>(slip.verdict)];
    const Target person{Target::Kind::person, slip.person.index, {}};
    const std::string way = slip.slip.value > 0 ? " nearer the lens" : " farther from the lens";
    Finding& finding =
        report.add(line_of(checked, verdict), {verdict.beat, verdict.decided, {person}},
                   "`" + asked_words(checked, verdict) + "` in " + beat_words(checked, verdict.beat) + " fails when " +
                       quoted(checked, person) + " is " + text_of(abs(slip.slip)) + way);
    finding.next_step = "give it more room than that: widen the lead, or tape the mark and tell the focus puller";
  }
}

}  // namespace lensward
