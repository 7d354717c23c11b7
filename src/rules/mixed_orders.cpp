#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage mixed_orders_page{
    .sees =
        "Two intents that cannot both be had: two of `favour`, `share`, `pass` and `favour nobody` that begin "
        "at the same moment, or someone favoured while hidden.",
    .why = "Nobody on the floor can play two orders at once, and each department will pick its own.",
    .example =
        "favour Oda\n"
        "favour Tobias",
    .better = "share Oda and Tobias",
    .source = "by the meaning of the words.",
};

namespace {

bool gives_the_eye(const Intent& intent) {
  return intent.kind == Intent::Kind::favour || intent.kind == Intent::Kind::favour_nobody ||
         intent.kind == Intent::Kind::share || intent.kind == Intent::Kind::pass;
}

// A beat with an unreadable line may have lost the words that keep two orders apart.
bool judged(const Checked& checked, const Intent& intent) {
  const int beat = beat_at(checked.plan, intent.begin);
  return beat < 0 || checked.plan.beats[static_cast<std::size_t>(beat)].judged;
}

bool begin_together(const Intent& a, const Intent& b) {
  return gives_the_eye(a) && gives_the_eye(b) && a.begin == b.begin;
}

bool favours_hidden(const Intent& favours, const Intent& hides) {
  if (favours.kind != Intent::Kind::favour || hides.kind != Intent::Kind::hide) return false;
  return favours.targets == hides.targets && favours.begin < hides.end && hides.begin < favours.end;
}

}  // namespace

void mixed_orders(const Checked& checked, Reporter& report) {
  const std::vector<Intent>& intents = checked.plan.intents;
  for (std::size_t i = 0; i < intents.size(); ++i) {
    for (std::size_t j = i + 1; j < intents.size(); ++j) {
      const Intent &first = intents[i], &second = intents[j];
      if (!judged(checked, first) || !judged(checked, second)) continue;
      if (!begin_together(first, second) && !favours_hidden(first, second) && !favours_hidden(second, first)) continue;
      const Moment at = std::max(first.begin, second.begin);
      Finding& finding = report.add(second.said_at, {beat_at(checked.plan, at), at, second.targets},
                                    "`" + first.words + "` and `" + second.words + "` cannot both be had " +
                                        at_words(at) + " in " + beat_words(checked, beat_at(checked.plan, at)));
      finding.labels.push_back({first.said_at, "`" + first.words + "` stands here"});
      finding.next_step = "take one of the two lines out, or give one of them a cue";
    }
  }
}

}  // namespace lensward
