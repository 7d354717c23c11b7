#include "emphasis/judge.h"

#include <algorithm>

#include "emphasis/predicates.h"

namespace lensward {
namespace {

void judge_intent(const Playback& playback, const Intent& intent, Verdict& verdict) {
  switch (intent.kind) {
    case Intent::Kind::favour:
      return judge_favour(playback, intent, verdict);
    case Intent::Kind::favour_nobody:
      return judge_favour_nobody(playback, intent, verdict);
    case Intent::Kind::share:
      return judge_share(playback, intent, verdict);
    case Intent::Kind::pass:
      return judge_pass(playback, intent, verdict);
    case Intent::Kind::play:
      return judge_play(playback, intent, verdict);
    case Intent::Kind::throw_away:
      return judge_throw_away(playback, intent, verdict);
    case Intent::Kind::plant:
      return judge_plant(playback, intent, verdict);
    case Intent::Kind::pay_off:
      return judge_pay_off(playback, intent, verdict);
    case Intent::Kind::hide:
      if (intent.strength == Intent::Strength::in_plain_sight) return judge_in_plain_sight(playback, intent, verdict);
      return judge_hide(playback, intent, verdict);
    case Intent::Kind::hint:
      return judge_hint(playback, intent, verdict);
    case Intent::Kind::reveal:
      return judge_reveal(playback, intent, verdict);
    case Intent::Kind::draw_the_eye:
      return judge_draw_the_eye(playback, intent, verdict);
    case Intent::Kind::settle:
      return judge_settle(playback, intent, verdict);
    case Intent::Kind::button:
      return judge_button(playback, intent, verdict);
  }
}

bool needs_somebody(Intent::Kind kind) {
  return kind != Intent::Kind::favour_nobody && kind != Intent::Kind::settle && kind != Intent::Kind::throw_away;
}

bool judged(const Plan& plan, int beat) { return beat >= 0 && plan.beats[static_cast<std::size_t>(beat)].judged; }

Verdict verdict_on(const Playback& playback, std::size_t index) {
  const Intent& intent = playback.plan.intents[index];
  Verdict verdict;
  verdict.intent = static_cast<int>(index);
  verdict.beat = beat_at(playback.plan, intent.begin);
  verdict.begin = verdict.decided = intent.begin;
  verdict.end = intent.end;
  if (!intent.targets.empty()) verdict.favoured = intent.targets.front();
  const bool empty = needs_somebody(intent.kind) && intent.targets.empty();
  if (judged(playback.plan, verdict.beat) && !empty) judge_intent(playback, intent, verdict);
  return verdict;
}

Verdict verdict_on_story(const Playback& playback, std::size_t index) {
  const StoryState& state = playback.plan.stories[index];
  Verdict verdict;
  verdict.story = static_cast<int>(index);
  verdict.beat = beat_at(playback.plan, state.begin);
  verdict.begin = verdict.decided = state.begin;
  verdict.end = state.end;
  if (judged(playback.plan, verdict.beat)) judge_story(playback, state, verdict);
  return verdict;
}

// Hiding, hinting, planting and settling do not say whom to watch meanwhile.
bool says_whom_to_watch(Intent::Kind kind) {
  return kind != Intent::Kind::hide && kind != Intent::Kind::hint && kind != Intent::Kind::plant &&
         kind != Intent::Kind::settle && kind != Intent::Kind::throw_away;
}

bool says_nothing(const Plan& plan, const Beat& beat) {
  return std::none_of(plan.intents.begin(), plan.intents.end(), [&](const Intent& intent) {
    return says_whom_to_watch(intent.kind) && intent.begin < beat.end && beat.begin < intent.end;
  });
}

void judge_quiet_beats(const Playback& playback, std::vector<Verdict>& verdicts) {
  for (std::size_t i = 0; i < playback.plan.beats.size(); ++i) {
    const Beat& beat = playback.plan.beats[i];
    if (!beat.judged || !says_nothing(playback.plan, beat)) continue;
    Verdict verdict;
    verdict.beat = static_cast<int>(i);
    if (judge_silence(playback, verdict)) verdicts.push_back(verdict);
  }
}

}  // namespace

std::vector<Verdict> judge(const Plan& plan, const Attention& attention) {
  const Playback playback{plan, attention};
  std::vector<Verdict> verdicts;
  verdicts.reserve(plan.intents.size() + plan.stories.size() + plan.beats.size());
  for (std::size_t i = 0; i < plan.intents.size(); ++i) verdicts.push_back(verdict_on(playback, i));
  for (std::size_t i = 0; i < plan.stories.size(); ++i) verdicts.push_back(verdict_on_story(playback, i));
  if (!attention.samples.empty()) judge_quiet_beats(playback, verdicts);
  return verdicts;
}

Verdict judge_again(const Plan& plan, const Attention& attention, const Verdict& verdict) {
  const Playback playback{plan, attention};
  if (verdict.intent >= 0) return verdict_on(playback, static_cast<std::size_t>(verdict.intent));
  return verdict_on_story(playback, static_cast<std::size_t>(verdict.story));
}

}  // namespace lensward
