// What each body and thing covers of the frame: alone, and in front of or behind the others.
#pragma once

#include <deque>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "lens/raster.h"
#include "lens/remembered.h"
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
// The columns of the raster between which all that is drawn in a row lies, half open.
struct RowDrawn {
  int first = 0, last = 0;
};
struct CellDrawn {
  std::uint32_t at = 0;  // in the frame: row × width + column
  Part part{};
};
struct Layer {
  SeenGroup group;                    // as drawn
  std::vector<OutlineBounds> bounds;  // of each solid's outline; left > right for what is behind the lens
  OutlineBounds all;                  // of all of them
  CellWindow window;                  // the cells drawn
  Raster raster;
  std::vector<RowDrawn> rows;                // of the raster
  std::vector<CellDrawn> cells;              // of people; row by row
  Portion body, head, face, head_and_chest;  // all but `visible`
};
using Layers = std::vector<const Layer*>;

// People come and go; the others keep their numbers, which begin here.
inline constexpr int backdrop_from = 1000;

// The frame at one moment.
struct MaskFrame {
  int width = 0, height = 0;
  Layers layers;                 // by group
  int people = 0;                // the first so many groups are people
  std::span<const float> front;  // what is nearest the lens in each cell; see front_at

  const Layer& layer(int group) const { return *layers[static_cast<std::size_t>(group)]; }

  // The group nearest the lens in a cell; -1: none.
  int front_at(int x, int y) const { return front_in(cell(x, y)); }
  int front_in(std::size_t cell) const {
    const int number = static_cast<int>(front[cell]);
    return number < backdrop_from ? number : number - backdrop_from + people;
  }
  std::size_t cell(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x);
  }
};

// Frames through one lens. What was drawn for one of them is kept for the others; no result depends on it. A frame is
// good until the next one is drawn. Requires groups of one GroupMaker.
class FrameDrawer {
 public:
  // Requires a lens with positive focal length and gate.
  explicit FrameDrawer(const Pinhole& lens);

  const Pinhole& lens() const { return lens_; }
  MaskFrame draw(const std::vector<SeenGroup>& groups);
  PersonMask person_mask(const MaskFrame& frame, int group);
  ThingMask thing_mask(const MaskFrame& frame, int group);
  // Adds the numbers of the groups that may be seen before, behind or beside one, as far away as a third of its size
  // and a cell.
  static void add_near(const MaskFrame& frame, int group, Numbers& numbers);

 private:
  // Everything but people, the nearest of it in each cell.
  struct Backdrop {
    Numbers groups;
    std::vector<float> depth;
    std::vector<float> front;
  };
  const Layer& layer_of(const SeenGroup& group);
  const Backdrop& backdrop_of(const Layers& layers);
  void show_backdrop(const Backdrop& backdrop);

  Pinhole lens_;
  int width_ = 0, height_ = 0;
  std::map<std::int64_t, std::unique_ptr<const Layer>> layers_;  // by the group's number
  std::deque<std::int64_t> oldest_first_;
  std::deque<Backdrop> backdrops_;
  // The frame last drawn: its backdrop, and where people lie over it.
  Numbers backdrop_;
  std::vector<CellWindow> covered_;
  std::vector<float> depth_, front_;
  static constexpr std::size_t masks_at_most = 128;
  Remembered<PersonMask> people_{masks_at_most};
  Remembered<ThingMask> things_{masks_at_most};
};

// Which solid a cell of the frame shows.
struct CellSeen {
  int group = -1;
  std::int32_t solid = -1;  // of the group
  Metres depth;
};
std::optional<CellSeen> cell_at(const MaskFrame& frame, PicturePoint at);

}  // namespace lensward
