#include "pages/flow.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "pages/draw.h"
#include "pages/paper.h"

namespace lensward {
namespace {

// Height of a block with those it must not be parted from.
double height_together(const std::vector<Block>& blocks, std::size_t first) {
  double height = blocks[first].height;
  for (std::size_t i = first; blocks[i].with_next && i + 1 < blocks.size(); ++i)
    height += blocks[i + 1].before + blocks[i + 1].height;
  return height;
}

double total_height(const std::vector<Block>& blocks) {
  double height = 0;
  for (const Block& block : blocks) height += block.height + (&block == &blocks.front() ? 0 : block.before);
  return height;
}

constexpr double ascent = 0.8;

}  // namespace

Poured pour(const std::vector<Block>& blocks, std::size_t first, const Column& column, std::vector<Item>& items) {
  double y = 0;
  std::size_t next = first;
  for (; next < blocks.size(); ++next) {
    const Block& block = blocks[next];
    const double space = next == first ? 0 : block.before;
    const bool fits = y + space + std::min(height_together(blocks, next), column.height) <= column.height + 1e-6;
    const bool alone_fits = y + space + block.height <= column.height + 1e-6;
    // A chain higher than a whole column is broken where it must be.
    if (!fits && !(y == 0 && alone_fits) && !(next == first)) break;
    y += space;
    for (const Item& item : block.items) {
      Item placed = item;
      shift(placed, column.at + Vec2{0, y});
      items.push_back(std::move(placed));
    }
    y += block.height;
  }
  return {next, y};
}

double pour_units(const std::vector<Unit>& units, UnitCursor& cursor, const Column& column, double width,
                  bool may_break, std::vector<Item>& items) {
  constexpr double long_unit = 45, least_part = 15;
  double y = 0;
  while (!cursor.done(units)) {
    const bool going_on = !cursor.started.empty();
    std::vector<Block> blocks = going_on ? std::exchange(cursor.started, {}) : units[cursor.unit](width);
    if (!going_on) ++cursor.unit;
    if (blocks.empty()) continue;
    const double before = y > 0 ? blocks.front().before : 0;
    const double room = column.height - y - before;
    const double height = total_height(blocks);
    const bool breaks = may_break && (y == 0 || (height > long_unit && room > least_part));
    if (height > room && !breaks) {
      if (going_on)
        cursor.started = std::move(blocks);
      else
        --cursor.unit;
      break;
    }
    const Poured poured = pour(blocks, 0, {column.at + Vec2{0, y + before}, room}, items);
    y += before + poured.used;
    if (poured.next == blocks.size()) continue;
    blocks.erase(blocks.begin(), blocks.begin() + static_cast<std::ptrdiff_t>(poured.next));
    cursor.started = std::move(blocks);
    break;
  }
  return y;
}

std::vector<Block> paragraph(const std::string& text, double width, const Setting& setting) {
  std::vector<Block> blocks;
  for (const std::string& words_of_line : break_lines(text, setting.face, setting.size, width - setting.hang)) {
    Block block;
    block.height = leading(setting.size);
    block.before = blocks.empty() ? setting.before : 0;
    block.items.push_back(
        words({setting.hang, setting.size * ascent}, words_of_line, setting.face, setting.size, setting.ink));
    blocks.push_back(std::move(block));
  }
  return blocks;
}

Block heading(const std::string& text, double width) {
  Block block;
  block.height = 2.6 + leading(type_size::heading) + 0.8;
  block.before = 5;
  block.with_next = true;
  block.items.push_back(line({0, 0}, {width, 0}, pen(Ink::black, hairline)));
  block.items.push_back(words({0, 2.4 + type_size::heading * ascent}, text, Face::serif, type_size::heading));
  return block;
}

Block row(const std::vector<Cell>& cells, double before, double gap) {
  Block block;
  block.before = before;
  double x = 0;
  double tallest = 0;
  for (const Cell& cell : cells) tallest = std::max(tallest, cell.setting.size);
  for (const Cell& cell : cells) {
    double y = tallest * ascent;
    const auto lines = break_lines(cell.text, cell.setting.face, cell.setting.size, cell.width);
    for (const std::string& text : lines) {
      if (!text.empty())
        block.items.push_back(words({x, y}, text, cell.setting.face, cell.setting.size, cell.setting.ink));
      y += leading(cell.setting.size);
    }
    const double under = leading(cell.setting.size) - cell.setting.size * ascent;
    block.height = std::max(block.height, y - leading(cell.setting.size) + under);
    x += cell.width + gap;
  }
  return block;
}

void append(std::vector<Block>& to, std::vector<Block> more) {
  to.insert(to.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

void link_block(Block& block, const std::string& destination) {
  Group group;
  group.link_to = destination;
  group.items = std::move(block.items);
  block.items.clear();
  block.items.push_back({std::move(group)});
}

}  // namespace lensward
