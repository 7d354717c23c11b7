#include "base/quantity_text.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage too_near_to_focus_page{
    .sees =
        "A focus nearer than the lens on the camera can be set (its `closest`; 0.3 m when no lens of the kit "
        "has this focal length).",
    .why = "The lens stops turning, and everyone is soft.",
    .example =
        "lens L85, 85 mm, closest 0.9 m\n"
        "camera A, lens L85, focus 0.5 m",
    .better =
        "lens L85, 85 mm, closest 0.9 m\n"
        "camera A, lens L85, focus 1 m",
    .source = "the kit's own figure; 0.3 m is a default, no source.",
};

namespace {

Metres closest_of(const Stage& stage, Millimetres focal) {
  for (const Lens& lens : stage.lenses) {
    if (abs(lens.focal - focal).value < 0.01) return lens.closest;
  }
  return Metres{0.3};
}

}  // namespace

void too_near_to_focus(const Checked& checked, Reporter& report) {
  std::vector<CameraId> told;
  for (const View& view : checked.attention.views) {
    if (!view.camera.known() || std::find(told.begin(), told.end(), view.camera) != told.end()) continue;
    const Metres closest = closest_of(checked.plan.stage, view.state.focal);
    if (view.state.focus.value >= closest.value - 1e-6) continue;
    told.push_back(view.camera);
    const Camera& camera = checked.plan.stage.cameras[static_cast<std::size_t>(view.camera.index)];
    report.add(camera.declared.empty() ? checked.plan.facts.heading : camera.declared,
               {beat_at(checked.plan, view.moment), view.moment, {}},
               "camera `" + camera.name + "` should focus at " + text_of(view.state.focus) + " " +
                   at_words(view.moment) + "; its lens goes no nearer than " + text_of(closest));
  }
}

}  // namespace lensward
