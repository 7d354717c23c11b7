#include "plan/places.h"

#include <cmath>
#include <utility>

#include "base/angle.h"
#include "figure/proportions.h"
#include "plan/measures.h"
#include "plan/settling.h"

namespace lensward {
namespace {

// Ten metres on counts as a direction.
constexpr double far_point = 10;

Placing placing_of(const PlaceContext& context, bool goal) {
  Placing placing;
  placing.is_person = context.subject.known();
  placing.goal = goal;
  const auto index = static_cast<std::size_t>(context.subject.index);
  if (!placing.is_person || index >= context.plan.stage.people.size()) return placing;
  const Person& person = context.plan.stage.people[index];
  placing.stature = person.stature;
  placing.eyes = person.eyes.value_or(eye_height(person.stature, Posture::standing, Metres{0}));
  placing.step = person.step;
  return placing;
}

std::string words_of(const PlaceWords& words) {
  std::string text;
  for (const Place* place : words.places) text += (text.empty() ? "" : ", ") + text_of(*place);
  if (words.size) text += (text.empty() ? "" : ", ") + std::string(spelling(*words.size));
  return text;
}

// The camera one phrase names is the camera of the whole composition.
std::optional<Name> camera_named(const PlaceWords& words) {
  for (const Place* place : words.places) {
    if (place->camera) return place->camera;
  }
  return words.body != nullptr ? words.body->camera : std::nullopt;
}

Target at_point(Vec3 point) { return {Target::Kind::point, -1, point}; }

// Where eyes, lamps and lenses are directed on something that is a shape on the floor.
Vec3 looked_at(const Referent& referent, const PlaceContext& context) {
  const Stage& stage = context.plan.stage;
  double height = context.camera.at.z;
  if (referent.piece.known()) height = stage.pieces[static_cast<std::size_t>(referent.piece.index)].height.value / 2;
  return raised(referent.box.at, height);
}

std::optional<Target> named_target(const Name& name, const PlaceContext& context, Findings& findings) {
  const std::optional<Named> found = resolve_any(context.names, name, findings);
  if (!found) return std::nullopt;
  if (const auto* person = std::get_if<PersonId>(&*found)) return Target{Target::Kind::person, person->index, {}};
  if (const auto* prop = std::get_if<PropId>(&*found)) return Target{Target::Kind::prop, prop->index, {}};
  if (const auto* opening = std::get_if<OpeningId>(&*found)) return Target{Target::Kind::opening, opening->index, {}};
  if (const auto* camera = std::get_if<CameraId>(&*found)) return Target{Target::Kind::lens, camera->index, {}};
  if (const auto* lamp = std::get_if<LampId>(&*found)) {
    const auto index = static_cast<std::size_t>(lamp->index);
    if (index < context.plan.lamps.size() && !context.plan.lamps[index].place.empty()) {
      return at_point(context.plan.lamps[index].place.back().to);
    }
  }
  if (const auto* piece = std::get_if<PieceId>(&*found); piece != nullptr && !seat_in(name.text)) {
    return Target{Target::Kind::piece, piece->index, {}};
  }
  Thing thing;
  thing.name = name;
  thing.span = name.span;
  const auto referent = referent_of(thing, context, findings);
  if (!referent) return std::nullopt;
  return at_point(looked_at(*referent, context));
}

std::optional<Target> lens_target(const Thing& thing, const PlaceContext& context, Findings& findings) {
  if (thing.kind == Thing::Kind::lens) return Target{Target::Kind::lens, -1, {}};
  const auto camera = resolve<CameraId>(context.names, thing.name, findings);
  if (!camera) return std::nullopt;
  return Target{Target::Kind::lens, camera->index, {}};
}

// The middle of the eyes of everyone there.
std::optional<Target> everyones_middle(const PlaceContext& context) {
  Vec3 sum;
  int count = 0;
  for (std::size_t i = 0; i < context.people.size() && i < context.plan.stage.people.size(); ++i) {
    if (!context.people[i].present || static_cast<int>(i) == context.subject.index) continue;
    const Metres eyes = eye_height(context.plan.stage.people[i].stature, Posture::standing, Metres{0});
    sum = sum + raised(context.people[i].at, eyes.value);
    ++count;
  }
  if (count == 0) return std::nullopt;
  return at_point(sum * (1.0 / count));
}

Vec2 standing_at(const PlaceContext& context) {
  if (context.coming_from) return *context.coming_from;
  const auto index = static_cast<std::size_t>(context.subject.index);
  if (context.subject.known() && index < context.people.size() && context.people[index].present) {
    return context.people[index].at;
  }
  return middle_of(context.plan.stage);
}

Degrees towards(Vec2 from, Vec2 to, Degrees otherwise) {
  return length(to - from) < 1e-6 ? otherwise : bearing_of(to - from);
}

Degrees standing_bearing(const PlaceContext& context) {
  const auto index = static_cast<std::size_t>(context.subject.index);
  return context.subject.known() && index < context.people.size() ? context.people[index].facing : Degrees{180};
}

std::optional<Vec2> floor_point_of(const Thing& thing, const PlaceContext& context, Findings& findings) {
  if (thing.kind == Thing::Kind::everyone) {
    const auto target = everyones_middle(context);
    return target ? std::optional{floor_of(target->point)} : std::nullopt;
  }
  const auto referent = referent_of(thing, context, findings);
  return referent ? std::optional{referent->box.at} : std::nullopt;
}

double degrees_off(BodyView view) {
  switch (view) {
    case BodyView::frontal:
      return 0;
    case BodyView::three_quarter:
      return 45;
    case BodyView::profile:
      return 90;
    case BodyView::three_quarter_back:
      return 135;
    case BodyView::back:
      return 180;
  }
  return 0;
}

// Toward frame left is clockwise from the lens, seen from above: somebody who faces the lens has its left on the right.
Degrees turned_to(Degrees to_lens, double off, Side side) {
  return wrapped(to_lens + Degrees{side == Side::left ? off : -off});
}

// On which side of the picture a point lies as seen past somebody at `at`.
Side side_of(const CameraState& camera, Vec2 at, Vec2 point) {
  const Vec2 sight = at - floor_of(camera.at);
  return cross(sight, point - floor_of(camera.at)) > 0 ? Side::left : Side::right;
}

// Noses point into the picture when nothing is said.
Side inward_side(const CameraState& camera, Vec2 at) {
  const LensFloor lens = floor_of(camera);
  return dot(at - lens.at, lens.right) > 0 ? Side::left : Side::right;
}

std::optional<Degrees> bearing_told(const Amount& amount, Findings& findings) {
  const Limits limits{"angle off the lens", Dimension::angle, 0, 180, "facing 30 deg off lens toward frame left"};
  const auto told = measured(amount, limits, findings);
  return told ? std::optional{Degrees{told->preferred}} : std::nullopt;
}

}  // namespace

std::optional<SettledPlace> settle(const PlaceWords& words, const PlaceContext& context, int index, int count,
                                   Findings& findings) {
  PlaceContext seen = context;
  seen.camera = camera_of(camera_named(words), context, findings);
  const Placing placing = placing_of(context, words.goal);
  Phrases phrases{{}, words_of(words), words.span};
  for (const Place* place : words.places) {
    std::vector<Area> areas = areas_of(*place, seen, placing, findings);
    if (areas.empty()) return std::nullopt;
    phrases.phrases.push_back(std::move(areas));
  }
  if (words.size) phrases.phrases.push_back(areas_of(*words.size, seen, placing));
  if (phrases.phrases.empty()) return std::nullopt;
  const auto mark = settle_phrases(phrases, context.plan.stage, placing, {index, count, words.apart}, findings);
  if (!mark) return std::nullopt;
  SettledPlace place;
  place.at = mark->at;
  place.origin = mark->origin;
  place.area = mark->area;
  place.words = phrases.words;
  for (const Area& area : mark->chosen) {
    if (!place.faces) place.faces = area.faces;
    if (!place.piece.known()) place.piece = area.piece;
    place.on_piece = place.on_piece || area.on_piece;
  }
  if (words.body != nullptr) {
    if (const auto facing = facing_of(*words.body, seen, place.at, findings)) place.body = facing->bearing;
  }
  return place;
}

std::optional<Target> target_of(const Thing& thing, const PlaceContext& context, Findings& findings) {
  switch (thing.kind) {
    case Thing::Kind::named:
      return named_target(thing.name, context, findings);
    case Thing::Kind::lens:
    case Thing::Kind::camera:
      return lens_target(thing, context, findings);
    case Thing::Kind::everyone:
      return everyones_middle(context);
    case Thing::Kind::nobody:
      return Target{};
    case Thing::Kind::portion:
    case Thing::Kind::middle:
    case Thing::Kind::wall:
    case Thing::Kind::corner:
      break;
    case Thing::Kind::own_side: {
      const auto referent = referent_of(thing, context, findings);
      if (!referent) return std::nullopt;
      Vec2 way = referent->box.front;
      if (thing.own_side == OwnSide::back) way = way * -1;
      if (thing.own_side == OwnSide::left) way = referent->box.right * -1;
      if (thing.own_side == OwnSide::right) way = referent->box.right;
      return at_point(raised(referent->box.at + way, context.camera.at.z));
    }
  }
  const auto referent = referent_of(thing, context, findings);
  if (!referent) return std::nullopt;
  return at_point(looked_at(*referent, context));
}

std::optional<Target> target_of(const Place& place, const PlaceContext& context, Findings& findings) {
  if (place.word == Place::Word::thing && !place.things.empty()) {
    return target_of(place.things.front(), context, findings);
  }
  const Vec2 from = standing_at(context);
  const double height = context.camera.at.z;
  if (place.word == Place::Word::bearing) {
    const Vec2 way = direction_of(place.compass.value_or(Compass::north));
    return at_point(raised(from + way * far_point, height));
  }
  const bool to_side = place.side && (place.word == Place::Word::toward || place.word == Place::Word::frame);
  if (to_side) {
    const LensFloor lens = floor_of(camera_of(place.camera, context, findings));
    return at_point(raised(from + lens.right * (*place.side == Side::left ? -far_point : far_point), height));
  }
  if (place.word == Place::Word::deeper) {
    return at_point(raised(from + floor_of(context.camera).deeper * far_point, height));
  }
  Placing placing = placing_of(context, false);
  placing.is_person = false;
  const std::vector<Area> areas = areas_of(place, context, placing, findings);
  if (areas.empty() || areas.front().shape.empty()) return std::nullopt;
  const Area& area = areas.front();
  const Vec2 middle = area.middle.size() == 1 ? area.middle.front() : centroid_of(area.shape);
  return at_point(raised(middle, height));
}

std::optional<Facing> facing_of(const FacingClause& clause, const PlaceContext& context, Vec2 at, Findings& findings) {
  if (clause.off_lens) {
    const std::optional<Degrees> off = bearing_told(*clause.off_lens, findings);
    if (!off) return std::nullopt;
    const Degrees to_lens = towards(at, floor_of(context.camera.at), Degrees{180});
    const Side side = clause.toward_frame.value_or(inward_side(context.camera, at));
    return Facing{turned_to(to_lens, off->value, side), {}};
  }
  if (!clause.at) return std::nullopt;
  const Place& place = *clause.at;
  Degrees bearing;
  if (place.word == Place::Word::bearing) {
    bearing = bearing_of(direction_of(place.compass.value_or(Compass::north)));
  } else if (place.word == Place::Word::thing && !place.things.empty()) {
    const auto point = floor_point_of(place.things.front(), context, findings);
    if (!point) return std::nullopt;
    bearing = towards(at, *point, standing_bearing(context));
  } else {
    const auto target = target_of(place, context, findings);
    if (!target || target->kind != Target::Kind::point) return std::nullopt;
    bearing = towards(at, floor_of(target->point), standing_bearing(context));
  }
  return Facing{clause.away_from ? wrapped(bearing + Degrees{180}) : bearing, {}};
}

std::optional<Facing> facing_of(const BodyClause& clause, const PlaceContext& context, Vec2 at, Findings& findings) {
  const CameraState camera = camera_of(clause.camera, context, findings);
  const Degrees to_lens = towards(at, floor_of(camera.at), Degrees{180});
  Side side = clause.toward_frame.value_or(inward_side(camera, at));
  const bool sided = clause.view != BodyView::frontal && clause.view != BodyView::back;
  if (clause.toward && sided && !clause.toward_frame) {
    if (clause.toward->kind != Thing::Kind::lens) {
      const auto point = floor_point_of(*clause.toward, context, findings);
      if (!point) return std::nullopt;
      side = side_of(camera, at, *point);
    }
  }
  return Facing{turned_to(to_lens, degrees_off(clause.view), side), {}};
}

}  // namespace lensward
