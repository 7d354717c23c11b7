// What each department takes away: tables of facts reckoned from the plan. The same tables become a page and CSV files,
// so nothing is said twice.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "base/units.h"
#include "plan/plan.h"

namespace lensward {

// A moment of the scene, as against a length of time.
struct OnTheClock {
  Moment moment;
};
struct Count {
  int of = 0;
};
struct Ratio {
  double to_one = 1;
};
// At least so long: nothing was in the way that far. Data hold nothing.
struct Over {
  Metres length;
};
// One fact of a row. A page prints it with its unit; a CSV file holds the bare number, its unit standing in the field's
// key.
using Entry = std::variant<std::monostate, std::string, OnTheClock, Milliseconds, Metres, Millimetres, MetresPerSecond,
                           Degrees, Lux, Stops, Count, Ratio, Over>;

// A column. The key is the CSV file's and never changes: lower case, with the unit last: "distance_m".
struct Field {
  std::string key, heading;
  double width = 20;  // mm on the page; 0: in the CSV file only
};

struct CrewTable {
  std::string key;  // of its CSV file: "pulls"
  std::string title;
  std::string how;  // how it is measured, in a sentence; may be empty
  std::vector<Field> fields;
  std::vector<std::vector<Entry>> rows;  // each as long as the fields
};

struct CrewSheet {
  enum class For { actors, marks, camera, grip, light, sound, props, wardrobe, script, assistant };
  For whom = For::actors;
  std::string title;              // "Camera and focus"; of an actor the name
  PersonId person;                // of actors
  std::vector<CrewTable> tables;  // none is empty
  std::vector<std::string> cautions;
};

// "camera": the word that chooses a sheet, and of its files' names.
const char* spelling(CrewSheet::For whom);

// Every sheet of the scene, in the order of `For`; one for each person of the cast. Departments with nothing to do are
// left out; of a scene without beats there is only the set.
std::vector<CrewSheet> crew_sheets(const Plan& plan);

// How lengths are printed on pages.
enum class Lengths { metres, feet, both };
// "3.25 m", "10 ft 8 in", "3.25 m (10 ft 8 in)".
std::string page_text(const Entry& entry, Lengths lengths);
// Three decimals of metres, seconds and ratios, one of degrees, lux and stops.
std::string data_text(const Entry& entry);

}  // namespace lensward
