// draw the eye, settle, button.
#include "base/quantity_text.h"
#include "emphasis/predicates.h"

namespace lensward {
namespace {

constexpr double decoy_for = 0.75, covered_at_most = 0.6;
constexpr Milliseconds usual_settle{500};
constexpr Milliseconds last_image{1000};

// Whoever does what is covered: those told in `ahead_of`, else the people whose hands or feet are busy meanwhile.
std::vector<Target> doers(const Playback& playback, const Intent& intent) {
  if (!intent.ahead_of.empty()) return intent.ahead_of;
  std::vector<Target> found;
  for (std::size_t i = 0; i < playback.plan.people.size(); ++i) {
    const Target person{Target::Kind::person, static_cast<int>(i), {}};
    const auto busy = [&](const Business& deed) { return deed.begin < intent.end && intent.begin < deed.end; };
    const std::vector<Business>& hands = playback.plan.people[i].hands;
    if (person != intent.targets.front() && std::any_of(hands.begin(), hands.end(), busy)) found.push_back(person);
  }
  return found;
}

// The part of the decoy's points that the doer gets at most; counted as all of them when the decoy has none.
double noticed(const Slice& slice, const Target& doer, const Target& decoy) {
  const double all = points_of(slice, decoy).value, got = points_of(slice, doer).value;
  if (!(got > 0)) return 0;
  return all > 0 ? got / all : 1;
}

bool gives_favour(const Intent& intent) {
  return intent.kind == Intent::Kind::favour || intent.kind == Intent::Kind::share ||
         intent.kind == Intent::Kind::pass || intent.kind == Intent::Kind::reveal;
}

Moment last_change_of_favour(const Plan& plan, const Beat& beat) {
  Moment last = beat.begin;
  for (const Intent& intent : plan.intents) {
    if (gives_favour(intent) && beat.begin <= intent.begin && intent.begin < beat.end)
      last = std::max(last, intent.begin);
  }
  return last;
}

}  // namespace

void judge_draw_the_eye(const Playback& playback, const Intent& intent, Verdict& verdict) {
  const Window window = window_of(playback, {intent.begin, intent.end});
  if (window.empty()) return;
  const Target& decoy = verdict.favoured;
  verdict.margin = asking_of(playback.plan.settings, intent).margin;
  const auto ahead = [&](const Slice& slice) { return lead_of(slice, decoy) >= verdict.margin; };
  verdict.led = part(window, ahead);
  measure(verdict, "leads by " + text_of(verdict.margin) + " points for", text_of(verdict.led),
          text_of(Share{decoy_for}), verdict.led.value >= decoy_for,
          quoted(playback, decoy) + " leads by the " + points_text(verdict.margin) + " asked for only " +
              text_of(verdict.led) + " of it, limit " + text_of(Share{decoy_for}));
  const Slice* decides = least(window, [&](const Slice& slice) { return lead_of(slice, decoy).value; });
  for (const Target& doer : doers(playback, intent)) {
    const Slice* worst = least(window, [&](const Slice& slice) { return -noticed(slice, doer, decoy); });
    const double most = noticed(*worst, doer, decoy);
    measure(verdict, "`" + name_of(playback.plan, doer) + "` at most, of the decoy's points,", text_of(Share{most}),
            text_of(Share{covered_at_most}), most < covered_at_most,
            quoted(playback, doer) + " draws " + text_of(Share{most}) + " of the points of " + quoted(playback, decoy) +
                ", limit " + text_of(Share{covered_at_most}));
    if (most >= covered_at_most) decides = worst;
  }
  conclude(verdict, "caught-at-it");
  decide_at(decides, {}, verdict);
}

void judge_settle(const Playback& playback, const Intent& intent, Verdict& verdict) {
  const Beat& beat = playback.plan.beats[static_cast<std::size_t>(verdict.beat)];
  const Milliseconds asked = intent.rests.count > 0 ? intent.rests : usual_settle;
  verdict.begin = last_change_of_favour(playback.plan, beat);
  verdict.end = beat.end;
  const Window window = window_of(playback, {verdict.begin, verdict.end});
  if (window.empty()) return;
  Stretch rest;
  for (const Slice& slice : window) {
    const Stretch run = longest(window, [&](const Slice& other) { return has_the_eye(other, slice.sample->holder); });
    if (run.end - run.begin <= rest.end - rest.begin) continue;
    rest = run;
    verdict.favoured = slice.sample->holder;
  }
  const Milliseconds rests = rest.end - rest.begin;
  measure(verdict, "the eye rests for", text_of(rests), text_of(asked), rests >= asked);
  conclude(verdict, "no-time-to-settle");
  decide_at(&window.back(), {}, verdict);
}

void judge_button(const Playback& playback, const Intent& intent, Verdict& verdict) {
  verdict.end = intent.end;
  verdict.begin = std::max(intent.begin, intent.end - last_image);
  const Window window = window_of(playback, {verdict.begin, verdict.end});
  if (window.empty()) return;
  verdict.margin = asking_of(playback.plan.settings, intent).margin;
  const auto lead = [&](const Slice& slice) { return lead_of(slice, verdict.favoured); };
  const auto soft = [&](const Slice& slice) {
    const Standing* standing = standing_of(*slice.sample, verdict.favoured);
    return standing == nullptr || standing->strength[static_cast<std::size_t>(CueKind::sharp)] < 1;
  };
  const Slice* weakest = least(window, [&](const Slice& slice) { return lead(slice).value; });
  const bool sharp = first(window, soft) == nullptr;
  verdict.led = part(window, [&](const Slice& slice) { return lead(slice) >= verdict.margin; });
  measure(verdict, "leads through the last second by", text_of(lead(*weakest)) + " points",
          text_of(verdict.margin) + " points", lead(*weakest) >= verdict.margin,
          text_of(abs(lead(*weakest))) == "0" ? "is only level with the next"
          : lead(*weakest).value < 0
              ? "trails by " + points_text(-lead(*weakest))
              : "leads by only " + points_text(lead(*weakest)) + ", limit " + text_of(verdict.margin));
  measure(verdict, "sharp through the last second", sharp ? "yes" : "no", "yes", sharp, "is soft in the last second");
  conclude(verdict, "no-button");
  if (verdict.result == Verdict::Result::fails && sharp && lead(*weakest).value >= 0) {
    verdict.result = Verdict::Result::close;
  }
  decide_at(weakest, {}, verdict);
}

}  // namespace lensward
