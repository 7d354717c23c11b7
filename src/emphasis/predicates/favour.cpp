// favour, favour nobody: seen, led, unbroken, landed.
#include "base/quantity_text.h"
#include "emphasis/predicates.h"

namespace lensward {
namespace {

constexpr double seen_enough = 0.6, seen_for = 0.9;
constexpr Milliseconds longest_loss{600};
constexpr Milliseconds landing{500};
constexpr double leans_by = 6, leans_for = 0.3;

Points mean_lead(const Window& window, const Target& target, const std::vector<Target>& only) {
  double sum = 0;
  for (const Slice& slice : window) {
    sum += lead_of(slice, target, only).value * static_cast<double>((slice.end - slice.begin).count);
  }
  const auto whole = static_cast<double>(length_of(window).count);
  return Points{whole > 0 ? sum / whole : 0};
}

Window last_of(const Window& window, Milliseconds time) {
  if (window.empty()) return {};
  const Moment from = window.back().end - time;
  Window last = without(window, {{Moment{}, from}});
  return last;
}

struct Led {
  Share share;
  Stretch lost;
  bool landed;
};

Led led_by(const Window& window, Points margin, const std::vector<Target>& only, const Target& target) {
  const auto ahead = [&](const Slice& slice) { return lead_of(slice, target, only) >= margin; };
  const auto behind = [&](const Slice& slice) { return lead_of(slice, target, only).value < 0; };
  const Window last = last_of(window, landing);
  return {part(window, ahead), longest(window, behind), std::all_of(last.begin(), last.end(), ahead)};
}

bool good(const Led& led, const Asking& asking) {
  return led.share >= asking.led && led.lost.end - led.lost.begin <= longest_loss && led.landed;
}

std::string landing_words(const Playback& playback, const Slice& end, const Verdict& verdict,
                          const std::vector<Target>& only) {
  const Points lead = lead_of(end, verdict.favoured, only);
  const std::string rival = quoted(playback, rival_of(end, verdict.favoured, only));
  if (text_of(abs(lead)) == "0") return "is level with " + rival + " at the end, limit " + text_of(verdict.margin);
  if (lead.value < 0) return "trails " + rival + " by " + points_text(-lead) + " at the end";
  // A hair short of the limit must not read as the limit itself.
  const bool reads_alike = text_of(lead) == text_of(verdict.margin);
  const std::string by = reads_alike ? number(lead.value, 1) + " points" : points_text(lead);
  return "leads " + rival + " at the end by only " + by + ", limit " + text_of(verdict.margin);
}

std::string lead_words(Share led, const Asking& asking) {
  const std::string by = "by the " + points_text(asking.margin) + " asked";
  if (text_of(led) == "0 %") return "never leads " + by + ", limit " + text_of(asking.led) + " of the time";
  return "leads " + by + " for only " + text_of(led) + " of it, limit " + text_of(asking.led);
}

const Slice* where_seen_least(const Window& window, const Target& target) {
  return least(window, [&](const Slice& slice) { return clear_part(slice, target).value; });
}

const Slice* where_led_least(const Window& window, const Target& target, const std::vector<Target>& only) {
  return least(window, [&](const Slice& slice) { return lead_of(slice, target, only).value; });
}

}  // namespace

Asking asking_of(const Settings& settings, const Intent& intent) {
  Asking asking{settings.favour_margin, Share{0.75}};
  if (intent.strength == Intent::Strength::just) asking = {settings.favour_margin / 2, Share{0.6}};
  if (intent.strength == Intent::Strength::outright) asking = {settings.favour_margin * 2, Share{0.9}};
  if (intent.margin) asking.margin = *intent.margin;
  return asking;
}

void judge_lead(const Playback& playback, const Window& window, const Asking& asking, const std::vector<Target>& only,
                Verdict& verdict) {
  if (window.empty()) return;
  const Target& target = verdict.favoured;
  const Share seen = part(window, [&](const Slice& slice) { return clear_part(slice, target).value >= seen_enough; });
  const Led led = led_by(window, asking.margin, only, target);
  const Led barely = led_by(window, Points{0}, only, target);
  verdict.margin = asking.margin;
  verdict.led = led.share;
  verdict.mean_margin = mean_lead(window, target, only);

  const Window last = last_of(window, landing);
  const Slice* weakest_end = where_led_least(last, target, only);
  measure(verdict, "is seen for", text_of(seen), text_of(Share{seen_for}), seen.value >= seen_for,
          "is seen for only " + text_of(seen) + " of it, limit " + text_of(Share{seen_for}));
  measure(verdict, "leads by " + points_text(asking.margin) + " for", text_of(led.share), text_of(asking.led),
          led.share >= asking.led, lead_words(led.share, asking));
  const Milliseconds lost = led.lost.end - led.lost.begin;
  measure(verdict, "loses the eye for", text_of(lost), text_of(longest_loss), lost <= longest_loss);
  measure(verdict, "leads at the end by", points_text(lead_of(*weakest_end, target, only)), text_of(asking.margin),
          led.landed, landing_words(playback, *weakest_end, verdict, only));
  conclude(verdict, "wandering-eye");

  const bool is_seen = seen.value >= seen_for;
  if (is_seen && !good(led, asking) && good(barely, asking)) {
    verdict.result = Verdict::Result::close;
    verdict.complaint = "close-call";
  }
  if (verdict.result == Verdict::Result::holds) return decide_at(&last.front(), only, verdict);
  const bool only_the_end = is_seen && led.share >= asking.led && lost <= longest_loss;
  if (only_the_end) return decide_at(weakest_end, only, verdict);
  decide_at(is_seen ? where_led_least(window, target, only) : where_seen_least(window, target), only, verdict);
}

void judge_favour(const Playback& playback, const Intent& intent, Verdict& verdict) {
  judge_lead(playback, judged_window(playback, intent), asking_of(playback.plan.settings, intent), intent.ahead_of,
             verdict);
}

// The verdict's favoured is whoever leans on the room most: it is they whom the finding must name.
void judge_favour_nobody(const Playback& playback, const Intent& intent, Verdict& verdict) {
  const Window window = judged_window(playback, intent);
  if (window.empty()) return;
  Share most{0};
  for (std::size_t i = 0; i < playback.plan.stage.people.size(); ++i) {
    const Target person{Target::Kind::person, static_cast<int>(i), {}};
    const Share leads = part(window, [&](const Slice& slice) { return lead_of(slice, person).value >= leans_by; });
    if (leads <= most) continue;
    most = leads;
    verdict.favoured = person;
  }
  verdict.margin = Points{leans_by};
  verdict.led = most;
  verdict.mean_margin = mean_lead(window, verdict.favoured, {});
  measure(verdict, "somebody leads by 6 points for", text_of(most), text_of(Share{leans_for}), most.value <= leans_for);
  conclude(verdict, "room-leans");
  decide_at(least(window, [&](const Slice& slice) { return -lead_of(slice, verdict.favoured).value; }), {}, verdict);
}

}  // namespace lensward
