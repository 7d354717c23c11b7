#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/verdict_finding.h"
#include "rules/words.h"

namespace lensward {

const ManualPage wandering_eye_page{
    .sees =
        "The points of everyone in frame, moment by moment, against a `favour`. It speaks when the favoured "
        "one is not seen for 90 % of the stretch, does not lead by the margin (8 points; `just` 4, `outright` "
        "16) for 75 % of it, is overtaken for more than 0.6 s together, or has not the margin through the "
        "last half second. The first 0.4 s of the stretch and after a cut are left out.",
    .why =
        "In a held frame nothing but staging tells the audience whom to watch, and here it tells them someone "
        "else.",
    .example =
        "favour Oda\n"
        "Oda is deep, back to lens\n"
        "Tobias is at foreground, frontal\n"
        "Tobias: \"Twenty-two years I've cooked here.\"",
    .better =
        "favour Tobias\n"
        "Oda is deep, back to lens\n"
        "Tobias is at foreground, frontal\n"
        "Tobias: \"Twenty-two years I've cooked here.\"",
    .source =
        "common practice, no source; the cues and what evidence stands behind them: docs/model.md, "
        "\"Emphasis\".",
};

namespace {

constexpr double most_of_it = 0.5;

struct Held {
  Target by;
  Share share{0};
};

// Whoever but the favoured has the eye for most of the stretch.
Held held_most(const Checked& checked, const Verdict& verdict) {
  const Window window = settled_window(checked.playback(), {verdict.begin, verdict.end});
  Held most;
  for (const Slice& slice : window) {
    const Target& holder = slice.sample->holder;
    if (holder == verdict.favoured || holder == most.by || holder.kind == Target::Kind::nothing) continue;
    const Share share = part(window, [&](const Slice& other) { return has_the_eye(other, holder); });
    if (share > most.share) most = {holder, share};
  }
  return most;
}

std::string asking_words(const Checked& checked, const Verdict& verdict) {
  const Intent::Strength strength = checked.plan.intents[static_cast<std::size_t>(verdict.intent)].strength;
  const std::string asks = strength == Intent::Strength::just       ? "`just` asks a lead of "
                           : strength == Intent::Strength::outright ? "`outright` asks a lead of "
                                                                    : "`favour` asks a lead of ";
  return asks + text_of(verdict.margin);
}

std::string message_of(const Checked& checked, const Verdict& verdict) {
  const std::string favoured = quoted(checked, verdict.favoured);
  const std::string stretch = stretch_words(checked, verdict.beat, {verdict.begin, verdict.end});
  const Measure& unmet = first_unmet(verdict);
  if (unmet.what == "is seen for") {
    return favoured + " is seen for only " + unmet.value + " of " + stretch + ", limit " + unmet.limit;
  }
  const Held most = held_most(checked, verdict);
  if (most.share.value >= most_of_it) {
    return "the eye is on " + quoted(checked, most.by) + " for " + text_of(most.share) + " of " + stretch +
           ", not on " + favoured + ": " + lead_words(checked, verdict) + "; " + asking_words(checked, verdict);
  }
  return "in " + stretch + ", " + favoured + " " + unmet.told + ": " + lead_words(checked, verdict);
}

}  // namespace

void wandering_eye(const Checked& checked, Reporter& report) {
  report_verdicts(checked, "wandering-eye", Explains::rival_over_favoured, report,
                  [&](const Verdict& verdict) { return message_of(checked, verdict); });
}

}  // namespace lensward
