// Measuring on the floor, from two walls.
#pragma once

#include <string>
#include <vector>

#include "crew/crew_sheet.h"

namespace lensward {

// Two walls that stand square enough to measure from: the longest of those that stay, then the longest that is 30
// degrees or more off it. Without such walls: the scene's own axes, east and north from its origin.
class Tape {
 public:
  explicit Tape(const Stage& stage);
  Field first(const std::string& key) const;
  Field second(const std::string& key) const;
  Metres from_first(Vec2 at) const;
  Metres from_second(Vec2 at) const;
  // The place so far from both; less than nothing is beyond a wall.
  Vec2 place(Metres from_first, Metres from_second) const;
  const std::string& first_name() const { return first_.name; }
  const std::string& second_name() const { return second_.name; }
  // What both are measured from, for the CSV file, where no heading tells.
  static std::vector<Field> names_of_walls();
  std::vector<Entry> walls() const;

 private:
  struct Edge {
    std::string name;
    Vec2 from, inward;  // a point of it, and the unit vector off it
  };
  Edge first_, second_;
};

}  // namespace lensward
