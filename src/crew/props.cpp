#include <algorithm>
#include <utility>

#include "base/quantity_text.h"
#include "crew/trades.h"
#include "plan/called.h"
#include "plan/floor.h"
#include "plan/lane.h"

namespace lensward {
namespace {

// What a point above the floor lies on.
const Piece* piece_under(const Plan& plan, Vec3 point) {
  for (const Piece& piece : plan.stage.pieces)
    if (point.z > 0.02 && holds(outline_of(box_of(piece)), floor_of(point), 0.02)) return &piece;
  return nullptr;
}

std::string where_words(const Plan& plan, const Target& prop, const Target& rests, Moment moment) {
  switch (rests.kind) {
    case Target::Kind::nothing:
      return "not there";
    case Target::Kind::person: {
      const PersonState state = person_at(plan, PersonId{rests.index}, moment);
      const bool left = state.left_hand == prop, right = state.right_hand == prop;
      const std::string who = called(plan, rests);
      if (left && right) return who + ", both hands";
      if (left || right) return who + (left ? ", left hand" : ", right hand");
      return "on " + who;
    }
    case Target::Kind::point:
      if (const Piece* under = piece_under(plan, rests.point)) return "on " + under->name;
      return "on the floor at (" + number(rests.point.x, 2) + ", " + number(rests.point.y, 2) + ") m";
    default:
      return "on " + called(plan, rests);
  }
}

Target prop_target(std::size_t index) { return {Target::Kind::prop, static_cast<int>(index), {}}; }

Target resting(const Plan& plan, std::size_t prop, Moment moment) {
  return stepped(plan.props[prop].rests, moment, Target{});
}

// Every moment at which it may have changed hands or places.
std::vector<Moment> changes_of(const Plan& plan, std::size_t prop) {
  std::vector<Moment> moments;
  for (const Segment<Target>& segment : plan.props[prop].rests) moments.push_back(segment.end);
  for (const PersonTrack& track : plan.people)
    for (const Lane<Target>* lane : {&track.left_hand, &track.right_hand})
      for (const Segment<Target>& segment : *lane)
        if (segment.from == prop_target(prop) || segment.to == prop_target(prop)) moments.push_back(segment.end);
  std::ranges::sort(moments);
  moments.erase(std::ranges::unique(moments).begin(), moments.end());
  return moments;
}

CrewTable list_of(const Plan& plan) {
  const Tape tape(plan.stage);
  CrewTable table{"props",
                  "To have ready",
                  "What is in no hand is measured from two walls.",
                  {{"prop", "prop", 34},
                   {"size", "size", 40},
                   {"opens", "as the scene opens", 36},
                   {"closes", "at its end", 36},
                   tape.first("opens"),
                   tape.second("opens"),
                   tape.first("closes"),
                   tape.second("closes")},
                  {}};
  for (std::size_t i = 4; i < table.fields.size(); ++i)
    table.fields[i].heading = (i < 6 ? "opens " : "ends ") + table.fields[i].heading;
  for (std::size_t i = 0; i < plan.stage.props.size(); ++i) {
    const Prop& prop = plan.stage.props[i];
    const auto cm = [](Metres length) { return number(length.value * 100, 0); };
    table.rows.push_back({prop.name, cm(prop.length) + " by " + cm(prop.depth) + " by " + cm(prop.height) + " cm",
                          prop_place(plan, PropId{static_cast<int>(i)}, {}),
                          prop_place(plan, PropId{static_cast<int>(i)}, plan.duration())});
    for (const Moment moment : {Moment{}, plan.duration()}) {
      const Target rests = resting(plan, i, moment);
      const auto at = point_of(plan, prop_target(i), moment);
      const bool lies = rests.kind != Target::Kind::person && rests.kind != Target::Kind::nothing && at;
      table.rows.back().push_back(lies ? Entry{tape.from_first(floor_of(*at))} : Entry{});
      table.rows.back().push_back(lies ? Entry{tape.from_second(floor_of(*at))} : Entry{});
    }
  }
  return table;
}

CrewTable handling(const Plan& plan) {
  CrewTable table{
      "handling",
      "Hand to hand",
      "",
      {{"at_s", "at", 13}, {"prop", "prop", 34}, {"from", "from", 40}, {"to", "to", 40}, {"cue", "cue", 43}},
      {}};
  for (std::size_t i = 0; i < plan.stage.props.size(); ++i) {
    std::string was = prop_place(plan, PropId{static_cast<int>(i)}, {});
    for (const Moment moment : changes_of(plan, i)) {
      const std::string now = prop_place(plan, PropId{static_cast<int>(i)}, moment);
      if (now == was || moment <= Moment{}) continue;
      table.rows.push_back({OnTheClock{moment}, plan.stage.props[i].name, was, now, cue_words(plan, moment)});
      was = now;
    }
  }
  put_in_time(table);
  return table;
}

}  // namespace

std::string prop_place(const Plan& plan, PropId prop, Moment moment) {
  const auto index = static_cast<std::size_t>(prop.index);
  return where_words(plan, prop_target(index), resting(plan, index, moment), moment);
}

CrewSheet props_sheet(const Plan& plan) {
  CrewSheet sheet{CrewSheet::For::props, "Props", {}, {}, {}};
  add(list_of(plan), sheet);
  add(handling(plan), sheet);
  add_notes(plan, sheet);
  return sheet;
}

CrewSheet wardrobe_sheet(const Plan& plan) {
  CrewSheet sheet{CrewSheet::For::wardrobe, "Wardrobe", {}, {}, {}};
  CrewTable table{"tones",
                  "Tone of dress",
                  "As it stands to the light: what the frame was reckoned with.",
                  {{"number", "no.", 14}, {"person", "who", 60}, {"tone", "dressed", 60}},
                  {}};
  for (std::size_t i = 0; i < plan.stage.people.size(); ++i) {
    const PersonId id{static_cast<int>(i)};
    table.rows.push_back({ordinal(plan, id), called(plan, id), std::string(spelling(plan.stage.people[i].dress))});
  }
  add(std::move(table), sheet);
  add_notes(plan, sheet);
  return sheet;
}

}  // namespace lensward
