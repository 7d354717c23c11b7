// Where the words beside drawn things go, so that none covers another or a thing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/vec.h"
#include "pages/sheet.h"

namespace lensward {

// A rectangle of paper, mm.
struct LabelArea {
  Vec2 low, high;

  bool overlaps(const LabelArea& other) const {
    return low.x < other.high.x && other.low.x < high.x && low.y < other.high.y && other.low.y < high.y;
  }
  bool holds(const LabelArea& other) const {
    return low.x <= other.low.x && low.y <= other.low.y && other.high.x <= high.x && other.high.y <= high.y;
  }
  LabelArea grown(double by) const { return {low - Vec2{by, by}, high + Vec2{by, by}}; }
};

struct PaperLine {
  Vec2 from, to;
};

struct LabelWish {
  std::vector<std::string> lines;
  std::vector<std::string> short_lines;    // used when there is no room for `lines`; empty: there is no shorter form
  Vec2 about;                              // the middle of the thing named
  double clear = 0;                        // its radius
  std::size_t own_begin = 0, own_end = 0;  // which of the taken areas are its own; its leader begins at their edge
  bool inside = false;                     // may stand on the thing itself
  Face face = Face::sans;
  double size = 2.8;
  Ink ink = Ink::black;
};

struct PlacedLabel {
  LabelArea area;  // of the words, with 0.3 mm round them
  std::vector<std::string> lines;
  std::vector<LabelArea> line_areas;  // of each line, set to the side where the thing is; lines may differ in length
  bool is_short = false;
  bool free = true;  // false: nowhere was free, and it stands on its thing
  std::optional<PaperLine> leader;
};

// What labels must leave free, and what they only should.
struct LabelGround {
  LabelArea sheet;
  std::vector<LabelArea> taken;
  std::vector<PaperLine> drawn;
};

// The parts of paper that closed shapes among the items cover, in slices 2.5 mm high; those of groups in the items too.
std::vector<LabelArea> areas_of(const std::vector<Item>& items);

// In the order of the wishes, which is the order of importance. One placed label for each wish.
std::vector<PlacedLabel> place_labels(const LabelGround& ground, const std::vector<LabelWish>& wishes);

// The label as drawn: its words on a patch of paper, and its leader.
Group drawn_label(const PlacedLabel& label, const LabelWish& wish);

}  // namespace lensward
