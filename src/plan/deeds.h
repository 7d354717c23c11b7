// Verbs: what each deed does to the lanes of people, cameras and lamps, and how long it takes (docs/language.md,
// "Verbs").
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/building.h"
#include "plan/lane.h"

namespace lensward {

// What the clock has to know of a deed before it is performed.
struct DeedFacts {
  bool equipment = false;  // of a camera or lamp
  bool endless = false;    // no end of its own
  bool instant = false;    // takes no time
  std::string_view verb;   // in the third person, as the tables have it
  enum class Doer { people, camera, lamp, thing } doer = Doer::people;
};
// Nothing for a verb that is not known; that is reported as `name.unknown-verb` with the nearest.
std::optional<DeedFacts> facts_of(Building& building, const DeedLine& line);

// Performs the line at `begin`, and gives how long it takes: the longest of its people, or what is told. `opening`
// places people at once, however far it is. Requires facts_of(line).
Milliseconds perform(Building& building, const Statement& statement, Moment begin, bool opening);

// Someone who acts without having been placed or entered is there from now on: told as a default.
void appear(Building& building, PersonId person, Moment moment, Span said_at);

// Stands somebody without a place in the middle of the room, as number `index` of `count`, and tells it.
void place_in_middle(Building& building, PersonId person, Moment moment, int index, int count);

// ---- Within the deeds ----------------------------------------------------------------------------------------------

// One subject of one line, performing.
struct Performance {
  Building& building;
  const Statement& statement;
  const DeedLine& line;
  Moment begin;
  std::optional<Milliseconds> told;  // for, over
  double pace = 1;                   // a length not told is multiplied by it
  bool hurrying = false;
  bool runs_on = false;
  bool opening = false;
  PersonId person = {};  // of people
  CameraId camera = {};  // of cameras
  LampId lamp = {};      // of lamps
  int index = 0, count = 1;
  // Of several in one line: the middle of where they stand, which settles the side of a thing for all of them.
  std::optional<Vec2> together = {};
  Target thing = {};  // of doors, furniture and props

