// The sheets, one file a trade, and the words they share.
#pragma once

#include <string>
#include <vector>

#include "crew/crew_sheet.h"

namespace lensward {

CrewSheet actor_sheet(const Plan& plan, PersonId person);
CrewSheet marks_sheet(const Plan& plan);
CrewSheet camera_sheet(const Plan& plan);
CrewSheet grip_sheet(const Plan& plan);
CrewSheet light_sheet(const Plan& plan);
CrewSheet sound_sheet(const Plan& plan);
CrewSheet props_sheet(const Plan& plan);
CrewSheet wardrobe_sheet(const Plan& plan);
CrewSheet script_sheet(const Plan& plan);
CrewSheet assistant_sheet(const Plan& plan);

// What is heard or seen then: `on “Every” (Maud)`, `0.8 s after “by one” (Bertil)`, `as Ring begins`.
// `player` hears no cue in the line that they themselves begin then.
std::string cue_words(const Plan& plan, Moment moment, PersonId player = {});
// The name of the beat that holds the moment.
std::string beat_name(const Plan& plan, Moment moment);
// The line without the clauses that say when: the cue stands beside it.
std::string deed_words(const Plan& plan, const BeatLine& line);
// Where somebody is: their mark's name when they are within a foot of it, else "on the way".
std::string mark_at(const Plan& plan, PersonId person, Moment moment);
// Whom or what somebody looks at, or "down", "up", "ahead", "away"; empty when nobody told.
std::string look_words(const Plan& plan, PersonId person, Moment moment);
// What is in a hand; empty when nothing is.
std::string hand_words(const Plan& plan, const Target& hand);
// "Iris, right hand", "on Table", "not there".
std::string prop_place(const Plan& plan, PropId prop, Moment moment);
// Members of a crowd are named after it, with a number.
bool in_background(const Person& person);

// Two walls that stand square enough to measure from: the longest of those that stay, then the longest that is 30
// degrees or more off it. Without such walls: the scene's own axes, east and north from its origin.
class Tape {
 public:
  explicit Tape(const Stage& stage);
  Field first(const std::string& key) const;
  Field second(const std::string& key) const;
  Metres from_first(Vec2 at) const;
  Metres from_second(Vec2 at) const;

 private:
  struct Edge {
    std::string name;
    Vec2 from, inward;  // a point of it, and the unit vector off it
  };
  Edge first_, second_;
};

// Adds the table when it has rows.
void add(CrewTable table, CrewSheet& sheet);
// The `note for` lines of a department, as a table.
void add_notes(const Plan& plan, const std::vector<std::string>& departments, CrewSheet& sheet);

// What can hurt somebody in this scene, each with whom it concerns; see cautions.cpp.
std::vector<std::string> cautions_for(const Plan& plan, CrewSheet::For whom);

}  // namespace lensward
