#include <algorithm>

#include "base/listing.h"
#include "base/quantity_text.h"
#include "crew/trades.h"
#include "plan/called.h"
#include "plan/floor.h"

namespace lensward {
namespace {

// Behind the lens, along the floor, to the first wall that stays or piece of furniture; nothing within 5 m.
std::optional<Metres> free_behind(const Plan& plan, const CameraState& state) {
  constexpr double farthest = 5, step = 0.02;
  const Vec2 back = floor_of(axes_of(pinhole_of(state)).forward) * -1;
  if (length(back) < 0.1) return std::nullopt;
  const Vec2 from = floor_of(state.at), way = unit(back);
  const auto obstacles = obstacles_of(plan.stage, {.body = 0, .beyond_walls = true});
  const bool outside = plan.stage.room.outline.empty() || !encloses(plan.stage.room.outline, from);
  for (double gone = 0; gone <= farthest; gone += step) {
    const Vec2 at = from + way * gone;
    if (!outside && !encloses(plan.stage.room.outline, at)) return Metres{gone};
    if (std::ranges::any_of(obstacles, [&](const Outline& one) { return holds(one, at, 0); })) return Metres{gone};
  }
  return std::nullopt;
}

std::vector<Entry> position_row(const Plan& plan, const Tape& tape, int index, Moment moment) {
  const CameraState state = camera_at(plan, CameraId{index}, moment);
  const auto behind = free_behind(plan, state);
  return {OnTheClock{moment},
          plan.stage.cameras[static_cast<std::size_t>(index)].name,
          tape.from_first(floor_of(state.at)),
          tape.from_second(floor_of(state.at)),
          Metres{state.at.z},
          state.pan,
          state.tilt,
          behind ? Entry{*behind} : Entry{std::string("over 5 m")}};
}

struct Move {
  Moment begin, end;
};

// Stretches in which the lens goes over 2 cm; those that meet are one.
std::vector<Move> moves_of(const CameraTrack& track) {
  std::vector<Move> moves;
  for (const Segment<Vec3>& segment : track.place) {
    if (segment.end <= segment.begin || length(segment.to - segment.from) < 0.02) continue;
    if (!moves.empty() && moves.back().end == segment.begin)
      moves.back().end = segment.end;
    else
      moves.push_back({segment.begin, segment.end});
  }
  return moves;
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
  for (std::size_t i = 0; i < plan.cameras.size(); ++i) {
    table.rows.push_back(position_row(plan, tape, static_cast<int>(i), {}));
    for (const Move& move : moves_of(plan.cameras[i]))
      table.rows.push_back(position_row(plan, tape, static_cast<int>(i), move.end));
  }
  return table;
}

CrewTable moves(const Plan& plan) {
  CrewTable table{"moves",
                  "Moves",
                  "The fastest is of the smooth start and stop that was reckoned with.",
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
    for (const Move& move : moves_of(plan.cameras[i])) {
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

}  // namespace

CrewSheet grip_sheet(const Plan& plan) {
  CrewSheet sheet{CrewSheet::For::grip, "Grip", {}, {}, {}};
  add(positions(plan), sheet);
  add(moves(plan), sheet);
  add_notes(plan, {"grip"}, sheet);
  return sheet;
}

}  // namespace lensward
