// The floor as the page moves it: the room and its lamps once, the ways of each beat, and symbols of people for every
// posture they take; and the overhead of each beat as the book has it. All as the insides of <svg> elements, in mm.
#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "live/show.h"
#include "pages/lay_out.h"

namespace lensward {

struct FloorDrawing {
  Vec2 size;          // mm
  double scale = 1;   // mm a metre
  Vec2 low, high;     // the part of the floor shown, m: x mm = (x - low.x) * scale, y mm = (high.y - y) * scale
  double figure = 1;  // mm from the middle of a person that names keep clear of

  std::string definitions;  // letters and clips that all of these share
  std::string room, lamps;
  std::vector<std::string> ways;  // by beat
  // By person and posture: the body facing north, round (0, 0), and the same favoured. The head is everybody's.
  std::map<std::pair<int, Posture>, std::pair<std::string, std::string>> bodies;
  std::string head;

  struct BeatFloor {
    std::string drawing, description;
    Vec2 size;
    std::vector<std::string> key;  // names that had no room beside their people
  };
  std::vector<BeatFloor> beats;
};

FloorDrawing floor_drawing(const Results& results, const Show& show);

}  // namespace lensward
