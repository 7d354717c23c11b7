// hide, hide in plain sight, hint, reveal.
#include "base/quantity_text.h"
#include "emphasis/predicates.h"

namespace lensward {
namespace {

constexpr double shows_at_most = 0.01;
constexpr double hint_least = 0.03, hint_most = 0.3;
constexpr Milliseconds hint_for{500}, hint_within{2000};
constexpr double revealed_part = 0.5;
constexpr Milliseconds revealed_within{600};

// Hiding carries over beats until the next reveal of the same.
Moment hidden_until(const Plan& plan, const Intent& hide) {
  Moment until = plan.duration();
  for (const Intent& intent : plan.intents) {
    const bool reveals = intent.kind == Intent::Kind::reveal && intent.targets == hide.targets;
    if (reveals && intent.begin > hide.begin) until = std::min(until, intent.begin);
  }
  return until;
}

std::vector<Stretch> hints_of(const Plan& plan, const Intent& hide) {
  std::vector<Stretch> hints;
  for (const Intent& intent : plan.intents) {
    if (intent.kind != Intent::Kind::hint || intent.targets != hide.targets) continue;
    hints.push_back({intent.begin - hint_within, intent.begin + hint_within});
  }
  return hints;
}

}  // namespace

void judge_hide(const Playback& playback, const Intent& intent, Verdict& verdict) {
  verdict.begin = intent.begin;
  verdict.end = hidden_until(playback.plan, intent);
  const Window window = without(window_of(playback, {verdict.begin, verdict.end}), hints_of(playback.plan, intent));
  if (window.empty()) return;
  const auto shows = [&](const Slice& slice) { return whole_part(slice, verdict.favoured); };
  const Slice* most = least(window, [&](const Slice& slice) { return -shows(slice).value; });
  const Slice* early = first(window, [&](const Slice& slice) { return shows(slice).value > shows_at_most; });
  measure(verdict, "shows", text_of(shows(*most)), text_of(Share{shows_at_most}), early == nullptr);
  verdict.led = part(window, [&](const Slice& slice) { return shows(slice).value > shows_at_most; });
  conclude(verdict, "early-sight");
  decide_at(early != nullptr ? most : &window.back(), {}, verdict);
}

void judge_in_plain_sight(const Playback& playback, const Intent& intent, Verdict& verdict) {
  const Window window = judged_window(playback, intent);
  if (window.empty()) return;
  verdict.margin = asking_of(playback.plan.settings, intent).margin;
  const auto lead = [&](const Slice& slice) { return lead_of(slice, verdict.favoured); };
  const Slice* most = least(window, [&](const Slice& slice) { return -lead(slice).value; });
  verdict.led = part(window, [&](const Slice& slice) { return has_the_eye(slice, verdict.favoured); });
  const Points behind = -lead(*most);
  measure(verdict, "has the eye for", text_of(verdict.led), text_of(Share{0}), verdict.led.value <= 0,
          "has the eye for " + text_of(verdict.led) + " of it");
  measure(verdict, "trails the leader at every moment by", text_of(behind) + " points",
          text_of(verdict.margin) + " points", behind > verdict.margin,
          behind.value <= 0
              ? "leads everyone by " + points_text(-behind)
              : "trails the leader by only " + points_text(behind) + ", limit " + text_of(verdict.margin));
  conclude(verdict, "catches-the-eye");
  if (verdict.result == Verdict::Result::fails && verdict.led.value <= 0 && behind.value > 0) {
    verdict.result = Verdict::Result::close;
  }
  decide_at(most, {}, verdict);
}

void judge_hint(const Playback& playback, const Intent& intent, Verdict& verdict) {
  verdict.begin = intent.begin - hint_within;
  verdict.end = intent.begin + hint_within;
  const Window window = window_of(playback, {verdict.begin, verdict.end});
  if (window.empty()) return;
  const auto hinted = [&](const Slice& slice) {
    const double shows = whole_part(slice, verdict.favoured).value;
    return shows >= hint_least && shows <= hint_most;
  };
  const Milliseconds shown = together(window, hinted);
  verdict.led = part(window, [&](const Slice& slice) { return has_the_eye(slice, verdict.favoured); });
  measure(verdict, "between 3 and 30 % shows for", text_of(shown), text_of(hint_for), shown >= hint_for,
          shown.count == 0 ? "never do 3 to 30 % of it show"
                           : "3 to 30 % of it shows for only " + text_of(shown) + ", limit " + text_of(hint_for));
  measure(verdict, "has the eye for", text_of(verdict.led), text_of(Share{0}), verdict.led.value <= 0,
          "has the eye for " + text_of(verdict.led) + " of it");
  conclude(verdict, "missed-hint");
  const Slice* hint = first(window, hinted);
  decide_at(hint != nullptr ? hint : &window.back(), {}, verdict);
}

void judge_reveal(const Playback& playback, const Intent& intent, Verdict& verdict) {
  verdict.begin = intent.begin;
  verdict.end = intent.begin + revealed_within;
  const Window window = window_of(playback, {verdict.begin, verdict.end});
  if (window.empty()) return;
  const Target& target = verdict.favoured;
  const auto out = [&](const Slice& slice) { return whole_part(slice, target).value >= revealed_part; };
  const auto reads = [&](const Slice& slice) { return legible(playback, slice, target); };
  const auto led = [&](const Slice& slice) { return has_the_eye(slice, target); };
  const auto all = [&](const Slice& slice) { return out(slice) && reads(slice) && led(slice); };
  const auto within = [&](auto ask) { return first(window, ask) != nullptr; };
  const auto yes = [](bool met) { return met ? "yes" : "no"; };
  measure(verdict, "half of them shows within 0.6 s", yes(within(out)), "yes", within(out),
          "less than half of it shows within 0.6 s");
  measure(verdict, "lit and sharp enough to read within 0.6 s", yes(within(reads)), "yes", within(reads),
          "it is too dark or too soft to read within 0.6 s");
  measure(verdict, "has the eye within 0.6 s", yes(within(led)), "yes", within(led),
          "the eye does not go there within 0.6 s");
  measure(verdict, "all three at once", yes(within(all)), "yes", within(all),
          "within 0.6 s it is never out, readable and watched at once");
  conclude(verdict, "fumbled-reveal");
  const Slice* landed = first(window, all);
  decide_at(landed != nullptr ? landed : &window.back(), {}, verdict);
}

}  // namespace lensward
