// The parts of declare(): one function for each kind of thing, called in this order.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "findings/finding.h"
#include "plan/measures.h"
#include "plan/names.h"
#include "plan/places.h"
#include "plan/plan.h"
#include "syntax/script.h"

namespace lensward {

// One declared thing and the line that declares it.
struct Declared {
  Named what;
  Name name;
  const Clauses* clauses = nullptr;
  Span line;
};

struct Declaring {
  const Script& script;
  Plan& plan;
  Names& names;
  Findings& findings;
  std::vector<Declared> declared = {};  // in the order of the text
  bool camera_told = false;             // by the script; else camera A is supplied
};

// A default, told once: kept for the pages and said as a remark.
// Settled by a line of its own.
void assume(Declaring& declaring, std::string what, std::string line, Span at);
// Settled by clauses of a thing that has a line already: a second one would declare it twice.
struct Pin {
  std::string kind, name;  // "camera", "A"
  std::string clauses;     // "lens 35 mm"
};
void assume(Declaring& declaring, std::string what, const Pin& pin, Span at);
Finding& report(Declaring& declaring, const char* rule, Span where, std::string message, std::string next_step);

// ---- Passes --------------------------------------------------------------------------------------------------------

void declare_facts(Declaring& declaring);
void declare_settings(Declaring& declaring);
// Gives every declared thing its name and its place in the stage's vectors, with nothing known of it yet.
void declare_names(Declaring& declaring);
void declare_people(Declaring& declaring);
void declare_room(Declaring& declaring);
void declare_openings(Declaring& declaring);
void declare_lenses(Declaring& declaring);
// Places, lenses and stops; cameras look at the middle of the room until aim_cameras.
void declare_cameras(Declaring& declaring);
void declare_pieces(Declaring& declaring);
void declare_spots(Declaring& declaring);
void aim_cameras(Declaring& declaring);
// A wall between a camera's first place and the middle of the room is taken out, unless a door or window is near where
// the lens looks through it.
void take_out_walls_before_cameras(Declaring& declaring);
void declare_lamps(Declaring& declaring);
void declare_props(Declaring& declaring);

// ---- Reading clauses -----------------------------------------------------------------------------------------------

// What the declaration says of a camera or lamp, and after it what the opening says of it with `is`: so it begins.
std::vector<std::pair<const Clauses*, Span>> sayings_of(const Declared& declared, DeedLine::Subject subject,
                                                        const Declaring& declaring);

// Every place a declaration says, in order; measures stand in their phrase again: `2.9 m from the west wall`.
std::vector<Place> places_in(const Clauses& clauses);
const Amount* measure_in(const Clauses& clauses, std::string_view word);
// The measure's preferred value; nothing when it is not told or was reported.
std::optional<double> measured_in(const Clauses& clauses, std::string_view word, const Limits& limits,
                                  Findings& findings);
const TraitClause* trait_in(const Clauses& clauses, std::string_view word);
std::optional<Tone> tone_in(const Clauses& clauses, std::string_view word);
const Quoted* label_in(const Clauses& clauses, LabelClause::Kind kind);

// Nobody stands anywhere yet: the context of declarations, looking through the first camera.
PlaceContext context_of(const Declaring& declaring);
CameraId first_camera(const Declaring& declaring);

// Middle of the room's floor as a point in space.
Vec3 middle_of_room(const Declaring& declaring, Metres height);

template <class Value>
Segment<Value> from_the_start(Value value, Origin origin, Span said_at) {
  return {Moment{}, Moment{}, value, value, origin, said_at};
}

}  // namespace lensward
