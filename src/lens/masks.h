// What each body and thing covers of the frame: alone, and in front of or behind the others.
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "lens/raster.h"
#include "lens/seen_groups.h"
#include "lens/view.h"

namespace lensward {

// Areas of one outline, in cells of the frame. `whole` counts what lies out of frame too.
struct Portion {
  double whole = 0, in_frame = 0, visible = 0;
};

struct PersonMask {
  Portion body, head, face, head_and_chest;
  Box body_box, head_box;
  std::vector<Target> masked_by;
};

struct ThingMask {
  Portion amount;
  Box visible_box;
};

// One group drawn alone over the cells of the frame it reaches.
struct Layer {
  std::vector<Solid> solids;          // as drawn
  std::vector<Part> parts;            // of each solid
  std::vector<OutlineBounds> bounds;  // of each solid's outline; left > right for what is behind the lens
  OutlineBounds all;                  // of all of them
  Window window;                      // the cells drawn
  Raster raster;
  Portion body, head, face, head_and_chest;  // all but `visible`
};

// A thing that was asked for, with all that may stand before it.
struct ThingDrawn {
  std::vector<Solid> own, before;
  ThingMask mask;
};

// The frame at one moment. A frame made with another's help is the same as one made without.
struct MaskFrame {
  Pinhole lens;
  int width = 0, height = 0;
  std::vector<std::shared_ptr<const Layer>> layers;       // by group
  std::vector<std::int16_t> front;                        // the group nearest the lens in each cell; -1: none
  std::vector<std::shared_ptr<const ThingDrawn>> things;  // through this lens, of this frame or the one that helped

  const Layer& layer(int group) const { return *layers[static_cast<std::size_t>(group)]; }

  int front_at(int x, int y) const { return front[cell(x, y)]; }
  std::size_t cell(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x);
  }
};

// Requires a lens with positive focal length and gate.
std::shared_ptr<MaskFrame> draw_frame(const std::vector<SeenGroup>& groups, const Pinhole& lens,
                                      const std::shared_ptr<const MaskFrame>& other);

PersonMask person_mask(const MaskFrame& frame, const std::vector<SeenGroup>& groups, int group);
// Kept in the frame.
ThingMask thing_mask(MaskFrame& frame, const std::vector<SeenGroup>& groups, int group);

// Which solid a cell of the frame shows.
struct CellSeen {
  int group = -1;
  std::int32_t solid = -1;  // of the group
  Metres depth;
};
std::optional<CellSeen> cell_at(const MaskFrame& frame, PicturePoint at);

// Index of the group of an owner; -1: it has no solids.
int group_of(const std::vector<SeenGroup>& groups, const Target& owner);

}  // namespace lensward
