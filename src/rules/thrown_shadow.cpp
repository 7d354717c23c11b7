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
        "the stretch; or the camera, with whoever works it half a metre behind the lens. The boom's place on the sound "
        "sheet is out of each hard lamp's way to a face.",
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
  Target by;  // a person, or the lens
  Stops stops;
};

std::optional<Shadow> shadow_at(const Checked& checked, PersonId person, Moment moment) {
  const auto of_body = shadow_on(checked.plan, person, moment);
  const auto of_camera = camera_shadow_on(checked.plan, person, moment);
  if (of_camera && (!of_body || *of_camera > of_body->stops))
    return Shadow{moment, {Target::Kind::lens, on_air(checked.plan, moment).index, {}}, *of_camera};
  if (of_body) return Shadow{moment, of_body->by, of_body->stops};
  return std::nullopt;
}

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
    const auto thrown = shadow_at(checked, PersonId{one.who.index}, moment);
    if (thrown && thrown->stops.value >= a_stop && is_seen(checked, moment, one.who)) shadows.push_back(*thrown);
  }
  if (shadows.size() < at_least) return;
  const Shadow& worst = *std::ranges::max_element(
      shadows, [](const Shadow& a, const Shadow& b) { return a.stops.value < b.stops.value; });
  const bool by_camera = worst.by.kind == Target::Kind::lens;
  About about{one.beat, worst.at, {one.who}};
  if (!by_camera) about.people.push_back(worst.by);
  const std::string of = by_camera ? camera_words(checked, CameraId{worst.by.index}) + ", with whoever works it,"
                                   : quoted(checked, worst.by);
  Finding& finding = report.add(one.said_at, about,
                                "the shadow of " + of + " takes " + text_of(worst.stops) +
                                    " off the favoured face of " + quoted(checked, one.who) + " " + at_words(worst.at) +
                                    " in " + beat_words(checked, one.beat) + ", limit 1 stop");
  finding.next_step = by_camera ? "hang the light higher, or take it to one side of the camera"
                                : "move one of them a step out of the light's way, or hang the light higher";
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
