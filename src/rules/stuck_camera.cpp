#include "base/angle.h"
#include "plan/floor.h"
#include "rules/rule.h"
#include "rules/words.h"

namespace lensward {

const ManualPage stuck_camera_page{
    .sees =
        "A camera on air that stands inside a piece of furniture or a person, or goes through a wall that is "
        "not wild.",
    .why = "It cannot be there.",
    .example =
        "furniture Table, at (3, 2) m\n"
        "camera A is at (3, 2) m, height 0.7 m",
    .better =
        "furniture Table, at (3, 2) m\n"
        "camera A is at (3, 0.5) m, height 1.4 m",
    .source = "bodies and matter; 0.3 m about a person's axis is half a shoulder's breadth and a lens.",
};

namespace {

constexpr double body_room = 0.3;

struct Obstacle {
  Target what;
  std::string words;
};

bool inside(const Piece& piece, Vec3 at) {
  const double top = piece.hangs_to.value > 0 ? 0 : piece.height.value;
  if (piece.open_underneath && at.z < piece.height.value - 0.1) return false;
  const Vec2 ahead = direction_of(piece.front), aside = left_of(ahead);
  const Vec2 off = floor_of(at) - piece.at;
  return at.z < top && std::fabs(dot(off, aside)) < piece.length.value / 2 &&
         std::fabs(dot(off, ahead)) < piece.depth.value / 2;
}

bool in_body(const Checked& checked, const PersonSeen& seen, const View& view) {
  const PersonState state = person_at(checked.plan, seen.person, view.moment);
  const Metres stature = checked.plan.stage.people[static_cast<std::size_t>(seen.person.index)].stature;
  return length(state.at - floor_of(view.state.at)) < body_room && view.state.at.z < stature.value;
}

std::optional<Obstacle> obstacle_of(const Checked& checked, const View& view, const View* before) {
  if (!view.camera.known()) return std::nullopt;
  const Stage& stage = checked.plan.stage;
  for (std::size_t i = 0; i < stage.pieces.size(); ++i) {
    const Target piece{Target::Kind::piece, static_cast<int>(i), {}};
    if (inside(stage.pieces[i], view.state.at)) return Obstacle{piece, "stands inside " + quoted(checked, piece)};
  }
  for (const PersonSeen& seen : view.people) {
    const Target person{Target::Kind::person, seen.person.index, {}};
    if (in_body(checked, seen, view)) return Obstacle{person, "stands inside " + quoted(checked, person)};
  }
  if (before == nullptr || before->camera != view.camera) return std::nullopt;
  for (std::size_t i = 0; i < stage.walls.size(); ++i) {
    const Wall& wall = stage.walls[i];
    if (wall.wild || !cross_each_other(floor_of(before->state.at), floor_of(view.state.at), wall.from, wall.to))
      continue;
    return Obstacle{{Target::Kind::nothing, static_cast<int>(i), {}}, "goes through wall `" + wall.name + "`"};
  }
  return std::nullopt;
}

}  // namespace

void stuck_camera(const Checked& checked, Reporter& report) {
  std::vector<std::pair<CameraId, Target>> told;
  const View* before = nullptr;
  for (const View& view : checked.attention.views) {
    const std::optional<Obstacle> obstacle = obstacle_of(checked, view, before);
    before = &view;
    if (!obstacle) continue;
    const std::pair<CameraId, Target> key{view.camera, obstacle->what};
    if (std::find(told.begin(), told.end(), key) != told.end()) continue;
    told.push_back(key);
    Finding& finding = report.add(
        camera_line(checked, view.camera, view.moment), {beat_at(checked.plan, view.moment), view.moment, {}},
        camera_words(checked, view.camera) + " " + obstacle->words + " " + at_words(view.moment));
    finding.next_step = "move the camera, or what is in its way";
  }
}

}  // namespace lensward
