// The sheets, one file a trade, and the words they share.
#pragma once

#include <string>
#include <vector>

#include "crew/crew_sheet.h"
#include "crew/tape.h"

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

// What is heard or seen then: `on “paper you had” (Bertil)`, `0.8 s after “lose it by” (Bertil), as Ring begins`,
// `2 s into Ring` when nobody has spoken for a while, `as the scene begins`. Up to three words, to the one that counts;
// of a line that begins then its first three: `as Bertil says “Twenty years I …”`.
// `player` hears no cue in the line that they themselves begin then.
std::string cue_words(const Plan& plan, Moment moment, PersonId player = {});
// The name of the beat that holds the moment.
std::string beat_name(const Plan& plan, Moment moment);
// The line as written, on one line, people called as the pages call them; what is between quotation marks stays.
std::string deed_words(const Plan& plan, const BeatLine& line);
// Whether it is for somebody to do or say, or is done to them. Requires a person of the plan.
bool concerns(const Plan& plan, const BeatLine& line, PersonId person);
// Where somebody is: their mark's name when they are within a foot of it, else "on the way", or "away".
std::string mark_at(const Plan& plan, PersonId person, Moment moment);
// Whom or what somebody looks at, or "down", "up", "ahead", "away"; "(Bertil)" when nobody told and it was assumed.
std::string look_words(const Plan& plan, PersonId person, Moment moment);
// What is in a hand; empty when nothing is.
std::string hand_words(const Plan& plan, const Target& hand);
// "Iris, right hand", "on Table", "not there".
std::string prop_place(const Plan& plan, PropId prop, Moment moment);
// Members of a crowd are named after it, with a number.
bool in_background(const Person& person);

// The moves of the cameras' places, with cue, way, length, time and greatest speed.
CrewTable camera_moves(const Plan& plan);

// " Taken out for the camera: South." or nothing.
std::string walls_out(const Plan& plan);

// Named marks in the order people come to them.
std::vector<const Mark*> marks_in_order(const Plan& plan);

struct LensMove {
  Moment begin, end;
};
// When the lens goes 2 cm or more, by an order, with somebody it tracks, or riding; jumps of a set-up are none.
std::vector<LensMove> lens_moves(const Plan& plan, CameraId camera);
// Later set-ups: when the camera stands elsewhere at once.
std::vector<Moment> set_up_anew(const Plan& plan, CameraId camera);

// By time, which stands in the first column.
void put_in_time(CrewTable& table);
// Adds the table when it has rows.
void add(CrewTable table, CrewSheet& sheet);
// The `note for` lines of a sheet's departments, as a table; the assistant director gets those that no sheet claims.
void add_notes(const Plan& plan, CrewSheet& sheet);

// What can hurt somebody in this scene, each with whom it concerns; see cautions.cpp.
std::vector<std::string> cautions_for(const Plan& plan, CrewSheet::For whom);

}  // namespace lensward
