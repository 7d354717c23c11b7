#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage slow_landing_page{
    .sees =
        "How long after a change of favour the eye comes to the new favourite: 0.5 s after a `favour`, 0.8 s "
        "(`handover`) after a `pass`.",
    .why = "The audience sees the tail of the old thought while the new one is already being spoken.",
    .example =
        "favour Oda, until \"Monday\"\n"
        "favour Tobias, on \"Monday\"\n"
        "Oda: \"I signed them on Monday.\"\n"
        "Tobias turns frontal, after \"Monday\"",
    .better =
        "favour Oda, until \"Monday\"\n"
        "favour Tobias, on \"Monday\"\n"
        "Oda: \"I signed them on Monday.\"\n"
        "Tobias turns frontal, on \"signed\"",
    .source = "common practice, no source. A look takes about 0.2 s to start (from memory).",
};

namespace {

constexpr Milliseconds arrives_within{500};

void report_passes(const Checked& checked, Reporter& report) {
  report_verdicts(
      checked, "slow-landing", Explains::nothing, report,
      [&](const Verdict& verdict) {
        const Measure& late = verdict.measures.back();
        return "the eye reaches " + quoted(checked, verdict.favoured) + " " + late.value + " after the pass in " +
               beat_words(checked, verdict.beat) + ", limit " + late.limit;
      },
      [&](const Verdict& verdict) {
        return "let " + quoted(checked, verdict.favoured) + " move or speak right on the pass, or cue the pass later";
      });
}

// The one favoured before, when that was somebody else.
bool changes_favour(const Checked& checked, const Verdict& verdict) {
  const Target* before = nullptr;
  for (int i = 0; i < verdict.intent; ++i) {
    const Intent& earlier = checked.plan.intents[static_cast<std::size_t>(i)];
    if (earlier.kind == Intent::Kind::favour && earlier.begin < verdict.begin) before = &earlier.targets.front();
  }
  return before != nullptr && *before != verdict.favoured;
}

void report_favour(const Checked& checked, const Verdict& verdict, Reporter& report) {
  if (verdict.intent < 0 || verdict.result == Verdict::Result::fails) return;
  if (verdict.result == Verdict::Result::not_judged) return;
  const Intent& intent = checked.plan.intents[static_cast<std::size_t>(verdict.intent)];
  if (intent.kind != Intent::Kind::favour || !changes_favour(checked, verdict)) return;
  const Window window = window_of(checked.playback(), {verdict.begin, verdict.end});
  const Slice* landed = first(window, [&](const Slice& slice) { return has_the_eye(slice, verdict.favoured); });
  if (landed == nullptr || landed->begin - verdict.begin <= arrives_within) return;
  const std::string next_step = "let " + quoted(checked, verdict.favoured) +
                                " move or speak right on the change, or put its cue " +
                                text_of(landed->begin - verdict.begin) + " later";
  report
      .add(intent.said_at, {verdict.beat, landed->begin, {verdict.favoured}},
           "the eye reaches " + quoted(checked, verdict.favoured) + " " + text_of(landed->begin - verdict.begin) +
               " after the change of favour " + at_words(verdict.begin) + " in " + beat_words(checked, verdict.beat) +
               ", limit " + text_of(arrives_within))
      .next_step = next_step;
}

}  // namespace

void slow_landing(const Checked& checked, Reporter& report) {
  report_passes(checked, report);
  for (const Verdict& verdict : checked.verdicts) report_favour(checked, verdict, report);
}

}  // namespace lensward
