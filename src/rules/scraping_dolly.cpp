#include <algorithm>

#include "base/quantity_text.h"
#include "plan/floor.h"
#include "rules/cuts.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage scraping_dolly_page{
    .sees =
        "A camera told `on dolly` and on air that comes, on its way, within 40 cm of furniture or of a wall that "
        "stays: a door has to be 80 cm wide for it. What it stands beside and does not move past is let be.",
    .why = "A dolly is wider than its lens: it takes the table along, or does not go through the door.",
    .example =
        "furniture Table, at (3, 2) m\n"
        "camera A, on dolly\n"
        "camera A moves by the Table, to 20 cm off it",
    .better =
        "furniture Table, at (3, 2) m\n"
        "camera A, on dolly\n"
        "camera A moves by the Table, to 60 cm off it",
    .source = "common practice, no source: narrow dollies are 65 to 75 cm wide.",
};

namespace {

constexpr Metres clearance{0.4};

struct Near {
  std::string what;
  Metres away{1000};
};

Near nearest_to(const Stage& stage, Vec2 at) {
  Near nearest;
  const auto take = [&](const std::string& what, double away) {
    if (away < nearest.away.value) nearest = {what, Metres{away}};
  };
  for (const Piece& piece : stage.pieces)
    if (stands_in_the_way(piece)) take('`' + piece.name + '`', distance_to(box_of(piece), at));
  for (const Wall& wall : stage.walls) {
    const Vec2 by = nearest_on(wall.from, wall.to, at);
    if (wall.wild) continue;
    const bool through_a_door = std::ranges::any_of(stage.openings, [&](const Opening& opening) {
      const bool here = stage.walls[static_cast<std::size_t>(opening.wall.index)].name == wall.name;
      return here && opening.kind == Opening::Kind::door && length(by - opening.middle) < opening.width.value / 2;
    });
    if (!through_a_door) take("wall `" + wall.name + '`', length(by - at));
  }
  for (const Opening& opening : stage.openings) {
    if (opening.kind != Opening::Kind::door) continue;
    const Vec2 along = left_of(opening.into_room) * (opening.width.value / 2);
    for (const Vec2 post : {opening.middle + along, opening.middle - along})
      take("the frame of `" + opening.name + '`', length(post - at));
  }
  return nearest;
}

bool rides_a_dolly(const Checked& checked, const View& view) {
  const Support& support = checked.plan.stage.cameras[static_cast<std::size_t>(view.camera.index)].support;
  return support.rig == Rig::dolly && support.origin != Origin::assumed;
}

}  // namespace

void scraping_dolly(const Checked& checked, Reporter& report) {
  std::vector<std::pair<int, std::string>> told;
  const View* before = nullptr;
  for (const View& view : checked.attention.views) {
    const bool goes = before != nullptr && before->camera == view.camera && view.camera.known() &&
                      floor_of(before->state.at) != floor_of(view.state.at);
    before = &view;
    if (!goes || !rides_a_dolly(checked, view)) continue;
    const Near near = nearest_to(checked.plan.stage, floor_of(view.state.at));
    const int beat = beat_at(checked.plan, view.moment);
    const std::pair key{beat, near.what};
    if (near.away >= clearance || std::ranges::find(told, key) != told.end()) continue;
    told.push_back(key);
    Finding& finding =
        report.add(camera_line(checked, view.camera, view.moment), {beat, view.moment, {}},
                   camera_words(checked, view.camera) + " on dolly comes within " + text_of(near.away) + " of " +
                       near.what + " " + at_words(view.moment) + " in " + beat_words(checked, beat) + ", limit 0.4 m");
    finding.next_step = "let it go farther off, or move the piece";
  }
}

}  // namespace lensward
