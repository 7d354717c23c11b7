#include <algorithm>

#include "base/quantity_text.h"
#include "lens/seen_groups.h"
#include "lens/seen_motion.h"
#include "plan/floor.h"
#include "plan/lane.h"
#include "rules/cuts.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage gear_in_shot_page{
    .sees =
        "A lamp of the crew's in the picture, in front of everything that could hide it: not a practical, not one that "
        "somebody carries, not one that nobody wrote (which is light that is there). Its stand, boxes and cables are "
        "not looked at, nor the track.",
    .why = "It has to be moved on the day, and then the light is another one than was reckoned with.",
    .example =
        "camera A is at (3, -1) m, aims at (3, 3) m\n"
        "light Key, soft, at (3, 4) m, height 2 m, aims at Oda",
    .better =
        "camera A is at (3, -1) m, aims at (3, 3) m\n"
        "light Key, soft, at (0.5, 4) m, height 2.5 m, aims at Oda",
    .source = "common practice, no source.",
};

namespace {

bool belongs_in_the_picture(const Plan& plan, LampId id, Moment moment) {
  const Lamp& lamp = plan.stage.lamps[static_cast<std::size_t>(id.index)];
  const LampTrack& track = plan.lamps[static_cast<std::size_t>(id.index)];
  return is_supplied(plan, lamp) || lamp.kind == Lamp::Kind::practical ||
         stepped(track.carried, moment, Target{}).kind != Target::Kind::nothing;
}

bool in_picture(GroupMaker& maker, const Checked& checked, const View& view, LampId id) {
  if (belongs_in_the_picture(checked.plan, id, view.moment)) return false;
  const Vec3 at = lamp_at(checked.plan, id, view.moment).at;
  const auto seen = project(usable_lens(view.state), at);
  if (!seen || seen->at.u < 0 || seen->at.u > 1 || seen->at.v < 0 || seen->at.v > 1) return false;
  return !shaded(maker.groups(checked.plan, view.moment), at, view.state.at, {});
}

}  // namespace

void gear_in_shot(const Checked& checked, Reporter& report) {
  GroupMaker maker;
  for (std::size_t i = 0; i < checked.plan.stage.lamps.size(); ++i) {
    const LampId lamp{static_cast<int>(i)};
    const auto seen = std::ranges::find_if(checked.attention.views, [&](const View& view) {
      return view.camera.known() && in_picture(maker, checked, view, lamp);
    });
    if (seen == checked.attention.views.end()) continue;
    const Lamp& written = checked.plan.stage.lamps[i];
    const int beat = beat_at(checked.plan, seen->moment);
    Finding& finding =
        report.add(written.declared, {beat, seen->moment, {}},
                   "light `" + written.name + "` is in the picture of " + camera_words(checked, seen->camera) + " " +
                       at_words(seen->moment) + " in " + beat_words(checked, beat));
    finding.next_step = "move it out, hide it behind something, or write `practical` when it is part of the set";
  }
}

}  // namespace lensward