  PersonTrack& track() const { return building.plan.people[static_cast<std::size_t>(person.index)]; }
  CameraTrack& camera_track() const { return building.plan.cameras[static_cast<std::size_t>(camera.index)]; }
  LampTrack& lamp_track() const { return building.plan.lamps[static_cast<std::size_t>(lamp.index)]; }
  PersonState state(Moment moment) const { return person_at(building.plan, person, moment); }
  const std::string& name() const { return name_of(building, person); }
  // What is told, else `usual` by the pace.
  Milliseconds length(Seconds usual) const;
};

struct Verb {
  std::string_view word;  // third person, with its particle
  enum class Time { takes, instant, endless } time;
  double number;  // the speed, m/s, or the usual length, s
  Milliseconds (*perform)(const Performance&, const Verb&);
};
// The verbs of people, cameras and lamps.
const std::vector<Verb>& people_verbs();
const std::vector<Verb>& camera_verbs();
const std::vector<Verb>& lamp_verbs();
const std::vector<Verb>& thing_verbs();

// Doors, windows, and furniture with doors or lids; nothing happens to anything else.
void set_open(const Performance& performance, const Target& what, bool open, Moment begin, Milliseconds length);
// Cloths and curtains: lifted, drawn, let down.
void move_hangings(const Performance& performance, const Target& what, std::string_view verb, Milliseconds length);

// What `until` and `while` end of cameras: rides, kept sizes, what is kept in the picture, what focus stays with.
void end_of_cameras(Building& building, Span said_at, Moment begin, Moment end);

// Deeds of people, by what they move.
Milliseconds deed_is(const Performance&, const Verb&);
Milliseconds deed_is_away(const Performance&, const Verb&);
Milliseconds deed_stands(const Performance&, const Verb&);
Milliseconds deed_settles_down(const Performance&, const Verb&);
Milliseconds deed_rises(const Performance&, const Verb&);
Milliseconds deed_walks(const Performance&, const Verb&);
Milliseconds deed_follows(const Performance&, const Verb&);
Milliseconds deed_keeps(const Performance&, const Verb&);
Milliseconds deed_enters(const Performance&, const Verb&);
Milliseconds deed_exits(const Performance&, const Verb&);
Milliseconds deed_turns(const Performance&, const Verb&);
Milliseconds deed_turns_away(const Performance&, const Verb&);
Milliseconds deed_faces(const Performance&, const Verb&);
Milliseconds deed_cheats(const Performance&, const Verb&);
Milliseconds deed_looks(const Performance&, const Verb&);
Milliseconds deed_glances(const Performance&, const Verb&);
Milliseconds deed_watches(const Performance&, const Verb&);
Milliseconds deed_takes(const Performance&, const Verb&);
Milliseconds deed_puts(const Performance&, const Verb&);
Milliseconds deed_gives(const Performance&, const Verb&);
Milliseconds deed_carries(const Performance&, const Verb&);
Milliseconds deed_with_hands(const Performance&, const Verb&);
Milliseconds deed_touches(const Performance&, const Verb&);
Milliseconds deed_opens(const Performance&, const Verb&);
Milliseconds deed_pulls(const Performance&, const Verb&);
Milliseconds deed_wears(const Performance&, const Verb&);
Milliseconds deed_aims(const Performance&, const Verb&);
Milliseconds deed_does(const Performance&, const Verb&);
Milliseconds deed_holds(const Performance&, const Verb&);
Milliseconds deed_stops(const Performance&, const Verb&);

// Everything a line says of where to. `shift` also reads `two steps toward lens` as a place.
PlaceWords place_words(Building& building, const Clauses& clauses, Span span);
// People, places and things named in the clauses' places are people who may be moving.
bool names_people(const Building& building, const Clauses& clauses);
// The camera a place names, else the one on air, as it is at the moment.
PlaceContext context_for(const Building& building, const std::vector<PersonState>& states, PersonId subject,
                         Moment moment, const std::vector<const Place*>& places);
// What a place aims at: `on Oda` and `toward Oda` are Oda herself, not a spot by her.
std::optional<Target> aimed_at(const Place& place, const PlaceContext& context, Findings& findings);
// What `at X`, `X` or `to X` of the line aims at; reports what it cannot be.
std::optional<Target> target_told(const Performance& performance);

// The bearing a clause of the line asks for, standing at `at`; nothing when none is told.
std::optional<Facing> facing_told(const Performance& performance, Vec2 at, Moment moment);
// Whom this person speaks to in this beat, else who speaks to them.
std::optional<PersonId> addressed_by(const Building& building, PersonId person);
std::optional<Degrees> bearing_to(const Building& building, Vec2 from, const Target& target, Moment moment);

// Toward whom they speak to, or who speaks to them, when that one has a place; else toward the lens.
Facing default_facing(const Building& building, PersonId person, Vec2 at, Moment moment);

// Lane writers. All begin at `begin` from how things stand then.
void set_facing(const Performance& performance, Facing to, Moment begin, Moment end, Origin origin);
void set_gaze(const Performance& performance, Gaze to, Moment begin, Origin origin);
void set_stance(const Performance& performance, Stance to, Moment begin, Moment end);
void set_place(const Performance& performance, Walk walk, Moment begin, Moment end, Origin origin);
void set_present(const Performance& performance, bool present, Moment moment);
void take_lane(const Performance& performance, LaneKind lane, Moment end, bool gives_way);
// How long a turn takes: 120 degrees a second, 0.4 s at least.
Milliseconds turn_length(const Performance& performance, Degrees from, const Facing& to, Vec2 at);

// A place found, with where the numbers beside the words put it. `coming_from` is nothing on a first placing.
std::optional<SettledPlace> settle_told(const Performance& performance, Moment moment, std::optional<Vec2> coming_from,
                                        Findings& findings);
void add_mark(const Performance& performance, const SettledPlace& place, Moment reached);

}  // namespace lensward
