#include <algorithm>
#include <cmath>

#include "base/quantity_text.h"
#include "rules/next_step.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage pull_too_quick_page{
    .sees =
        "A focus pull of a camera on air that goes faster than 0.5 dioptres a second: the difference of 1/distance, in "
        "metres, over the time it is given.",
    .why = "The ring has farther to turn than a hand turns it, and the new face comes up soft.",
    .example = "camera A racks focus to Pell, over 0.1 s",
    .better = "camera A racks focus to Pell, over 0.8 s",
    .source =
        "common practice, no source. From 3 m to 2 m in 1 s is 0.17, from 2 m to 6 m in 0.5 s is 0.67 dioptres a "
        "second.",
};

namespace {

constexpr double too_quick = 0.5;

struct Pull {
  Span said_at;
  Moment begin, end;
};

std::vector<Pull> pulls_of(const CameraTrack& track) {
  std::vector<Pull> pulls;
  const auto add = [&](const auto& lane) {
    for (const auto& segment : lane)
      if (segment.end > segment.begin && !segment.said_at.empty())
        pulls.push_back({segment.said_at, segment.begin, segment.end});
  };
  add(track.focus_on);
  add(track.focus);
  return pulls;
}

void look_at(const Checked& checked, CameraId camera, const Pull& pull, Reporter& report) {
  if (on_air(checked.plan, pull.begin) != camera) return;
  const Metres from = camera_at(checked.plan, camera, pull.begin).focus;
  const Metres to = camera_at(checked.plan, camera, pull.end).focus;
  const double dioptres = std::abs(1 / from.value - 1 / to.value);
  const double rate = dioptres / to_seconds(pull.end - pull.begin).value;
  if (rate <= too_quick) return;
  const int beat = beat_at(checked.plan, pull.begin);
  const Milliseconds enough{static_cast<std::int64_t>(std::ceil(dioptres / too_quick * 10)) * 100};
  Finding& finding =
      report.add(pull.said_at, {beat, pull.begin, {}},
                 camera_words(checked, camera) + " pulls focus from " + text_of(from) + " to " + text_of(to) + " in " +
                     text_of(pull.end - pull.begin) + " in " + beat_words(checked, beat) + ": " + number(rate, 1) +
                     " dioptres a second, limit 0.5");
  give_it_time(checked, pull.said_at, enough, finding);
}

}  // namespace

void pull_too_quick(const Checked& checked, Reporter& report) {
  for (std::size_t i = 0; i < checked.plan.cameras.size(); ++i)
    for (const Pull& pull : pulls_of(checked.plan.cameras[i]))
      look_at(checked, CameraId{static_cast<int>(i)}, pull, report);
}

}  // namespace lensward
