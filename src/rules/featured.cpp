#include "rules/featured.h"

#include <algorithm>
#include <utility>

namespace lensward {
namespace {

bool favours(Intent::Kind kind) {
  return kind == Intent::Kind::favour || kind == Intent::Kind::share || kind == Intent::Kind::pass ||
         kind == Intent::Kind::play || kind == Intent::Kind::button;
}

bool judged(const Checked& checked, int beat) {
  return beat >= 0 && checked.plan.beats[static_cast<std::size_t>(beat)].judged;
}

void add_favoured(const Checked& checked, const Intent& intent, std::vector<Featured>& all) {
  if (!favours(intent.kind)) return;
  const int beat = beat_at(checked.plan, intent.begin);
  if (!judged(checked, beat)) return;
  for (std::size_t i = 0; i < intent.targets.size(); ++i) {
    const bool gives_away = intent.kind == Intent::Kind::pass && i == 0;
    if (gives_away || intent.targets[i].kind != Target::Kind::person) continue;
    all.push_back({intent.targets[i], {intent.begin, intent.end}, intent.said_at, beat, false});
  }
}

bool thrown_away(const Plan& plan, const Speech& speech) {
  return std::any_of(plan.intents.begin(), plan.intents.end(), [&](const Intent& intent) {
    return intent.kind == Intent::Kind::throw_away && intent.begin <= speech.begin && speech.begin < intent.end;
  });
}

void add_speaking(const Checked& checked, const Speech& speech, std::vector<Featured>& all) {
  const int beat = beat_at(checked.plan, speech.begin);
  if (speech.off || thrown_away(checked.plan, speech) || !judged(checked, beat)) return;
  const Target who{Target::Kind::person, speech.speaker.index, {}};
  all.push_back({who, {speech.begin, speech.end}, speech.said_at, beat, true});
}

struct Worst {
  const Slice* slice = nullptr;
  double how_bad = 0;
  Milliseconds together;
};

Worst worst_of(const Window& window, const FrameRule& rule, const Target& who) {
  Worst worst;
  for (const Slice& slice : window) {
    const PersonSeen* seen = person_in(*slice.view, who);
    const double bad = seen == nullptr ? 0 : rule.how_bad(slice, *seen);
    if (!(bad > 0)) continue;
    worst.together += slice.end - slice.begin;
    if (bad <= worst.how_bad) continue;
    worst.how_bad = bad;
    worst.slice = &slice;
  }
  return worst;
}

}  // namespace

std::vector<Featured> featured(const Checked& checked, Whom whom) {
  std::vector<Featured> all;
  for (const Intent& intent : checked.plan.intents) add_favoured(checked, intent, all);
  if (whom == Whom::favoured_only) return all;
  for (const Speech& speech : checked.plan.speeches) add_speaking(checked, speech, all);
  return all;
}

void report_frame_rule(const Checked& checked, const FrameRule& rule, Reporter& report) {
  std::vector<std::pair<int, Target>> told;
  for (const Featured& one : featured(checked, rule.whom)) {
    const std::pair<int, Target> key{one.beat, one.who};
    if (std::find(told.begin(), told.end(), key) != told.end()) continue;
    const Window window = window_of(checked.playback(), one.when);
    const Worst worst = worst_of(window, rule, one.who);
    const double whole = static_cast<double>(length_of(window).count) * rule.of_the_stretch.value;
    const bool long_enough = worst.together >= rule.for_at_least && static_cast<double>(worst.together.count) > whole;
    if (worst.slice == nullptr || !long_enough) continue;
    told.push_back(key);
    const PersonSeen& seen = *person_in(*worst.slice->view, one.who);
    Finding& finding = report.add(one.said_at, {one.beat, worst.slice->begin, {one.who}},
                                  rule.message(one, *worst.slice, seen, worst.together));
    if (rule.next_step) finding.next_step = rule.next_step(one, *worst.slice, seen);
  }
}

}  // namespace lensward
