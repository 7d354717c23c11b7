// Text that runs down columns and over to the next page.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "pages/sheet.h"

namespace lensward {

// A piece that is not broken: usually one line of type. Items are placed from its top left corner.
struct Block {
  std::vector<Item> items;
  double height = 0;
  double before = 0;       // space above, left out at the top of a column
  bool with_next = false;  // never the last in a column
};

struct Column {
  Vec2 at;
  double height = 0;
};

// Puts blocks into a column from `first` on; returns the first that found no room, and how far down the column is used.
struct Poured {
  std::size_t next = 0;
  double used = 0;
};
Poured pour(const std::vector<Block>& blocks, std::size_t first, const Column& column, std::vector<Item>& items);

// Something said that should stand together: set anew for the width of the column it lands in.
using Unit = std::function<std::vector<Block>(double width)>;
struct UnitCursor {
  std::size_t unit = 0;
  std::vector<Block> started;  // what is left of a unit too long for its column

  bool done(const std::vector<Unit>& units) const { return unit >= units.size() && started.empty(); }
};
// Puts units into a column and moves the cursor on; how far down the column is used. With `may_break` a unit is broken
// when it is longer than 45 mm or stands at the top of the column, and what is left of it keeps its width.
double pour_units(const std::vector<Unit>& units, UnitCursor& cursor, const Column& column, double width,
                  bool may_break, std::vector<Item>& items);

// Words as blocks, one a line. `hang` indents all lines.
struct Setting {
  Face face = Face::sans;
  double size = 3.35;
  Ink ink = Ink::black;
  double before = 0;
  double hang = 0;
};
std::vector<Block> paragraph(const std::string& text, double width, const Setting& setting);

// A heading with a hairline over it, kept with what follows.
Block heading(const std::string& text, double width);

// Cells side by side, the row as high as the highest.
struct Cell {
  std::string text;
  double width = 0;
  Setting setting;
};
Block row(const std::vector<Cell>& cells, double before, double gap = 3);

void append(std::vector<Block>& to, std::vector<Block> more);
// All of a block's items as one group that links to a destination.
void link_block(Block& block, const std::string& destination);

}  // namespace lensward
