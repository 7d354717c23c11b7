// Figures of declarations and places -> quantities within what their clause may hold, in the base unit of each kind.
#pragma once

#include <optional>
#include <string>

#include "base/units.h"
#include "findings/finding.h"
#include "syntax/script.h"

namespace lensward {

enum class Dimension {
  length,       // m
  time,         // s
  angle,        // deg
  speed,        // m/s
  turning,      // deg/s
  illuminance,  // lux
  intensity,    // cd
  flux,         // lm
  stops,        // stops
  colour,       // K
  share,        // 0..1
  rate,         // words a minute
  frame_rate,   // frames a second
  points,       // points
  mass,         // kg
  power,        // W
  people,       // a count of people
  count,        // a number without a unit
};

// What a clause measures and what it may hold, both ends included.
struct Limits {
  const char* what;  // "height of a person"
  Dimension dimension = Dimension::length;
  double least = 0, greatest = 0;
  const char* example;  // a clause that would do: "height 1.7 m"
};

// The figure in the base unit of its dimension. Nothing, and a `unit.` finding, when the unit is missing, of another
// dimension, or the value is outside the limits or not finite. `step` is the length of one step.
std::optional<double> measured(const Figure& figure, const Limits& limits, Findings& findings,
                               Metres step = Metres{0.7});

// An amount is an interval with the value it would like best: `about` is a fifth either way.
struct Measured {
  double least = 0, preferred = 0, greatest = 0;
};
std::optional<Measured> measured(const Amount& amount, const Limits& limits, Findings& findings,
                                 Metres step = Metres{0.7});

// The dimension of a unit word and the size of the unit in its base unit; nothing for a word that is no unit. Steps
// have no size of their own: 0.
struct UnitOf {
  Dimension dimension;
  double size;
};
std::optional<UnitOf> unit_of(const std::string& word);

// The figure as written, for messages: "1.7 m".
std::string text_of(const Figure& figure);
std::string text_of(const Amount& amount);

}  // namespace lensward
