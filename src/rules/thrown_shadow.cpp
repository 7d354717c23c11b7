#include <algorithm>
#include <array>

#include "base/quantity_text.h"
#include "lens/light.h"
#include "rules/featured.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage thrown_shadow_page{
    .sees =
        "Somebody whose body keeps a stop or more of light off the favoured face, at two or more of five moments of "
        "the stretch. Shadows of the camera and of the boom are not looked at.",
    .why = "A shadow that wanders over a face is seen before the face is.",
    .example =
        "light Key, hard, at (0, 2) m, height 1.8 m, aims at Oda\n"
        "favour Oda\n"
        "Pell walks to 1 m west of Oda",
    .better =
        "light Key, hard, at (0, 2) m, height 2.6 m, aims at Oda\n"
        "favour Oda\n"
        "Pell walks to 1 m south of Oda",
    .source = "common practice, no source: one stop is plainly seen.",
};

namespace {

constexpr double a_stop = 1;
constexpr std::int64_t moments = 5;
constexpr std::size_t at_least = 2;

struct Shadow {
  Moment at;
  Target by;
  Stops stops;
};

std::array<Moment, moments> moments_of(const Stretch& stretch) {
  std::array<Moment, moments> all;
  const Milliseconds long_for = stretch.end - stretch.begin;
  for (std::int64_t i = 0; i < moments; ++i)
    all[static_cast<std::size_t>(i)] = stretch.begin + Milliseconds{long_for.count * (2 * i + 1) / (2 * moments)};
  return all;
}

bool is_seen(const Checked& checked, Moment moment, const Target& who) {
  const Window window = window_of(checked.playback(), {moment, moment + Milliseconds{1}});
  const PersonSeen* seen = window.empty() ? nullptr : person_in(*window.front().view, who);
  return seen != nullptr && seen->face_visible.value > 0.25;
}

void look_at(const Checked& checked, const Featured& one, Reporter& report) {
  std::vector<Shadow> shadows;
  for (const Moment moment : moments_of(one.when)) {
    const auto thrown = shadow_on(checked.plan, PersonId{one.who.index}, moment);
    if (thrown && thrown->stops.value >= a_stop && is_seen(checked, moment, one.who))
      shadows.push_back({moment, thrown->by, thrown->stops});
  }
  if (shadows.size() < at_least) return;
  const Shadow& worst = *std::ranges::max_element(
      shadows, [](const Shadow& a, const Shadow& b) { return a.stops.value < b.stops.value; });
  Finding& finding = report.add(one.said_at, {one.beat, worst.at, {one.who, worst.by}},
                                "the shadow of " + quoted(checked, worst.by) + " takes " + text_of(worst.stops) +
                                    " off the favoured face of " + quoted(checked, one.who) + " " + at_words(worst.at) +
                                    " in " + beat_words(checked, one.beat) + ", limit 1 stop");
  finding.next_step = "move one of them a step out of the light's way, or hang the light higher";
}

}  // namespace

void thrown_shadow(const Checked& checked, Reporter& report) {
  std::vector<std::pair<int, Target>> told;
  for (const Featured& one : featured(checked, Whom::favoured_only)) {
    const std::pair<int, Target> key{one.beat, one.who};
    if (std::ranges::find(told, key) != told.end()) continue;
    told.push_back(key);
    look_at(checked, one, report);
  }
}

}  // namespace lensward
