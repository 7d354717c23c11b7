#include <algorithm>
#include <utility>

#include "base/angle.h"
#include "base/listing.h"
#include "base/quantity_text.h"
#include "crew/trades.h"
#include "plan/called.h"
#include "plan/floor.h"

namespace lensward {
namespace {

// Behind the lens, along the floor, to the first wall that stays or piece of furniture.
Entry free_behind(const Plan& plan, const CameraState& state) {
  constexpr int farthest = 500, step = 2;  // cm
  const Vec2 back = floor_of(axes_of(pinhole_of(state)).forward) * -1;
  if (length(back) < 0.1) return {};
  const Vec2 from = floor_of(state.at), way = unit(back);
  const auto obstacles = obstacles_of(plan.stage, {.body = 0, .beyond_walls = true});
  for (int gone = 0; gone <= farthest; gone += step) {
    const Vec2 at = from + way * (gone / 100.0);
    const auto stops = [&](const Wall& wall) { return !wall.wild && cross_each_other(from, at, wall.from, wall.to); };
    if (std::ranges::any_of(plan.stage.walls, stops) ||
        std::ranges::any_of(obstacles, [&](const Outline& one) { return holds(one, at, 0); }))
      return Metres{gone / 100.0};
  }
  return Over{Metres{farthest / 100.0}};
}

std::vector<Entry> position_row(const Plan& plan, const Tape& tape, CameraId camera, Moment moment) {
  const CameraState state = camera_at(plan, camera, moment);
  std::vector<Entry> row{OnTheClock{moment},
                         plan.stage.cameras[static_cast<std::size_t>(camera.index)].name,
                         tape.from_first(floor_of(state.at)),
                         tape.from_second(floor_of(state.at)),
                         Metres{state.at.z},
                         as_bearing(state.pan),
                         state.tilt,
                         free_behind(plan, state)};
  for (Entry& wall : tape.walls()) row.push_back(std::move(wall));
  return row;
}

CrewTable positions(const Plan& plan) {
  const Tape tape(plan.stage);
  CrewTable table{"positions",
                  "Positions",
                  "Of the lens, square to each wall; less than nothing is beyond the wall. Pan is a compass bearing.",
                  {{"at_s", "at", 12},
                   {"camera", "camera", 14},
                   tape.first("lens"),
                   tape.second("lens"),
                   {"height_m", "height", 24},
                   {"pan_deg", "pan", 14},
                   {"tilt_deg", "tilt", 14},
                   {"behind_m", "floor behind", 24}},
                  {}};
  for (Field& wall : Tape::names_of_walls()) table.fields.push_back(std::move(wall));
  table.how += walls_out(plan);
  for (std::size_t i = 0; i < plan.cameras.size(); ++i) {
    const CameraId camera{static_cast<int>(i)};
    std::vector<Moment> moments{{}};
    for (const Moment moment : set_up_anew(plan, camera)) moments.push_back(moment);
    for (const LensMove& move : lens_moves(plan, camera)) moments.push_back(move.end);
    std::ranges::sort(moments);
    for (const Moment moment : moments) table.rows.push_back(position_row(plan, tape, camera, moment));
  }
  return table;
}

}  // namespace

CrewTable camera_moves(const Plan& plan) {
  CrewTable table{"moves",
                  "Moves of the camera",
                  "Reckoned even from begin to end: with a gentle start and stop the middle is half as fast again.",
                  {{"at_s", "at", 12},
                   {"camera", "camera", 14},
                   {"cue", "cue", 48},
                   {"what", "which way", 32},
                   {"distance_m", "far", 22},
                   {"over_s", "over", 14},
                   {"fastest_m_per_s", "fastest", 20}},
                  {}};
  for (std::size_t i = 0; i < plan.cameras.size(); ++i) {
    const CameraId camera{static_cast<int>(i)};
    for (const LensMove& move : lens_moves(plan, camera)) {
      const CameraState before = camera_at(plan, camera, move.begin), after = camera_at(plan, camera, move.end);
      const LensAxes axes = axes_of(pinhole_of(before));
      const Vec3 gone = after.at - before.at;
      const Vec2 ahead = unit(floor_of(axes.forward)), right = unit(floor_of(axes.right));
      std::vector<std::string> ways;
      const auto way = [&](double by, const char* more, const char* less) {
        if (std::abs(by) >= 0.05) ways.push_back(by > 0 ? more : less);
      };
      way(dot(floor_of(gone), ahead), "in", "back");
      way(dot(floor_of(gone), right), "right", "left");
      way(gone.z, "up", "down");
      double far = 0, fastest = 0;
      constexpr Milliseconds step{40};
      for (Moment now = move.begin; now < move.end; now += step) {
        const Moment next = std::min(now + step, move.end);
        const double part = length(camera_at(plan, camera, next).at - camera_at(plan, camera, now).at);
        far += part;
        fastest = std::max(fastest, part / to_seconds(next - now).value);
      }
      table.rows.push_back({OnTheClock{move.begin}, plan.stage.cameras[i].name, cue_words(plan, move.begin),
                            listed(ways), Metres{far}, move.end - move.begin, MetresPerSecond{fastest}});
    }
  }
  return table;
}

CrewSheet grip_sheet(const Plan& plan) {
  CrewSheet sheet{CrewSheet::For::grip, "Grip", {}, {}, {}};
  add(positions(plan), sheet);
  add(camera_moves(plan), sheet);
  add_notes(plan, sheet);
  return sheet;
}

}  // namespace lensward
