// Where people come from when nobody has said so.
#include "base/angle.h"
#include "base/quantity_text.h"
#include "plan/deeds.h"

namespace lensward {
namespace {

const Opening* first_door(const Stage& stage) {
  for (const Opening& opening : stage.openings) {
    if (opening.kind == Opening::Kind::door) return &opening;
  }
  return nullptr;
}

void stand(Building& building, PersonId person, Moment moment, Vec2 at) {
  PersonTrack& track = building.plan.people[static_cast<std::size_t>(person.index)];
  put(track.feet, {moment, moment, Walk{}, Walk{{at}}, Origin::assumed, Span{}});
  const Facing facing = default_facing(building, person, at, moment);
  put(track.body, {moment, moment, facing, facing, Origin::assumed, Span{}});
}

}  // namespace

void place_in_middle(Building& building, PersonId person, Moment moment, int index, int count) {
  Place centre;
  centre.word = Place::Word::centre;
  PlaceWords words;
  words.places = {&centre};
  const std::vector<PersonState> states = states_at(building, moment);
  PlaceContext context = place_context(building, states, person, moment);
  context.coming_from = std::nullopt;
  const auto settled = settle(words, context, index, count, building.findings);
  const Vec2 at = settled ? settled->at : Vec2{};
  stand(building, person, moment, at);
  const std::string& name = name_of(building, person);
  assume(building,
         "no place told for `" + name + "`, so the middle of the room, (" + number(at.x, 2) + ", " + number(at.y, 2) +
             ") m",
         name + " is at (" + number(at.x, 2) + ", " + number(at.y, 2) + ") m",
         building.plan.stage.people[static_cast<std::size_t>(person.index)].declared, "taken-for-granted",
         Settled::in_the_opening);
}

void appear(Building& building, PersonId person, Moment moment, Span said_at) {
  PersonTrack& track = building.plan.people[static_cast<std::size_t>(person.index)];
  const bool placed = !track.feet.empty();
  if (placed && person_at(building.plan, person, moment).present) return;
  put(track.present, {moment, moment, false, true, Origin::assumed, said_at});
  if (placed) return;
  const Opening* door = first_door(building.plan.stage);
  if (door == nullptr) return place_in_middle(building, person, moment, 0, 1);
  stand(building, person, moment, door->middle + door->into_room * 0.6);
  const std::string& name = name_of(building, person);
  assume(building, "nobody says how `" + name + "` comes in, so they stand inside `" + door->name + "`",
         name + " enters by the " + door->name, said_at);
}

}  // namespace lensward
