// Lines a director might type to move the eye, before anybody knows whether they help.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "emphasis/verdict.h"
#include "mend/rehearsal.h"

namespace lensward {

// In the order in which a director would rather change them.
enum class Department { floor, lens, light };
// "floor", "lens", "light".
const char* name_of(Department department);

// What a rule complains of is mended where it comes from.
Department department_of(std::string_view rule);

inline constexpr int ranks = 4;

struct Offer {
  std::string line;  // as it would be typed, without a cue
  Department department = Department::floor;
  int rank = 0;  // of the department, 0 to ranks - 1: 0 is tried first
  int cost = 0;  // the smaller, the less it disturbs; comparable within a department
  // Where the line goes when it stands for another or belongs below one; else it is put where the wish is.
  std::optional<TextEdit> edit;
  std::string about;  // whose line it is: a person, a camera or a lamp; two about the same do not go together
};

// What could be tried for a verdict that is not met: of people to turn, look, step, walk, rise; of the camera to
// focus, frame, pan and push in; of marks to lie up to 60 cm from where they are; of what begins about the
// moment to begin a little later or earlier; of lamps to aim, dim and brighten.
// The cheapest first within each department. Lines are made of the language's words and the scene's names alone. What a
// rule says of the light is mended with lamps first, what it says of focus and frame with the camera; all else on the
// floor. Requires a verdict with a beat of this rehearsal's plan.
std::vector<Offer> offers_for(const Rehearsal& rehearsal, const Verdict& verdict, std::string_view rule);

}  // namespace lensward
