#include "mend/quick_look.h"

#include <algorithm>

#include "base/shared_work.h"
#include "emphasis/judge.h"
#include "emphasis/sampling.h"
#include "mend/edited_text.h"

namespace lensward {
namespace {

constexpr Milliseconds between_looks{200}, before_the_stretch{1000};
constexpr int looks_at_most = 40;
constexpr Points nearly_there{1.5};

std::vector<Moment> moments_for(const Plan& plan, const std::vector<const Verdict*>& verdicts) {
  // A change may make the beat longer.
  const Beat& beat = plan.beats[static_cast<std::size_t>(verdicts.front()->beat)];
  Moment begin = beat.begin, end = beat.end;
  for (const Verdict* one : verdicts) {
    begin = std::min(begin, one->begin);
    end = std::max(end, one->end);
  }
  begin = std::max(Moment{}, begin - before_the_stretch);
  end = std::min(end, plan.duration());
  const Milliseconds step = std::max(between_looks, Milliseconds{(end - begin).count / looks_at_most});
  std::vector<Moment> moments;
  for (Moment moment = begin; moment < end; moment = moment + step) moments.push_back(moment);
  moments.push_back(end);
  return moments;
}

std::vector<Verdict> judged_quickly(const Plan& plan, const std::vector<const Verdict*>& verdicts, Onlooker& onlooker) {
  if (verdicts.empty()) return {};
  const Attention attention = weigh_moments(plan, moments_for(plan, verdicts), onlooker);
  std::vector<Verdict> again;
  for (const Verdict* one : verdicts) again.push_back(judge_again(plan, attention, *one));
  return again;
}

}  // namespace

QuickLook::QuickLook(const Rehearsal& scene, const Rehearse& rehearse) : scene_(scene), rehearse_(rehearse) {
  planned_ = tallied(rehearse(std::string(scene.text()), Depth::plan).findings);
}

bool QuickLook::plan_is_clean(const Rehearsal& again) const { return more_in(tallied(again.findings), planned_) == 0; }

// The verdicts of a beat, which are looked at again.
std::vector<const Verdict*> QuickLook::verdicts_of(int beat) const {
  std::vector<const Verdict*> verdicts;
  for (const Verdict& other : scene_.verdicts) {
    const bool asked = other.intent >= 0 || other.story >= 0;
    if (asked && other.beat == beat && other.result != Verdict::Result::not_judged) verdicts.push_back(&other);
  }
  return verdicts;
}

// Plays a change as far as the beat goes. `asked` is past the end of the verdicts where the finding is on none.
void QuickLook::look_quickly(const std::vector<const Verdict*>& verdicts, std::size_t asked,
                             const std::vector<Verdict>& now, Onlooker& onlooker, Trial& change) const {
  const Rehearsal again = rehearse_(edited_text(scene_.text(), change.edits), Depth::plan);
  change.plays = plan_is_clean(again) && again.plan.beats.size() == scene_.plan.beats.size() &&
                 again.plan.intents.size() == scene_.plan.intents.size();
  if (!change.plays) return;
  const std::vector<Verdict> then = judged_quickly(again.plan, verdicts, onlooker);
  for (std::size_t i = 0; i < then.size(); ++i) {
    if (i != asked && rank_of(then[i].result) < rank_of(now[i].result)) change.harms = true;
  }
  change.mends = !change.harms;
  if (asked >= then.size()) return;
  change.gain = lead_of(then[asked]) - lead_of(now[asked]);
  const bool nearly = then[asked].margin - nearly_there < lead_of(then[asked]);
  change.holds = then[asked].result == Verdict::Result::holds;
  change.mends = !change.harms && (change.holds || nearly);
}

void QuickLook::look_at_all(const Case& about, std::vector<Trial>& changes) const {
  const std::vector<const Verdict*> verdicts = verdicts_of(about.verdict.beat);
  const auto is_it = [&](const Verdict* one) {
    return about.judged && one->intent == about.verdict.intent && one->story == about.verdict.story;
  };
  const auto asked = static_cast<std::size_t>(std::find_if(verdicts.begin(), verdicts.end(), is_it) - verdicts.begin());
  Onlooker first;
  const std::vector<Verdict> now = judged_quickly(scene_.plan, verdicts, first);
  share_work(changes.size(), [&](const NextIndex& next) {
    // From one change to the next almost all stays as it was drawn.
    Onlooker onlooker(looks_at_most);
    while (const auto turn = next()) look_quickly(verdicts, asked, now, onlooker, changes[*turn]);
  });
}

}  // namespace lensward
