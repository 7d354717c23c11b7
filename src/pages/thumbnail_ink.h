// The pixels of a frame sorted into what is drawn as one: areas of one colour, and areas of one tone.
#pragma once

#include <vector>

#include "lens/picture.h"
#include "pages/thumbnail_trace.h"

namespace lensward {

// An area of one owner and material: a coat, a table's top, a wall.
struct InkLabel {
  Target owner;  // nothing: walls, floor, ceiling
  Material material = Material::wall;
  bool nothing_there = false;
};

struct InkMap {
  LabelMap map;
  std::vector<InkLabel> labels;  // by label
};
InkMap ink_map(const ScenePicture& picture);

// Tone of every pixel: 0 lit, 1 in half shade, 2 in shade, for one owner at a time; label = 3·owner + tone, where owner
// 0 is the set and 1 + PersonId a person. Hair and shoes, drawn dark, take no tone.
inline constexpr int tone_count = 3;
LabelMap tone_map(const ScenePicture& picture, const InkMap& ink);

// True where one part of somebody stands out before another of the same colour: an arm before the chest.
bool stands_out(const ScenePicture& picture, int x, int y, int other_x, int other_y);

}  // namespace lensward
