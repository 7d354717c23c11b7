// Things and places.
#include <map>
#include <utility>

#include "syntax/read_parts.h"

namespace lensward {
namespace {

using Word = Place::Word;

Thing::Part read_part(std::string_view word) {
  static const std::map<std::string_view, Thing::Part> parts = {{"end", Thing::Part::end},
                                                                {"side", Thing::Part::side},
                                                                {"edge", Thing::Part::edge},
                                                                {"corner", Thing::Part::corner},
                                                                {"half", Thing::Part::half}};
  return parts.at(word);
}

// `the west end of the Table`, `the camera left edge of X`, `the middle of X`.
void read_portion(const NodeView& portion, Thing& thing) {
  thing.name = read_name(portion.the(NodeKind::path));
  const auto side = portion.child(NodeKind::part_side);
  if (!side) {
    thing.kind = Thing::Kind::middle;
    return;
  }
  thing.kind = Thing::Kind::portion;
  thing.part = read_part(portion.the(NodeKind::part).text());
  if (const auto compass = side->child(NodeKind::compass)) {
    thing.compass = read_compass(*compass);
  } else if (const auto camera_side = side->child(NodeKind::side)) {
    thing.part_side =
        read_side(*camera_side) == Side::left ? Thing::PartSide::camera_left : Thing::PartSide::camera_right;
    if (const auto camera = side->child(NodeKind::bare_name)) thing.camera = read_name(*camera);
  } else {
    thing.part_side = side->text() == "near" ? Thing::PartSide::near_lens : Thing::PartSide::far_from_lens;
  }
}

void read_own_place(const NodeView& own, Thing& thing) {
  thing.kind = Thing::Kind::own_side;
  thing.name = read_name(own.the(NodeKind::owner));
  static const std::map<std::string_view, OwnSide> sides = {
      {"left", OwnSide::left}, {"right", OwnSide::right}, {"front", OwnSide::front}, {"back", OwnSide::back}};
  thing.own_side = sides.at(own.the(NodeKind::own_side).text());
  if (const auto part = own.child(NodeKind::part)) thing.part = read_part(part->text());
}

// One alternative of `thing` or `whom`, lists of names apart.
Thing read_one(const NodeView& node) {
  Thing thing;
  thing.span = node.span();
  switch (node.kind()) {
    case NodeKind::lens_itself:
      thing.kind = Thing::Kind::lens;
      break;
    case NodeKind::portion:
      read_portion(node, thing);
      break;
    case NodeKind::room_part:
      thing.kind = node.text().ends_with("wall") ? Thing::Kind::wall : Thing::Kind::corner;
      thing.compass = read_compass(node.the(NodeKind::compass));
      break;
    case NodeKind::a_camera:
      thing.kind = Thing::Kind::camera;
      thing.name = read_name(node.the(NodeKind::bare_name));
      break;
    case NodeKind::everyone:
      thing.kind = Thing::Kind::everyone;
      if (const auto but = node.child(NodeKind::but_whom)) thing.but = read_names(*but);
      break;
    case NodeKind::nobody:
      thing.kind = Thing::Kind::nobody;
      break;
    case NodeKind::own_place:
      read_own_place(node, thing);
      break;
    default:
      thing.name = read_name(node);
  }
  return thing;
}

Word word_for(std::string_view place_word) {
  static const std::map<std::string_view, Word> words = {{"behind", Word::behind},
                                                         {"beside", Word::beside},
                                                         {"by", Word::by},
                                                         {"near", Word::near},
                                                         {"against", Word::against},
                                                         {"under", Word::under},
                                                         {"over", Word::over},
                                                         {"on", Word::on},
                                                         {"in", Word::in},
                                                         {"inside", Word::inside},
                                                         {"outside", Word::outside},
                                                         {"foreground", Word::foreground},
                                                         {"middle ground", Word::middle_ground},
                                                         {"deep", Word::deep},
                                                         {"background", Word::background},
                                                         {"centre", Word::centre},
                                                         {"center", Word::centre},
                                                         {"forward", Word::forward},
                                                         {"back", Word::back},
                                                         {"up", Word::up},
                                                         {"down", Word::down}};
  return words.at(place_word);
}

// All things named below the node, in order.
void add_things(const NodeView& node, Place& place) {
  for (const NodeView& child : node.children()) {
    if (child.kind() != NodeKind::thing && child.kind() != NodeKind::whom) continue;
    for (Thing& thing : read_things(child)) place.things.push_back(std::move(thing));
  }
}

void add_camera(const NodeView& node, Place& place) {
  if (const auto of = node.child(NodeKind::of_camera)) place.camera = read_name(*of->child(NodeKind::bare_name));
}

void read_frame(const NodeView& frame, Place& place) {
  place.word = Word::frame;
  add_camera(frame, place);
  const NodeView where = frame.the(NodeKind::frame_place);
  if (const auto side = where.child(NodeKind::side)) {
    place.side = read_side(*side);
    if (const auto part = where.child(NodeKind::frame_part)) {
      place.frame_part = part->text() == "edge"      ? Place::FramePart::edge
                         : part->text() == "quarter" ? Place::FramePart::quarter
                                                     : Place::FramePart::third;
    }
  } else if (const auto percent = where.child(NodeKind::percent)) {
    place.frame_part = Place::FramePart::percent;
    Figure figure = read_quantity(*percent);
    figure.unit = "%";
    place.percent = std::move(figure);
  } else {
    place.frame_part = where.text() == "high"  ? Place::FramePart::high
                       : where.text() == "low" ? Place::FramePart::low
                                               : Place::FramePart::centre;
  }
}

void read_camera_of(const NodeView& node, Place& place) {
  const std::string_view side = node.the(NodeKind::side_word).text();
  place.word = side == "left" ? Word::camera_left_of : side == "right" ? Word::camera_right_of : Word::camera_side_of;
  if (const auto camera = node.child(NodeKind::bare_name)) place.camera = read_name(*camera);
}

// north of X, north of X and Y
void read_compass_of(const NodeView& node, Place& place) {
  place.word = Word::compass_of;
  place.compass = read_compass(node.the(NodeKind::compass));
  for (Name& name : read_names(node)) {
    Thing thing;
    thing.span = name.span;
    thing.name = std::move(name);
    place.things.push_back(std::move(thing));
  }
}

void read_opposite(const NodeView& node, Place& place) {
  place.word = Word::opposite;
  const auto across = node.child(NodeKind::across);
  if (!across) return;
  Thing thing;
  thing.name = read_name(*across->child(NodeKind::path));
  thing.span = thing.name.span;
  place.things.push_back(std::move(thing));
}

void read_relation(const NodeView& node, Place& place) {
  add_things(node, place);
  switch (node.kind()) {
    case NodeKind::compass_of:
      return read_compass_of(node, place);
    case NodeKind::in_front_of:
      place.word = Word::in_front_of;
      break;
    case NodeKind::just_inside:
      place.word = Word::just_inside;
      break;
    case NodeKind::placed_by:
      place.word = word_for(node.the(NodeKind::place_word).text());
      break;
    case NodeKind::beyond:
      place.word = Word::beyond;
      add_camera(node, place);
      break;
    case NodeKind::camera_of:
      return read_camera_of(node, place);
    case NodeKind::stage_of:
      place.word = read_side(node.the(NodeKind::side)) == Side::left ? Word::stage_left_of : Word::stage_right_of;
      break;
    case NodeKind::up_down_of:
      place.word = node.text().starts_with("up") ? Word::upstage_of : Word::downstage_of;
      break;
    case NodeKind::between:
      place.word = Word::between;
      break;
    case NodeKind::opposite:
      return read_opposite(node, place);
    case NodeKind::to_side:
      place.word = Word::toward;
      place.side = read_side(node.the(NodeKind::side));
      break;
    case NodeKind::toward_whom:
      place.word = Word::toward;
      break;
    case NodeKind::away_from:
      place.word = Word::away_from;
      break;
    case NodeKind::off_own:
      place.word = Word::off;
      place.things = {read_one(node.the(NodeKind::own_place))};
      break;
    case NodeKind::frame_at:
      return read_frame(node, place);
    case NodeKind::depth:
      place.word = word_for(node.words());
      break;
    default:  // bearing
      place.word = node.text() == "deeper" ? Word::deeper : Word::bearing;
      if (const auto compass = node.child(NodeKind::compass)) place.compass = read_compass(*compass);
  }
}

void read_coordinates(const NodeView& node, Place& place) {
  place.word = Word::coordinates;
  const auto unit = node.child(NodeKind::unit);
  for (const NodeView& child : node.children()) {
    if (child.kind() == NodeKind::quantity) place.coordinates.push_back(read_quantity(child));
    if (child.kind() != NodeKind::number) continue;
    Figure figure = read_figure(child);
    if (unit) figure.unit = unit->text();
    place.coordinates.push_back(std::move(figure));
  }
}

}  // namespace

Thing read_thing(const NodeView& thing) { return read_one(thing.only()); }

std::vector<Thing> read_things(const NodeView& node) {
  const NodeView inner = node.only();
  if (inner.kind() != NodeKind::names) return {read_one(inner)};
  std::vector<Thing> things;
  for (const NodeView& name : inner.children()) things.push_back(read_one(name));
  return things;
}

Place read_place(const NodeView& node) {
  if (node.kind() == NodeKind::spot || node.kind() == NodeKind::relation) {
    Place place = read_place(node.only());
    place.span = node.span();
    return place;
  }
  Place place;
  place.span = node.span();
  switch (node.kind()) {
    case NodeKind::coordinates:
      read_coordinates(node, place);
      break;
    case NodeKind::measured: {
      const std::vector<NodeView> parts = node.children();
      place = read_place(parts[1]);
      place.measure = read_amount(parts[0]);
      place.span = node.span();
      break;
    }
    case NodeKind::from_thing:
      place.word = Word::from;
      add_things(node, place);
      break;
    case NodeKind::onward:
      place.word = word_for(node.text());
      break;
    case NodeKind::thing:
    case NodeKind::whom:
      place.things = read_things(node);
      break;
    case NodeKind::compass:
      place.word = Word::bearing;
      place.compass = read_compass(node);
      break;
    default:
      read_relation(node, place);
  }
  return place;
}

}  // namespace lensward
