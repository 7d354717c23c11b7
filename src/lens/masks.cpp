#include "lens/masks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <experimental/simd>
#include <limits>
#include <span>

namespace lensward {
namespace {

namespace simd = std::experimental;
using Lanes = simd::native_simd<float>;
using Lane = simd::simd<float, simd::simd_abi::scalar>;

constexpr int frame_width = 160;
// A body that reaches further out of the frame than this many frames is not followed there.
constexpr double far_out = 8;
// Out of frame only areas count, so large strips are drawn with larger cells.
constexpr double cells_of_strip = 400;
constexpr double cells_of_thing = 600;
// Of more than so many the oldest is forgotten.
constexpr std::size_t layers_at_most = 256, backdrops_at_most = 16;

bool is_head(Part part) { return part == Part::face || part == Part::hair; }
bool is_face(Part part) { return part == Part::face; }
bool is_head_or_chest(Part part) { return is_head(part) || part == Part::neck || part == Part::chest; }

// The frame as cells.
struct FrameShape {
  Pinhole lens;
  int width = 0, height = 0;
};

// Cells by the part that shows in them.
struct Tally {
  std::array<double, part_count> cells{};

  void add(Part part, double cells_worth) { cells[static_cast<std::size_t>(part)] += cells_worth; }
  double of(bool (*counts)(Part)) const {
    double sum = 0;
    for (std::size_t part = 0; part < cells.size(); ++part) sum += counts(static_cast<Part>(part)) ? cells[part] : 0;
    return sum;
  }
};
bool is_any(Part) { return true; }

void add_whole(Layer& layer, const Tally& tally) {
  layer.body.whole += tally.of(is_any);
  layer.head.whole += tally.of(is_head);
  layer.face.whole += tally.of(is_face);
  layer.head_and_chest.whole += tally.of(is_head_or_chest);
}

bool known(const OutlineBounds& bounds) { return bounds.left <= bounds.right && bounds.top <= bounds.bottom; }

OutlineBounds joined(const OutlineBounds& a, const OutlineBounds& b) {
  if (!known(a)) return b;
  if (!known(b)) return a;
  return {std::min(a.left, b.left), std::min(a.top, b.top), std::max(a.right, b.right), std::max(a.bottom, b.bottom)};
}

OutlineBounds clipped(const OutlineBounds& a, const OutlineBounds& to) {
  return {std::max(a.left, to.left), std::max(a.top, to.top), std::min(a.right, to.right),
          std::min(a.bottom, to.bottom)};
}

bool meet(const OutlineBounds& a, const OutlineBounds& b) {
  return known(a) && known(b) && a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

OutlineBounds bounds_over(const Layer& layer, bool (*of)(Part)) {
  OutlineBounds all;
  for (std::size_t i = 0; i < layer.group.solids.size(); ++i) {
    if (of(layer.group.solids[i].part)) all = joined(all, layer.bounds[i]);
  }
  return all;
}

// The cells whose middles may lie in the bounds, of a picture cut into width × height.
CellWindow window_over(const OutlineBounds& bounds, int width, int height) {
  if (!known(bounds)) return {};
  const int left = static_cast<int>(std::floor(bounds.left * width));
  const int top = static_cast<int>(std::floor(bounds.top * height));
  const int right = static_cast<int>(std::ceil(bounds.right * width));
  const int bottom = static_cast<int>(std::ceil(bounds.bottom * height));
  return {left, top, std::max(right - left, 0), std::max(bottom - top, 0)};
}

// ---- Out of frame --------------------------------------------------------------------------------------------------

std::vector<Solid> reaching_into(const Layer& layer, const OutlineBounds& strip) {
  std::vector<Solid> solids;
  for (std::size_t i = 0; i < layer.group.solids.size(); ++i) {
    if (meet(layer.bounds[i], strip)) solids.push_back(layer.group.solids[i]);
  }
  return solids;
}

void add_strip(Layer& layer, const FrameShape& frame, const OutlineBounds& strip) {
  if (!known(strip) || strip.left == strip.right || strip.top == strip.bottom) return;
  const std::vector<Solid> solids = reaching_into(layer, strip);
  const double cells = (strip.right - strip.left) * frame.width * (strip.bottom - strip.top) * frame.height;
  const double coarser = std::max(1.0, std::sqrt(cells / cells_of_strip));
  const int width = std::max(1, static_cast<int>(frame.width / coarser));
  const int height = std::max(1, static_cast<int>(frame.height / coarser));
  const CellWindow window = window_over(strip, width, height);
  const Raster raster = rasterise(solids, frame.lens, width, height, window);
  Tally tally;
  const double worth = static_cast<double>(frame.width) * frame.height / (static_cast<double>(width) * height);
  for (int y = 0; y < raster.height; ++y) {
    for (int x = 0; x < raster.width; ++x) {
      const std::int32_t solid = raster.solid_at(x, y);
      const int column = x + window.left, row = y + window.top;
      const bool in_frame = column >= 0 && column < width && row >= 0 && row < height;
      if (solid < 0 || in_frame) continue;
      tally.add(solids[static_cast<std::size_t>(solid)].part, worth);
    }
  }
  add_whole(layer, tally);
}

// What of the bounds lies out of the frame, as four strips that do not overlap.
void add_out_of_frame(Layer& layer, const FrameShape& frame) {
  const OutlineBounds all = clipped(layer.all, {-far_out, -far_out, 1 + far_out, 1 + far_out});
  if (!known(all)) return;
  add_strip(layer, frame, clipped(all, {-far_out, -far_out, 1 + far_out, 0}));
  add_strip(layer, frame, clipped(all, {-far_out, 1, 1 + far_out, 1 + far_out}));
  add_strip(layer, frame, clipped(all, {-far_out, 0, 0, 1}));
  add_strip(layer, frame, clipped(all, {1, 0, 1 + far_out, 1}));
}

// ---- In frame ------------------------------------------------------------------------------------------------------

RowDrawn row_drawn(const Raster& raster, int y) {
  const auto begin = raster.solid.begin() + static_cast<std::ptrdiff_t>(y) * raster.width, end = begin + raster.width;
  const auto drawn = [](std::int32_t solid) { return solid >= 0; };
  const auto first = std::find_if(begin, end, drawn);
  const auto last = std::find_if(std::make_reverse_iterator(end), std::make_reverse_iterator(first), drawn).base();
  return {static_cast<int>(first - begin), static_cast<int>(last - begin)};
}

void find_cells(Layer& layer, const FrameShape& frame) {
  std::vector<Part> parts;
  for (const Solid& solid : layer.group.solids) parts.push_back(solid.part);
  std::size_t most = 0;
  for (const RowDrawn& row : layer.rows) most += static_cast<std::size_t>(row.last - row.first);
  layer.cells.reserve(most);
  for (int y = 0; y < layer.raster.height; ++y) {
    const RowDrawn row = layer.rows[static_cast<std::size_t>(y)];
    const auto start = static_cast<std::uint32_t>((y + layer.window.top) * frame.width + layer.window.left);
    const std::int32_t* solids =
        &layer.raster.solid[static_cast<std::size_t>(y) * static_cast<std::size_t>(layer.raster.width)];
    for (int x = row.first; x < row.last; ++x) {
      if (solids[x] < 0) continue;
      layer.cells.push_back({start + static_cast<std::uint32_t>(x), parts[static_cast<std::size_t>(solids[x])]});
    }
  }
}

void count_in_frame(Layer& layer) {
  Tally tally;
  for (const CellDrawn& cell : layer.cells) tally.add(cell.part, 1);
  layer.body.in_frame = tally.of(is_any);
  layer.head.in_frame = tally.of(is_head);
  layer.face.in_frame = tally.of(is_face);
  layer.head_and_chest.in_frame = tally.of(is_head_or_chest);
  add_whole(layer, tally);
}

Layer draw_layer(const SeenGroup& group, const FrameShape& frame) {
  Layer layer;
  layer.group = group;
  layer.bounds = bounds_of(group.solids, frame.lens);
  for (const OutlineBounds& bounds : layer.bounds) layer.all = joined(layer.all, bounds);
  layer.window = window_over(clipped(layer.all, {0, 0, 1, 1}), frame.width, frame.height);
  layer.raster = rasterise(group.solids, frame.lens, frame.width, frame.height, layer.window);
  layer.rows.reserve(static_cast<std::size_t>(layer.raster.height));
  for (int y = 0; y < layer.raster.height; ++y) layer.rows.push_back(row_drawn(layer.raster, y));
  if (group.owner.kind != Target::Kind::person) return layer;
  find_cells(layer, frame);
  count_in_frame(layer);
  add_out_of_frame(layer, frame);
  return layer;
}

// Cells of the whole frame: how far the nearest is, and which it is.
struct Cells {
  int width;
  std::vector<float>& depth;
  std::vector<float>& front;
};

// Where two are equally far the earlier one shows.
template <class Some>
void lay_over(const float* own, float number, float* depth, float* front) {
  const Some ours(own, simd::element_aligned);
  Some nearest(depth, simd::element_aligned), shown(front, simd::element_aligned);
  const auto nearer = ours < nearest || (ours == nearest && Some(number) < shown);
  simd::where(nearer, nearest) = ours;
  simd::where(nearer, shown) = Some(number);
  nearest.copy_to(depth, simd::element_aligned);
  shown.copy_to(front, simd::element_aligned);
}

void lay_over(const Layer& layer, float number, Cells cells) {
  const auto width = static_cast<std::size_t>(layer.window.width);
  for (int y = 0; y < layer.window.height; ++y) {
    const RowDrawn row = layer.rows[static_cast<std::size_t>(y)];
    const float* own = &layer.raster.depth[static_cast<std::size_t>(y) * width];
    const std::size_t first = static_cast<std::size_t>(y + layer.window.top) * static_cast<std::size_t>(cells.width) +
                              static_cast<std::size_t>(layer.window.left);
    float* depth = &cells.depth[first];
    float* front = &cells.front[first];
    const auto end = static_cast<std::size_t>(row.last);
    auto x = static_cast<std::size_t>(row.first);
    for (; x + Lanes::size() <= end; x += Lanes::size()) lay_over<Lanes>(own + x, number, depth + x, front + x);
    for (; x < end; ++x) lay_over<Lane>(own + x, number, depth + x, front + x);
  }
}

// ---- Masks ---------------------------------------------------------------------------------------------------------

Box box_of(const OutlineBounds& bounds) {
  if (!known(bounds)) return {};
  const OutlineBounds kept = clipped(bounds, {-far_out, -far_out, 1 + far_out, 1 + far_out});
  return known(kept) ? Box{kept.left, kept.top, kept.right, kept.bottom} : Box{};
}

struct Masking {
  Target owner;
  int of_head_and_chest = 0, of_body = 0;
};

// Whoever hides the face and chest comes first: a counter before the legs is no news.
std::vector<Target> in_order(const std::vector<Masking>& all) {
  std::vector<Masking> maskers;
  for (const Masking& masking : all) {
    if (masking.of_body > 0) maskers.push_back(masking);
  }
  std::stable_sort(maskers.begin(), maskers.end(), [](const Masking& a, const Masking& b) {
    return a.of_head_and_chest != b.of_head_and_chest ? a.of_head_and_chest > b.of_head_and_chest
                                                      : a.of_body > b.of_body;
  });
  std::vector<Target> owners;
  for (const Masking& masking : maskers) {
    if (std::find(owners.begin(), owners.end(), masking.owner) == owners.end()) owners.push_back(masking.owner);
  }
  return owners;
}

bool may_mask(const Target& owner) { return owner.kind == Target::Kind::person || owner.kind == Target::Kind::piece; }

Box drawn_box(const CellWindow& window, int width, int height, const std::vector<bool>& shown) {
  Box box{1e9, 1e9, -1e9, -1e9};
  std::size_t cell = 0;
  for (int y = 0; y < window.height; ++y) {
    for (int x = 0; x < window.width; ++x, ++cell) {
      if (!shown[cell]) continue;
      box.left = std::min(box.left, static_cast<double>(x + window.left) / width);
      box.right = std::max(box.right, static_cast<double>(x + window.left + 1) / width);
      box.top = std::min(box.top, static_cast<double>(y + window.top) / height);
      box.bottom = std::max(box.bottom, static_cast<double>(y + window.top + 1) / height);
    }
  }
  return box.left > box.right ? Box{} : box;
}

// Of the layers before the thing those solids that may hide some of it.
std::vector<Solid> solids_near(const Layers& others, const Layer& own) {
  std::vector<Solid> solids;
  for (const Layer* layer : others) {
    for (std::size_t i = 0; i < layer->group.solids.size(); ++i) {
      if (meet(layer->bounds[i], own.all)) solids.push_back(layer->group.solids[i]);
    }
  }
  return solids;
}

// The layers that are not see-through and meet another one, as `meets` has it.
template <class Meets>
Layers others_before(const MaskFrame& frame, int group, const Meets& meets) {
  Layers others;
  for (const Layer* layer : frame.layers) {
    if (layer != frame.layers[static_cast<std::size_t>(group)] && !layer->group.lets_through && meets(*layer))
      others.push_back(layer);
  }
  return others;
}

bool overlap(const CellWindow& a, const CellWindow& b) {
  return a.left < b.left + b.width && b.left < a.left + a.width && a.top < b.top + b.height && b.top < a.top + a.height;
}

// A letter is smaller than a cell of the frame, so a thing has cells of its own.
ThingMask draw_thing(const FrameShape& frame, const Layer& layer, const std::vector<Solid>& others) {
  const OutlineBounds all = clipped(layer.all, {-1, -1, 2, 2});
  ThingMask mask;
  if (!known(all) || all.left == all.right || all.top == all.bottom) return mask;
  const double cells = (all.right - all.left) * frame.width * (all.bottom - all.top) * frame.height;
  const double finer = std::clamp(std::sqrt(cells_of_thing / cells), 1.0 / 16, 256.0);
  const int width = std::max(1, static_cast<int>(std::lround(frame.width * finer)));
  const int height = std::max(1, static_cast<int>(std::lround(frame.height * finer)));
  const CellWindow window = window_over(all, width, height);
  const Raster own = rasterise(layer.group.solids, frame.lens, width, height, window);
  const Raster before = rasterise(others, frame.lens, width, height, window);
  std::vector<bool> shown(own.solid.size(), false);
  for (std::size_t cell = 0; cell < own.solid.size(); ++cell) {
    if (own.solid[cell] < 0) continue;
    const int column = window.left + static_cast<int>(cell % static_cast<std::size_t>(window.width));
    const int row = window.top + static_cast<int>(cell / static_cast<std::size_t>(window.width));
    ++mask.amount.whole;
    if (column < 0 || row < 0 || column >= width || row >= height) continue;
    ++mask.amount.in_frame;
    if (before.solid[cell] >= 0 && before.depth[cell] < own.depth[cell]) continue;
    ++mask.amount.visible;
    shown[cell] = true;
  }
  mask.visible_box = drawn_box(window, width, height, shown);
  return mask;
}

PersonMask mask_person(const MaskFrame& frame, int group) {
  const Layer& layer = frame.layer(group);
  PersonMask mask{layer.body, layer.head, layer.face, layer.head_and_chest, box_of(layer.all), {}, {}};
  mask.head_box = box_of(bounds_over(layer, is_head));
  std::vector<Masking> masking(frame.layers.size());
  for (std::size_t i = 0; i < masking.size(); ++i) masking[i].owner = frame.layers[i]->group.owner;
  Tally visible;
  for (const CellDrawn& cell : layer.cells) {
    const int front = frame.front_in(cell.at);
    if (front == group) {
      visible.add(cell.part, 1);
    } else if (front >= 0 && may_mask(masking[static_cast<std::size_t>(front)].owner)) {
      ++masking[static_cast<std::size_t>(front)].of_body;
      if (is_head_or_chest(cell.part)) ++masking[static_cast<std::size_t>(front)].of_head_and_chest;
    }
  }
  mask.body.visible = visible.of(is_any);
  mask.head.visible = visible.of(is_head);
  mask.face.visible = visible.of(is_face);
  mask.head_and_chest.visible = visible.of(is_head_or_chest);
  mask.masked_by = in_order(masking);
  return mask;
}

// What a mask is made from: its own layer and those that may stand before it.
Numbers made_from(const Layer& own, const Layers& others) {
  Numbers groups{own.group.number};
  for (const Layer* other : others) groups.push_back(other->group.number);
  return groups;
}

}  // namespace

FrameDrawer::FrameDrawer(const Pinhole& lens) : lens_(lens), width_(frame_width) {
  const double tall = frame_width * (lens.gate_height / lens.gate_width);
  height_ = static_cast<int>(std::lround(std::clamp(tall, 1.0, 4.0 * frame_width)));
}

const Layer& FrameDrawer::layer_of(const SeenGroup& group) {
  std::unique_ptr<const Layer>& kept = layers_[group.number];
  if (!kept) {
    kept = std::make_unique<const Layer>(draw_layer(group, {lens_, width_, height_}));
    oldest_first_.push_back(group.number);
  }
  return *kept;
}

const FrameDrawer::Backdrop& FrameDrawer::backdrop_of(const Layers& layers) {
  Numbers numbers;
  for (const Layer* layer : layers) numbers.push_back(layer->group.number);
  const auto known =
      std::find_if(backdrops_.rbegin(), backdrops_.rend(), [&](const Backdrop& one) { return one.groups == numbers; });
  if (known != backdrops_.rend()) return *known;
  if (backdrops_.size() == backdrops_at_most) backdrops_.pop_front();
  const std::size_t cells = static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_);
  Backdrop backdrop{std::move(numbers), std::vector<float>(cells, std::numeric_limits<float>::infinity()),
                    std::vector<float>(cells, -1.0F)};
  for (std::size_t i = 0; i < layers.size(); ++i) {
    if (layers[i]->group.lets_through) continue;
    lay_over(*layers[i], static_cast<float>(backdrop_from + static_cast<int>(i)),
             {width_, backdrop.depth, backdrop.front});
  }
  return backdrops_.emplace_back(std::move(backdrop));
}

MaskFrame FrameDrawer::draw(const std::vector<SeenGroup>& groups) {
  for (; oldest_first_.size() > layers_at_most; oldest_first_.pop_front()) layers_.erase(oldest_first_.front());
  MaskFrame frame{width_, height_, {}, 0, {}};
  frame.layers.reserve(groups.size());
  for (const SeenGroup& group : groups) frame.layers.push_back(&layer_of(group));
  const auto person = [](const SeenGroup& group) { return group.owner.kind == Target::Kind::person; };
  const auto people = std::find_if_not(groups.begin(), groups.end(), person) - groups.begin();
  frame.people = static_cast<int>(people);
  show_backdrop(backdrop_of({frame.layers.begin() + people, frame.layers.end()}));
  for (int i = 0; i < frame.people; ++i) {
    lay_over(frame.layer(i), static_cast<float>(i), {width_, depth_, front_});
    covered_.push_back(frame.layer(i).window);
  }
  frame.front = front_;
  return frame;
}

// Where nobody lay over it the same backdrop is there still.
void FrameDrawer::show_backdrop(const Backdrop& backdrop) {
  if (backdrop_ != backdrop.groups || depth_.empty()) covered_ = {CellWindow{0, 0, width_, height_}};
  backdrop_ = backdrop.groups;
  depth_.resize(backdrop.depth.size());
  front_.resize(backdrop.front.size());
  for (const CellWindow& window : covered_) {
    for (int y = 0; y < window.height; ++y) {
      const auto from = static_cast<std::ptrdiff_t>(y + window.top) * width_ + window.left;
      std::copy_n(backdrop.depth.begin() + from, window.width, depth_.begin() + from);
      std::copy_n(backdrop.front.begin() + from, window.width, front_.begin() + from);
    }
  }
  covered_.clear();
}

void FrameDrawer::add_near(const MaskFrame& frame, int group, Numbers& numbers) {
  const OutlineBounds& own = frame.layer(group).all;
  // What shows at a point is what shows at its cell's middle, up to half a cell farther out.
  const double across = (own.right - own.left) / 3 + 1.0 / frame.width;
  const double down = (own.bottom - own.top) / 3 + 1.0 / frame.height;
  const OutlineBounds wide{own.left - across, own.top - down, own.right + across, own.bottom + down};
  for (const Layer* other : others_before(frame, group, [&](const Layer& layer) { return meet(layer.all, wide); }))
    numbers.push_back(other->group.number);
}

PersonMask FrameDrawer::person_mask(const MaskFrame& frame, int group) {
  const Layer& own = frame.layer(group);
  const Layers others =
      others_before(frame, group, [&](const Layer& other) { return overlap(other.window, own.window); });
  return people_.of(made_from(own, others), [&] { return mask_person(frame, group); });
}

ThingMask FrameDrawer::thing_mask(const MaskFrame& frame, int group) {
  const Layer& own = frame.layer(group);
  const Layers others = others_before(frame, group, [&](const Layer& other) { return meet(other.all, own.all); });
  const auto make = [&] { return draw_thing({lens_, width_, height_}, own, solids_near(others, own)); };
  return things_.of(made_from(own, others), make);
}

std::optional<CellSeen> cell_at(const MaskFrame& frame, PicturePoint at) {
  if (!(at.u >= 0 && at.u < 1 && at.v >= 0 && at.v < 1)) return std::nullopt;
  const int x = std::min(static_cast<int>(at.u * frame.width), frame.width - 1);
  const int y = std::min(static_cast<int>(at.v * frame.height), frame.height - 1);
  const int group = frame.front_at(x, y);
  if (group < 0) return CellSeen{};
  const Layer& layer = frame.layer(group);
  const int column = x - layer.window.left, row = y - layer.window.top;
  const auto cell =
      static_cast<std::size_t>(row) * static_cast<std::size_t>(layer.raster.width) + static_cast<std::size_t>(column);
  return CellSeen{group, layer.raster.solid[cell], Metres{layer.raster.depth[cell]}};
}

}  // namespace lensward
