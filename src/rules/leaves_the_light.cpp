#include <algorithm>

#include "base/quantity_text.h"
#include "emphasis/gates.h"
#include "rules/featured.h"
#include "rules/next_step.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage leaves_the_light_page{
    .sees =
        "Somebody whose face loses 1.5 stops or more by a walk and is under then, seen before and after it, who speaks "
        "or is "
        "favoured within 3 s of arriving, while no lamp changes. More than 2 stops under, of the favoured, is "
        "`dark-favourite`'s to tell.",
    .why = "They walk out of their light, and play what comes next in the shade.",
    .example =
        "light Key, hard, aims at Table\n"
        "Oda walks from the Table to the Yard-Door\n"
        "Oda: \"I signed it.\"",
    .better =
        "light Key, hard, aims at Table\n"
        "light Door, hard, aims at the Yard-Door\n"
        "Oda walks from the Table to the Yard-Door\n"
        "Oda: \"I signed it.\"",
    .source = "common practice, no source: one stop is plainly seen on a face.",
};

namespace {

constexpr Stops lost{1.5}, under{0.5}, dark{2};
constexpr Milliseconds soon{3000}, settled{200};

// Nothing when the face is not to be seen then.
std::optional<Stops> exposure_at(const Checked& checked, const Target& who, Moment moment) {
  const Window window = window_of(checked.playback(), {moment, moment + Milliseconds{1}});
  const PersonSeen* seen = window.empty() ? nullptr : person_in(*window.front().view, who);
  if (seen == nullptr || seen->face_visible.value < 0.25) return std::nullopt;
  return seen_exposure(checked.plan, *window.front().view, *seen);
}

bool a_lamp_changes(const Plan& plan, Moment begin, Moment end) {
  return std::ranges::any_of(plan.lamps, [&](const LampTrack& lamp) {
    return std::ranges::any_of(lamp.level, [&](const Segment<Share>& level) {
      return level.from != level.to && level.begin < end && begin <= level.end;
    });
  });
}

const Featured* soon_after(const std::vector<Featured>& all, const Target& who, Moment moment) {
  const auto one = std::ranges::find_if(all, [&](const Featured& featured) {
    return featured.who == who && featured.when.begin < moment + soon && moment < featured.when.end;
  });
  return one == all.end() ? nullptr : &*one;
}

}  // namespace

void leaves_the_light(const Checked& checked, Reporter& report) {
  const std::vector<Featured> all = featured(checked, Whom::favoured_or_speaking);
  for (std::size_t i = 0; i < checked.plan.people.size(); ++i) {
    const Target who{Target::Kind::person, static_cast<int>(i), {}};
    for (const Segment<Walk>& walk : checked.plan.people[i].feet) {
      const Featured* one = walk.to.path.size() > 1 ? soon_after(all, who, walk.end) : nullptr;
      if (one == nullptr || a_lamp_changes(checked.plan, walk.begin, walk.end + settled)) continue;
      const auto before = exposure_at(checked, who, walk.begin), after = exposure_at(checked, who, walk.end + settled);
      if (!before || !after || *before - *after < lost || *after > -under) continue;
      if (!one->speaks && *after < -dark) continue;
      const int beat = beat_at(checked.plan, walk.end);
      Finding& finding = report.add(walk.said_at, {beat, walk.end, {who}},
                                    quoted(checked, who) + " walks out of the light: " + text_of(*before - *after) +
                                        " less than before, " + text_of(-*after) + " under " + at_words(walk.end) +
                                        " in " + beat_words(checked, beat) + ", limit 1.5 stops");
      finding.next_step = light_step(checked, walk.end, who);
    }
  }
}

}  // namespace lensward
