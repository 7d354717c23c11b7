#include <algorithm>
#include <cmath>

#include "base/quantity_text.h"
#include "rules/cuts.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage not_in_kit_page{
    .sees =
        "Where lenses are declared: a camera set to a focal length that none of them has, or to a stop wider than that "
        "lens opens.",
    .why = "The day begins without the lens, and the picture that was reckoned with cannot be had.",
    .example =
        "lens L35, 35 mm, widest T2\n"
        "camera A is at (3, -1) m, lens 50 mm",
    .better =
        "lens L35, 35 mm, widest T2\n"
        "camera A is at (3, -1) m, lens L35",
    .source = "the kit as the writer declares it.",
};

namespace {

const Lens* lens_of(const Stage& stage, Millimetres focal) {
  const auto found = std::ranges::find_if(
      stage.lenses, [&](const Lens& lens) { return std::fabs(lens.focal.value - focal.value) < 0.05; });
  return found == stage.lenses.end() ? nullptr : &*found;
}

std::string lenses_there(const Stage& stage) {
  std::string all;
  for (const Lens& lens : stage.lenses) all += (all.empty() ? "" : ", ") + text_of(lens.focal);
  return all;
}

void look_at_focal(const Checked& checked, CameraId camera, const Segment<Millimetres>& set, Reporter& report) {
  const Stage& stage = checked.plan.stage;
  if (set.said_at.empty() || lens_of(stage, set.to) != nullptr) return;
  Finding& finding = report.add(set.said_at, {beat_at(checked.plan, set.end), set.end, {}},
                                camera_words(checked, camera) + " is set to " + text_of(set.to) + " " +
                                    at_words(set.end) + ", and no lens of the kit has that length");
  finding.next_step = "the kit has " + lenses_there(stage);
}

void look_at_stop(const Checked& checked, CameraId camera, const Segment<FNumber>& set, Reporter& report) {
  const Lens* lens = lens_of(checked.plan.stage, camera_at(checked.plan, camera, set.end).focal);
  if (set.said_at.empty() || lens == nullptr || set.to.value >= lens->widest.value - 0.01) return;
  Finding& finding =
      report.add(set.said_at, {beat_at(checked.plan, set.end), set.end, {}},
                 camera_words(checked, camera) + " is set to T" + number(set.to.value, 1) + " " + at_words(set.end) +
                     ", and lens `" + lens->name + "` opens no wider than T" + number(lens->widest.value, 1));
  finding.next_step = "write `stop T" + number(lens->widest.value, 1) + "`, or take a faster lens";
}

}  // namespace

void not_in_kit(const Checked& checked, Reporter& report) {
  if (checked.plan.stage.lenses.empty()) return;
  for (std::size_t i = 0; i < checked.plan.cameras.size(); ++i) {
    const CameraId camera{static_cast<int>(i)};
    for (const auto& set : checked.plan.cameras[i].focal) look_at_focal(checked, camera, set, report);
    for (const auto& set : checked.plan.cameras[i].stop) look_at_stop(checked, camera, set, report);
  }
}

}  // namespace lensward
