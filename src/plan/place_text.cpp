#include <string>

#include "plan/measures.h"
#include "plan/referent.h"

namespace lensward {
namespace {

using Word = Place::Word;

const char* spelling(OwnSide side) {
  switch (side) {
    case OwnSide::left:
      return "left";
    case OwnSide::right:
      return "right";
    case OwnSide::front:
      return "front";
    case OwnSide::back:
      return "back";
  }
  return "front";
}

const char* spelling(Thing::Part part) {
  switch (part) {
    case Thing::Part::none:
      return "";
    case Thing::Part::end:
      return "end";
    case Thing::Part::side:
      return "side";
    case Thing::Part::edge:
      return "edge";
    case Thing::Part::corner:
      return "corner";
    case Thing::Part::half:
      return "half";
  }
  return "";
}

std::string part_side(const Thing& thing) {
  switch (thing.part_side) {
    case Thing::PartSide::compass:
      return spelling(thing.compass);
    case Thing::PartSide::near_lens:
      return "near";
    case Thing::PartSide::far_from_lens:
      return "far";
    case Thing::PartSide::camera_left:
      return "camera left";
    case Thing::PartSide::camera_right:
      return "camera right";
  }
  return "";
}

std::string own_place(const Thing& thing) {
  const std::string part = spelling(thing.part);
  return thing.name.text + "'s " + spelling(thing.own_side) + (part.empty() ? "" : ' ' + part);
}

std::string all_but(const Thing& thing) {
  std::string words = "everyone";
  for (std::size_t i = 0; i < thing.but.size(); ++i) words += (i == 0 ? " but " : " and ") + thing.but[i].text;
  return words;
}

std::string things_of(const Place& place, const char* between) {
  std::string words;
  for (std::size_t i = 0; i < place.things.size(); ++i) {
    if (i > 0) words += between;
    words += text_of(place.things[i]);
  }
  return words;
}

std::string camera_side(const Place& place, const char* side) {
  const std::string camera = place.camera ? "camera " + place.camera->text : "camera";
  return camera + ' ' + side + " of " + things_of(place, " and ");
}

std::string framed(const Place& place) {
  std::string side = place.side ? std::string("frame ") + spelling(*place.side) : "frame";
  switch (place.frame_part) {
    case Place::FramePart::area:
      return side;
    case Place::FramePart::edge:
      return side + " edge";
    case Place::FramePart::quarter:
      return side + " quarter";
    case Place::FramePart::third:
      return side + " third";
    case Place::FramePart::centre:
      return "frame centre";
    case Place::FramePart::high:
      return "frame high";
    case Place::FramePart::low:
      return "frame low";
    case Place::FramePart::percent:
      return "frame " + (place.percent ? text_of(*place.percent) : "");
  }
  return side;
}

std::string coordinates_of(const Place& place) {
  if (place.coordinates.size() < 2) return "()";
  const Figure& x = place.coordinates[0];
  const Figure& y = place.coordinates[1];
  if (x.unit != y.unit) return '(' + text_of(x) + ", " + text_of(y) + ')';
  const Figure bare_x{x.number, "", x.span};
  const Figure bare_y{y.number, "", y.span};
  return '(' + text_of(bare_x) + ", " + text_of(bare_y) + ") " + x.unit;
}

// Words that stand before the thing they are about.
const char* before_thing(Word word) {
  switch (word) {
    case Word::behind:
      return "behind ";
    case Word::beside:
      return "beside ";
    case Word::by:
      return "by ";
    case Word::near:
      return "near ";
    case Word::against:
      return "against ";
    case Word::under:
      return "under ";
    case Word::over:
      return "over ";
    case Word::on:
      return "on ";
    case Word::in:
      return "in ";
    case Word::inside:
      return "inside ";
    case Word::outside:
      return "outside ";
    case Word::in_front_of:
      return "in front of ";
    case Word::just_inside:
      return "just inside ";
    case Word::beyond:
      return "beyond ";
    case Word::stage_left_of:
      return "stage left of ";
    case Word::stage_right_of:
      return "stage right of ";
    case Word::upstage_of:
      return "upstage of ";
    case Word::downstage_of:
      return "downstage of ";
    case Word::between:
      return "between ";
    case Word::away_from:
      return "away from ";
    case Word::off:
      return "off ";
    case Word::from:
      return "from ";
    default:
      return "";
  }
}

std::string relation_of(const Place& place) {
  switch (place.word) {
    case Word::coordinates:
      return coordinates_of(place);
    case Word::compass_of:
      return std::string(spelling(place.compass.value_or(Compass::south))) + " of " + things_of(place, " and ");
    case Word::camera_left_of:
      return camera_side(place, "left");
    case Word::camera_right_of:
      return camera_side(place, "right");
    case Word::camera_side_of:
      return camera_side(place, "side");
    case Word::opposite:
      return "opposite " + things_of(place, " across ");
    case Word::toward:
      return place.side ? std::string("toward frame ") + spelling(*place.side) : "toward " + things_of(place, " and ");
    case Word::frame:
      return framed(place);
    case Word::foreground:
      return "foreground";
    case Word::middle_ground:
      return "middle ground";
    case Word::deep:
      return "deep";
    case Word::background:
      return "background";
    case Word::centre:
      return "centre";
    case Word::bearing:
      return spelling(place.compass.value_or(Compass::north));
    case Word::deeper:
      return "deeper";
    case Word::forward:
      return "forward";
    case Word::back:
      return "back";
    case Word::up:
      return "up";
    case Word::down:
      return "down";
    default:
      return before_thing(place.word) + things_of(place, " and ");
  }
}

}  // namespace

std::string text_of(const Thing& thing) {
  switch (thing.kind) {
    case Thing::Kind::named:
      return thing.name.text;
    case Thing::Kind::lens:
      return "lens";
    case Thing::Kind::camera:
      return "camera " + thing.name.text;
    case Thing::Kind::portion:
      return "the " + part_side(thing) + ' ' + spelling(thing.part) + " of " + thing.name.text;
    case Thing::Kind::middle:
      return "the middle of " + thing.name.text;
    case Thing::Kind::wall:
      return std::string("the ") + spelling(thing.compass) + " wall";
    case Thing::Kind::corner:
      return std::string("the ") + spelling(thing.compass) + " corner";
    case Thing::Kind::own_side:
      return own_place(thing);
    case Thing::Kind::everyone:
      return all_but(thing);
    case Thing::Kind::nobody:
      return "nobody";
  }
  return thing.name.text;
}

std::string text_of(const Place& place) {
  std::string relation = relation_of(place);
  return place.measure ? text_of(*place.measure) + ' ' + relation : relation;
}

}  // namespace lensward
