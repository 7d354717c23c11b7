// The plan while it is being built, and what every deed needs of it.
#pragma once

#include <algorithm>
#include <deque>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "findings/finding.h"
#include "plan/names.h"
#include "plan/places.h"
#include "plan/plan.h"
#include "source/source_file.h"
#include "syntax/script.h"

namespace lensward {

enum class Hands { left, right, both, any };

// Business whose end is not known yet: it goes on until the same hands do something else.
struct OpenBusiness {
  PersonId person;
  std::size_t index = 0;  // into the track's hands
  bool runs_on = false;
  Hands hands = Hands::both;
};

// What last took a lane of somebody, for `time.lane-clash`.
struct Occupant {
  Moment begin, end;
  bool gives_way = false;  // a deed without an end, or one that runs on: ended by the next
  Span said_at;
  std::string deed;
};

enum class LaneKind { feet, body, eyes, left_hand, right_hand, voice, place, aim, lens, focus, level };

struct Building {
  const SourceSet& sources;
  Plan& plan;
  const Names& names;
  Findings& findings;

  const Plan* before = nullptr;  // the scene that the opening follows
  Subject subject = {};          // of the beat that is being built
  Moment beat_top = {};
  bool time_passes = false;  // a `later` line stands in the beat, so people may be placed anew
  std::vector<OpenBusiness> open_business = {};
  std::map<std::pair<int, LaneKind>, Occupant> occupied = {};  // by person, or camera and lamp counted after them
  std::map<std::pair<bool, int>, Occupant> claimed = {};       // by lamp or prop: the deed that has it in hand
  std::map<const Statement*, const MarkLine*> numbers = {};    // the measure that belongs to a placing line
  std::map<const Statement*, std::vector<const Statement*>> joined =
      {};  // `also frames` lines, by the framing they join
  std::set<const Statement*> joined_lines = {};
  std::vector<int> marks_of = {};                     // how many marks each person has, by PersonId
  std::vector<std::vector<PersonId>> addresses = {};  // whom each person speaks to in this beat, in order
  std::set<const Statement*> done_at_opening = {};    // first placings, which took effect before the first beat
  std::deque<Place> made_places = {};                 // places put together from clauses; stays put
  std::map<std::string, int> told_once = {};          // assumptions already told, by their words
};

Finding& report(Building& building, std::string rule, Severity severity, Span where, std::string message,
                std::string next_step = {});

// Told once for the same words, as an Assumption and as a remark. What holds from the start is settled in the opening,
// though it comes up in a beat.
enum class Settled { where_it_is, in_the_opening };
void assume(Building& building, std::string what, std::string pin, Span where, const char* rule = "taken-for-granted",
            Settled settled = Settled::where_it_is);

// People of a name: one person, or a group's. Reports names that are not known or not of people.
std::vector<PersonId> people_of(Building& building, const Name& name);
std::vector<PersonId> people_of(Building& building, const Who& who, Moment moment);

const std::string& name_of(const Building& building, PersonId person);
std::vector<PersonState> states_at(const Building& building, Moment moment);

// The way things stand for a place phrase about `subject` that binds at `moment`. `states` must outlive it.
PlaceContext place_context(const Building& building, const std::vector<PersonState>& states, PersonId subject,
                           Moment moment);

// Puts a segment where it belongs by its begin; of two that begin together the later put one counts.
template <class Value>
void put(Lane<Value>& lane, Segment<Value> segment) {
  const auto at = std::upper_bound(lane.begin(), lane.end(), segment.begin,
                                   [](Moment moment, const Segment<Value>& other) { return moment < other.begin; });
  lane.insert(at, std::move(segment));
}

// Marks the lane as taken and reports `time.lane-clash` when another deed holds it.
void occupy(Building& building, int who, LaneKind lane, Occupant occupant);
int camera_lanes(const Building& building, CameraId camera);
int lamp_lanes(const Building& building, LampId lamp);

// Ends the person's business without an end of its own that these hands do; any: one hand, whichever is free.
void end_business(Building& building, PersonId person, Moment moment, Hands hands = Hands::both);

// A figure of a `default` line, else the usual one.
double figure_told(const Building& building, const std::string& key, double usual);

// The written text of a line, without comments, blanks single.
std::string text_of_line(const Building& building, Span span);

}  // namespace lensward
