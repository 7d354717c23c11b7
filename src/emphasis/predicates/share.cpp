// share, pass: the eye between two or three.
#include "base/quantity_text.h"
#include "emphasis/predicates.h"

namespace lensward {
namespace {

constexpr double shares_within = 10, leaning_at_least = 3, held_together = 0.75;
constexpr Milliseconds before_the_pass{500};
constexpr Milliseconds third_at_most{500};

Points mean_points(const Window& window, const Target& target) {
  double sum = 0;
  for (const Slice& slice : window) {
    sum += points_of(slice, target).value * static_cast<double>((slice.end - slice.begin).count);
  }
  const auto whole = static_cast<double>(length_of(window).count);
  return Points{whole > 0 ? sum / whole : 0};
}

bool one_of(const std::vector<Target>& targets, const Target& target) {
  return std::find(targets.begin(), targets.end(), target) != targets.end();
}

// `leaning Q` is written into ahead_of.
void measure_balance(const Playback& playback, const Window& window, const Intent& intent, Verdict& verdict) {
  std::vector<Points> means;
  means.reserve(intent.targets.size());
  for (const Target& target : intent.targets) means.push_back(mean_points(window, target));
  const auto [low, high] = std::minmax_element(means.begin(), means.end());
  const Points apart = *high - *low;
  const Target& strongest = intent.targets[static_cast<std::size_t>(high - means.begin())];
  verdict.mean_margin = apart;
  measure(verdict, quoted(playback, strongest) + " ahead on average by", text_of(apart) + " points",
          text_of(Points{shares_within}) + " points", apart.value <= shares_within,
          quoted(playback, strongest) + " is ahead by " + points_text(apart) + " on average, limit " +
              text_of(Points{shares_within}));
  if (intent.ahead_of.empty()) return;
  const Target& leant_to = intent.ahead_of.front();
  const bool leans = strongest == leant_to && apart.value >= leaning_at_least;
  const bool level = text_of(apart) == "0";
  const std::string ahead = level ? "nobody is ahead on average; it should be "
                                  : quoted(playback, strongest) + " is ahead by " +
                                        (strongest == leant_to ? "only " : "") + points_text(apart) +
                                        " on average; it should be ";
  measure(verdict, "leans to " + quoted(playback, leant_to) + " by 3 points or more", leans ? "yes" : "no", "yes",
          leans, ahead + (strongest == leant_to && !level ? "3 to 10" : quoted(playback, leant_to) + ", by 3 to 10"));
}

void measure_holding(const Playback& playback, const Window& window, const Intent& intent, Verdict& verdict) {
  const Share least_each{intent.targets.size() > 2 ? 1.0 / 6 : 0.25};
  for (const Target& target : intent.targets) {
    const Share held = part(window, [&](const Slice& slice) { return has_the_eye(slice, target); });
    measure(
        verdict, quoted(playback, target) + " has the eye for", text_of(held), text_of(least_each), held >= least_each,
        quoted(playback, target) + " has the eye for only " + text_of(held) + " of it, limit " + text_of(least_each));
  }
  const Share all = part(window, [&](const Slice& slice) { return one_of(intent.targets, slice.sample->holder); });
  verdict.led = all;
  measure(verdict, "together they have the eye for", text_of(all), text_of(Share{held_together}),
          all.value >= held_together,
          "together they have the eye for only " + text_of(all) + " of it, limit " + text_of(Share{held_together}));
}

// The one who gets least against the one who gets most, where the difference is greatest.
void decide_share(const Window& window, const Intent& intent, Verdict& verdict) {
  const auto by_mean = [&](const Target& a, const Target& b) {
    return mean_points(window, a) < mean_points(window, b);
  };
  const auto ends = std::minmax_element(intent.targets.begin(), intent.targets.end(), by_mean);
  const Target weakest = *ends.first;
  verdict.favoured = weakest;
  const std::vector<Target> strongest{*ends.second};
  decide_at(least(window, [&](const Slice& slice) { return lead_of(slice, weakest, strongest).value; }), strongest,
            verdict);
}

// When the eye comes to the taker: from the pass on, nothing when it never does.
std::optional<Milliseconds> handover(const Window& after, const Target& taker, Moment from) {
  const Slice* taken = first(after, [&](const Slice& slice) { return has_the_eye(slice, taker); });
  if (taken == nullptr) return std::nullopt;
  return taken->begin - from;
}

}  // namespace

void judge_share(const Playback& playback, const Intent& intent, Verdict& verdict) {
  const Window window = judged_window(playback, intent);
  if (window.empty() || intent.targets.size() < 2) return;
  verdict.margin = Points{shares_within};
  measure_balance(playback, window, intent, verdict);
  measure_holding(playback, window, intent, verdict);
  conclude(verdict, "lopsided-share");
  decide_share(window, intent, verdict);
}

void judge_pass(const Playback& playback, const Intent& intent, Verdict& verdict) {
  if (intent.targets.size() < 2) return;
  const Target giver = intent.targets[0], taker = intent.targets[1];
  verdict.favoured = taker;
  judge_lead(playback, judged_window(playback, intent), asking_of(playback.plan.settings, intent), intent.ahead_of,
             verdict);
  if (verdict.result == Verdict::Result::not_judged) return;

  const Window before = window_of(playback, {intent.begin - before_the_pass, intent.begin});
  const bool had = std::all_of(before.begin(), before.end(), [&](const Slice& s) { return has_the_eye(s, giver); });
  const Window after = window_of(playback, {intent.begin, intent.end});
  const std::optional<Milliseconds> taken = handover(after, taker, intent.begin);
  const Milliseconds allowed = to_milliseconds(playback.plan.settings.handover);
  const Window between = window_of(playback, {intent.begin, intent.begin + taken.value_or(allowed)});
  const auto third = [&](const Slice& s) { return !has_the_eye(s, giver) && !has_the_eye(s, taker); };
  const Stretch strayed = longest(between, third);
  const Milliseconds stray = strayed.end - strayed.begin;

  const std::size_t own = verdict.measures.size();
  measure(verdict, quoted(playback, giver) + " has the eye through the 0.5 s before", had ? "yes" : "no", "yes", had,
          "the eye is not on " + quoted(playback, giver) + " through the 0.5 s before");
  measure(verdict, "a third has the eye between for", text_of(stray), text_of(third_at_most), stray <= third_at_most);
  measure(verdict, quoted(playback, taker) + " has the eye", taken ? "yes" : "never", "yes", taken.has_value(),
          "the eye never goes to " + quoted(playback, taker));
  const bool dropped = std::any_of(verdict.measures.begin() + static_cast<std::ptrdiff_t>(own), verdict.measures.end(),
                                   [](const Measure& one) { return !one.met; });
  const bool late = taken && *taken > allowed;
  measure(verdict, quoted(playback, taker) + " has the eye after", taken ? text_of(*taken) : "never", text_of(allowed),
          !late,
          "the eye reaches " + quoted(playback, taker) + " only after " + text_of(taken.value_or(allowed)) +
              ", limit " + text_of(allowed));
  if (dropped) {
    verdict.result = Verdict::Result::fails;
    verdict.complaint = "dropped-pass";
    decide_at(least(after, [&](const Slice& s) { return lead_of(s, taker).value; }), {}, verdict);
    verdict.decided = std::max(verdict.decided, intent.begin);
  } else if (late && verdict.result != Verdict::Result::fails) {
    verdict.result = Verdict::Result::close;
    verdict.complaint = "slow-landing";
  }
}

}  // namespace lensward
