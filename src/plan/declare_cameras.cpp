#include <algorithm>
#include <cmath>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "figure/proportions.h"
#include "plan/declaring.h"
#include "plan/floor.h"

namespace lensward {
namespace {

constexpr Millimetres usual_focal{35};
constexpr FNumber usual_stop{2.8};
constexpr double usual_height = 1.5;
constexpr double outside = 1;

const Limits focals{"focal length", Dimension::length, 0.003, 3, "lens 35 mm"};
const Limits gates{"gate", Dimension::length, 0.001, 0.2, "gate 24.9 mm by 13.5 mm"};
const Limits camera_heights{"height of a camera", Dimension::length, -5, 60, "height 1.5 m"};
const Limits pans{"pan", Dimension::angle, -720, 720, "pan 10 deg"};
const Limits tilts{"tilt", Dimension::angle, -90, 90, "tilt -5 deg"};
const Limits focus_distances{"focus", Dimension::length, 0.05, 1000, "focus 2.4 m"};
const Limits pupils{"place of a lens's entrance pupil", Dimension::length, -1, 2, "pupil 9 cm"};
const Limits closest{"closest focus of a lens", Dimension::length, 0.01, 50, "closest 0.3 m"};

std::optional<FNumber> stop_told(const StopClause& stop, Span where, Declaring& declaring) {
  if (stop.number >= 0.5 && stop.number <= 128) return FNumber{stop.number};
  report(declaring, "unit.out-of-range", where, '`' + number(stop.number, 2) + "` is no stop: T0.5 to T128",
         "write it as `stop T2.8`");
  return std::nullopt;
}

// The grammar lets no other word through.
Rig rig_of(const std::string& word) {
  for (const Rig rig : {Rig::tripod, Rig::shoulder, Rig::slider, Rig::dolly, Rig::jib, Rig::crane, Rig::stabiliser})
    if (word == spelling(rig)) return rig;
  return Rig::sticks;
}

// 1 m outside the middle of the southern edge of the room, looking at its middle.
Vec3 usual_place(const Stage& stage) {
  const Outline ground = ground_of(stage, 0);
  return {(ground[0].x + ground[1].x) / 2, ground[0].y - outside, usual_height};
}

// The tilt that puts the eyes of somebody of usual height at `point` on the upper third of the picture.
Degrees heads_up_tilt(Vec3 lens, Vec2 point, Millimetres focal, Millimetres gate_height) {
  const double eyes = eye_height(Person{}.stature, Posture::standing, Metres{0}).value;
  const Degrees to_eyes = arc_tangent(eyes - lens.z, std::max(0.3, length(point - floor_of(lens))));
  return to_eyes - arc_tangent(gate_height.value / 6, focal.value);
}

// Splits the room: as soft near as far.
Metres usual_focus(const Stage& stage, Vec3 lens) {
  const double middle = std::max(1.0, length(middle_of(stage) - floor_of(lens)));
  const double near = middle * 0.6;
  const double far = middle * 1.7;
  return Metres{2 * near * far / (near + far)};
}

void set_start(CameraTrack& track, Vec3 at, Vec2 aim, Origin origin, Span span) {
  track.place = {from_the_start(at, origin, span)};
  track.aim = {from_the_start(aim, origin, span)};
}

void supply_camera(Declaring& declaring) {
  Stage& stage = declaring.plan.stage;
  Name name{"A", {}};
  for (char letter = 'A'; letter <= 'Z' && declaring.names.find(name.text); ++letter) name.text = letter;
  declaring.names.declare(name, CameraId{static_cast<int>(stage.cameras.size())});
  Camera camera;
  camera.name = name.text;
  camera.origin = Origin::assumed;
  camera.declared = declaring.plan.facts.heading;
  stage.cameras.push_back(camera);
  declaring.plan.cameras.resize(stage.cameras.size());
  CameraTrack& track = declaring.plan.cameras.back();
  const Vec3 at = usual_place(stage);
  const Degrees pan = bearing_of(middle_of(stage) - floor_of(at));
  const Degrees tilt = heads_up_tilt(at, middle_of(stage), usual_focal, camera.gate_height);
  const Metres focus = usual_focus(stage, at);
  set_start(track, at, {pan.value, tilt.value}, Origin::assumed, {});
  track.focal = {from_the_start(usual_focal, Origin::assumed, Span{})};
  track.stop = {from_the_start(usual_stop, Origin::assumed, Span{})};
  track.focus = {from_the_start(focus, Origin::assumed, Span{})};
  const std::string place = "(" + number(at.x, 2) + ", " + number(at.y, 2) + ") m";
  assume(declaring,
         "no camera told, so `" + name.text +
             "`: 35 mm at T2.8, 1.5 m up, 1 m outside the middle of the south wall, which is taken out, looking at the "
             "middle of the room, focus " +
             text_of(focus),
         "camera " + name.text + ", at " + place + ", height 1.5 m, lens 35 mm, stop T2.8, aims at " + "(" +
             number(middle_of(stage).x, 2) + ", " + number(middle_of(stage).y, 2) + ") m",
         declaring.plan.facts.heading);
}

void read_gate(const Clauses& clauses, Camera& camera, Declaring& declaring) {
  for (const Clause& clause : clauses) {
    const auto* dims = std::get_if<DimsClause>(&clause.body);
    if (dims == nullptr || !dims->gate || dims->figures.size() < 2) continue;
    const auto width = measured(dims->figures[0], gates, declaring.findings);
    const auto height = measured(dims->figures[1], gates, declaring.findings);
    if (!width || !height) continue;
    camera.gate_width = to_millimetres(Metres{*width});
    camera.gate_height = to_millimetres(Metres{*height});
  }
}

void read_lens(const Clauses& clauses, Span span, CameraTrack& track, Declaring& declaring) {
  if (const auto* lens = find<LensClause>(clauses)) {
    std::optional<double> focal;
    if (lens->focal) focal = measured(*lens->focal, focals, declaring.findings);
    if (lens->lens) {
      const auto id = resolve<Id<Lens>>(declaring.names, *lens->lens, declaring.findings);
      if (id) focal = to_metres(declaring.plan.stage.lenses[static_cast<std::size_t>(id->index)].focal).value;
    }
    if (focal) track.focal = {from_the_start(to_millimetres(Metres{*focal}), Origin::said, span)};
  }
  for (const Clause& clause : clauses) {
    const auto* stop = std::get_if<StopClause>(&clause.body);
    if (stop == nullptr || stop->widest) continue;
    if (const auto value = stop_told(*stop, clause.span, declaring)) {
      track.stop = {from_the_start(*value, Origin::said, span)};
    }
  }
  const auto* focus = find<FocusClause>(clauses);
  if (focus == nullptr || !focus->distance) return;
  if (const auto distance = measured(*focus->distance, focus_distances, declaring.findings)) {
    track.focus = {from_the_start(Metres{distance->preferred}, Origin::said, span)};
  }
}

void read_place(const Clauses& clauses, Span span, CameraTrack& track, Declaring& declaring) {
  Vec3 at = track.place.back().to;
  Origin origin = track.place.back().origin;
  for (const Place& place : places_in(clauses)) {
    PlaceContext context = context_of(declaring);
    const auto target = target_of(place, context, declaring.findings);
    if (!target || target->kind != Target::Kind::point) continue;
    at = {target->point.x, target->point.y, at.z};
    origin = Origin::said;
  }
  if (const auto height = measured_in(clauses, "height", camera_heights, declaring.findings)) at.z = *height;
  track.place = {from_the_start(at, origin, span)};
}

void look_at_middle(CameraTrack& track, const Camera& camera, const Stage& stage) {
  const Vec3 at = track.place.back().to;
  const Vec2 middle = middle_of(stage);
  const Degrees pan = bearing_of(middle - floor_of(at));
  const Degrees tilt = heads_up_tilt(at, middle, track.focal.back().to, camera.gate_height);
  track.aim = {from_the_start(Vec2{pan.value, tilt.value}, Origin::assumed, Span{})};
}

void start_usual(CameraTrack& track, const Stage& stage) {
  const Vec3 at = usual_place(stage);
  set_start(track, at, {}, Origin::assumed, {});
  track.focal = {from_the_start(usual_focal, Origin::assumed, Span{})};
  track.stop = {from_the_start(usual_stop, Origin::assumed, Span{})};
  track.focus = {from_the_start(usual_focus(stage, at), Origin::assumed, Span{})};
}

void tell_missing(const Camera& camera, const CameraTrack& track, const Declared& declared, Declaring& declaring) {
  if (track.place.back().origin == Origin::assumed) {
    const Vec3 at = track.place.back().to;
    const std::string place = "at (" + number(at.x, 2) + ", " + number(at.y, 2) + ") m";
    assume(declaring, "no place told for camera `" + camera.name + "`, so 1 m outside the middle of the south side",
           Pin{"camera", camera.name, place}, declared.line);
  }
  if (track.focal.back().origin == Origin::assumed) {
    assume(declaring, "no lens told for camera `" + camera.name + "`, so 35 mm",
           Pin{"camera", camera.name, "lens 35 mm"}, declared.line);
  }
  if (track.stop.back().origin == Origin::assumed) {
    assume(declaring, "no stop told for camera `" + camera.name + "`, so T2.8", Pin{"camera", camera.name, "stop T2.8"},
           declared.line);
  }
}

void read_camera(const Declared& declared, CameraId id, Declaring& declaring) {
  const auto index = static_cast<std::size_t>(id.index);
  Camera& camera = declaring.plan.stage.cameras[index];
  CameraTrack& track = declaring.plan.cameras[index];
  start_usual(track, declaring.plan.stage);
  for (const auto& [clauses, span] : sayings_of(declared, DeedLine::Subject::camera, declaring)) {
    read_gate(*clauses, camera, declaring);
    if (const auto* rig = find<RigClause>(*clauses)) camera.support = {rig_of(rig->rig), Origin::said, span};
    read_lens(*clauses, span, track, declaring);
    read_place(*clauses, span, track, declaring);
  }
  look_at_middle(track, camera, declaring.plan.stage);
  tell_missing(camera, track, declared, declaring);
}

// Where two stretches of floor cross; nothing when they do not, or lie along one another.
std::optional<Vec2> meeting_of(Vec2 a, Vec2 b, Vec2 from, Vec2 to) {
  const double across = cross(b - a, to - from);
  if (std::fabs(across) < 1e-9) return std::nullopt;
  const double first = cross(from - a, to - from) / across, second = cross(from - a, b - a) / across;
  const bool on_both = first > 0 && first < 1 && second > 0 && second < 1;
  return on_both ? std::optional{mix(a, b, first)} : std::nullopt;
}

// A lens there may be meant to look in by the door or window.
bool has_opening_near(const Stage& stage, Vec2 point) {
  constexpr double beside = 1;
  return std::any_of(stage.openings.begin(), stage.openings.end(), [&](const Opening& opening) {
    return length(opening.middle - point) < opening.width.value / 2 + beside;
  });
}

void aim(const Clauses& clauses, Span span, CameraTrack& track, Declaring& declaring) {
  const Vec3 at = track.place.back().to;
  Vec2 aim_now = track.aim.back().to;
  const AimsClause* aims = find<AimsClause>(clauses);
  if (aims != nullptr) {
    const PlaceContext context = context_of(declaring);
    // People stand nowhere yet; who is aimed at is found when the scene begins.
    const auto target = target_of(aims->place, context, declaring.findings);
    const auto point = target ? point_of(declaring.plan, *target, Moment{}) : std::nullopt;
    const bool on_somebody = target && target->kind == Target::Kind::person;
    if (point && !on_somebody) {
      const bool level = aims->place.word == Place::Word::coordinates;
      const Aim found = aim_at(at, level ? raised(floor_of(*point), at.z) : *point);
      aim_now = {found.pan.value, found.tilt.value};
    }
  }
  if (const auto pan = measured_in(clauses, "pan", pans, declaring.findings)) aim_now.x = *pan;
  if (const auto tilt = measured_in(clauses, "tilt", tilts, declaring.findings)) aim_now.y = *tilt;
  if (aim_now == track.aim.back().to) return;
  track.aim = {from_the_start(aim_now, Origin::said, span)};
}

}  // namespace

void declare_lenses(Declaring& declaring) {
  for (const Declared& declared : declaring.declared) {
    const auto* id = std::get_if<Id<Lens>>(&declared.what);
    if (id == nullptr) continue;
    Lens& lens = declaring.plan.stage.lenses[static_cast<std::size_t>(id->index)];
    if (const auto focal = measured_in(*declared.clauses, "focal", focals, declaring.findings)) {
      lens.focal = to_millimetres(Metres{*focal});
    } else if (measure_in(*declared.clauses, "focal") == nullptr) {
      assume(declaring, "no focal length told for lens `" + lens.name + "`, so 35 mm",
             Pin{"lens", lens.name, "focal 35 mm"}, declared.line);
    }
    if (const auto nearest = measured_in(*declared.clauses, "closest", closest, declaring.findings)) {
      lens.closest = Metres{*nearest};
    }
    if (const auto pupil = measured_in(*declared.clauses, "pupil", pupils, declaring.findings))
      lens.pupil = Metres{*pupil};
    for (const Clause& clause : *declared.clauses) {
      const auto* stop = std::get_if<StopClause>(&clause.body);
      if (stop == nullptr || !stop->widest) continue;
      if (const auto value = stop_told(*stop, clause.span, declaring)) lens.widest = *value;
    }
  }
}

void declare_cameras(Declaring& declaring) {
  declaring.plan.cameras.resize(declaring.plan.stage.cameras.size());
  if (declaring.plan.stage.cameras.empty()) supply_camera(declaring);
  for (const Declared& declared : declaring.declared) {
    if (const auto* id = std::get_if<CameraId>(&declared.what)) read_camera(declared, *id, declaring);
  }
}

void take_out_walls_before_cameras(Declaring& declaring) {
  Stage& stage = declaring.plan.stage;
  for (std::size_t i = 0; i < stage.cameras.size(); ++i) {
    const Vec2 lens = floor_of(declaring.plan.cameras[i].place.back().to);
    for (Wall& wall : stage.walls) {
      const auto meeting = meeting_of(lens, middle_of(stage), wall.from, wall.to);
      if (wall.wild || !meeting || has_opening_near(stage, *meeting)) continue;
      wall.wild = true;
      const std::string what = "camera `" + stage.cameras[i].name + "` stands behind the wall `" + wall.name +
                               "`, so that wall is taken out: nobody sees it and nothing stops at it";
      if (wall.declared.empty()) {
        assume(declaring, what, "wall " + wall.name + ", wild", declaring.plan.facts.heading);
      } else {
        assume(declaring, what, Pin{"wall", wall.name, "wild"}, wall.declared);
      }
    }
  }
}

void aim_cameras(Declaring& declaring) {
  for (const Declared& declared : declaring.declared) {
    const auto* id = std::get_if<CameraId>(&declared.what);
    if (id == nullptr) continue;
    CameraTrack& track = declaring.plan.cameras[static_cast<std::size_t>(id->index)];
    for (const auto& [clauses, span] : sayings_of(declared, DeedLine::Subject::camera, declaring))
      aim(*clauses, span, track, declaring);
  }
}

}  // namespace lensward
