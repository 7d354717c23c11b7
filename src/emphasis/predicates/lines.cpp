// play, throw away, and a beat that says nothing: who has the eye through a speech.
#include "base/quantity_text.h"
#include "emphasis/predicates.h"

namespace lensward {
namespace {

constexpr double listener_for = 0.7, listener_seen = 0.6, thrown_at_most = 0.5, speaker_for = 0.5;

const Slice* where_led_least(const Window& window, const Target& target) {
  return least(window, [&](const Slice& slice) { return lead_of(slice, target).value; });
}

Target speaker_of(const Speech& speech) { return {Target::Kind::person, speech.speaker.index, {}}; }

const Speech* speech_from(const Plan& plan, Moment begin) {
  for (const Speech& speech : plan.speeches) {
    if (speech.begin <= begin && begin < speech.end) return &speech;
  }
  return nullptr;
}

bool thrown_away(const Plan& plan, const Speech& speech) {
  return std::any_of(plan.intents.begin(), plan.intents.end(), [&](const Intent& intent) {
    return intent.kind == Intent::Kind::throw_away && intent.begin <= speech.begin && speech.begin < intent.end;
  });
}

bool starts_in(const Beat& beat, const Speech& speech) { return beat.begin <= speech.begin && speech.begin < beat.end; }

}  // namespace

void judge_play(const Playback& playback, const Intent& intent, Verdict& verdict) {
  const Window window = window_of(playback, {intent.begin, intent.end});
  if (window.empty()) return;
  const Target& listener = verdict.favoured;
  const Share held = part(window, [&](const Slice& slice) { return has_the_eye(slice, listener); });
  const Share seen =
      part(window, [&](const Slice& slice) { return clear_part(slice, listener).value >= listener_seen; });
  verdict.led = held;
  measure(verdict, "has the eye for", text_of(held), text_of(Share{listener_for}), held.value >= listener_for,
          "has the eye for only " + text_of(held) + " of the line, limit " + text_of(Share{listener_for}));
  measure(verdict, "is seen for", text_of(seen), text_of(Share{listener_for}), seen.value >= listener_for,
          "is seen for only " + text_of(seen) + " of the line, limit " + text_of(Share{listener_for}));
  conclude(verdict, "lost-listener");
  decide_at(where_led_least(window, listener), {}, verdict);
}

void judge_throw_away(const Playback& playback, const Intent& intent, Verdict& verdict) {
  const Window window = window_of(playback, {intent.begin, intent.end});
  if (verdict.favoured.kind == Target::Kind::nothing) {
    const Speech* speech = speech_from(playback.plan, intent.begin);
    if (speech == nullptr) return;
    verdict.favoured = speaker_of(*speech);
  }
  if (window.empty()) return;
  const Share held = part(window, [&](const Slice& slice) { return has_the_eye(slice, verdict.favoured); });
  verdict.led = held;
  measure(verdict, "its speaker has the eye for", text_of(held), text_of(Share{thrown_at_most}),
          held.value <= thrown_at_most,
          "its speaker has the eye for " + text_of(held) + " of the line, limit " + text_of(Share{thrown_at_most}));
  conclude(verdict, "loud-throwaway");
  decide_at(least(window, [&](const Slice& slice) { return -lead_of(slice, verdict.favoured).value; }), {}, verdict);
}

bool judge_silence(const Playback& playback, Verdict& verdict) {
  const Beat& beat = playback.plan.beats[static_cast<std::size_t>(verdict.beat)];
  std::optional<Share> worst;
  for (std::size_t i = 0; i < playback.plan.speeches.size(); ++i) {
    const Speech& speech = playback.plan.speeches[i];
    if (!starts_in(beat, speech) || speech.off || thrown_away(playback.plan, speech)) continue;
    const Window window = window_of(playback, {speech.begin, speech.end});
    const Target speaker = speaker_of(speech);
    const Share held = part(window, [&](const Slice& slice) { return has_the_eye(slice, speaker); });
    if (window.empty() || (worst && *worst <= held)) continue;
    worst = verdict.led = held;
    verdict.speech = static_cast<int>(i);
    verdict.favoured = speaker;
    verdict.begin = speech.begin;
    verdict.end = speech.end;
    decide_at(where_led_least(window, speaker), {}, verdict);
  }
  if (!worst) return false;
  measure(verdict, "the speaker has the eye for", text_of(*worst), text_of(Share{speaker_for}),
          worst->value >= speaker_for,
          "the speaker has the eye for only " + text_of(*worst) + " of the line, limit " + text_of(Share{speaker_for}));
  conclude(verdict, "nobody-asked");
  return true;
}

}  // namespace lensward
