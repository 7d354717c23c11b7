#include <algorithm>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "plan/floor.h"
#include "rules/cuts.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage nowhere_to_stand_page{
    .sees =
        "A camera on air, not on a jib or crane, behind whose lens there is no floor for whoever works it: half a "
        "metre "
        "back a wall that stays, or furniture; on a dolly a metre back as well.",
    .why = "Somebody has to work it there for the whole take, and cannot.",
    .example =
        "wall North\n"
        "camera A is at 0.1 m off North, aims at Oda",
    .better =
        "wall North, wild\n"
        "camera A is at 0.1 m off North, aims at Oda",
    .source = "common practice, no source.",
};

namespace {

constexpr double operator_behind = 0.5, dolly_behind = 1;

bool is_worked_from_behind(Rig rig) { return rig != Rig::jib && rig != Rig::crane; }

// What is there, of the places that must be free; nullopt: they are.
std::optional<double> taken_behind(const Checked& checked, const View& view) {
  const Rig rig = checked.plan.stage.cameras[static_cast<std::size_t>(view.camera.index)].support.rig;
  if (!is_worked_from_behind(rig)) return std::nullopt;
  const Vec2 back = direction_of(view.state.pan) * -1.0, at = floor_of(view.state.at);
  if (floor_is_taken(checked.plan.stage, at)) return std::nullopt;  // `stuck-camera` tells that
  if (floor_is_taken(checked.plan.stage, at + back * operator_behind)) return operator_behind;
  if (rig == Rig::dolly && floor_is_taken(checked.plan.stage, at + back * dolly_behind)) return dolly_behind;
  return std::nullopt;
}

}  // namespace

void nowhere_to_stand(const Checked& checked, Reporter& report) {
  std::vector<CameraId> told;
  const View* last = nullptr;
  for (const View& view : checked.attention.views) {
    const bool stays = last != nullptr && last->camera == view.camera && last->state.at == view.state.at &&
                       last->state.pan == view.state.pan;
    last = &view;
    if (stays || !view.camera.known() || std::ranges::find(told, view.camera) != told.end()) continue;
    const auto behind = taken_behind(checked, view);
    if (!behind) continue;
    told.push_back(view.camera);
    const Camera& camera = checked.plan.stage.cameras[static_cast<std::size_t>(view.camera.index)];
    Finding& finding = report.add(camera.declared.empty() ? checked.plan.facts.heading : camera.declared,
                                  {beat_at(checked.plan, view.moment), view.moment, {}},
                                  camera_words(checked, view.camera) + " " + at_words(view.moment) +
                                      " has a wall or "
                                      "furniture " +
                                      text_of(Metres{*behind}) +
                                      " behind the lens, where whoever "
                                      "works it would stand");
    finding.next_step = "take the camera forward, or write `wild` at the wall when it comes out";
  }
}

}  // namespace lensward
