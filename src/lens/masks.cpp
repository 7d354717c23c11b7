#include "lens/masks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <span>

namespace lensward {
namespace {

constexpr int frame_width = 160;
// A body that reaches further out of the frame than this many frames is not followed there.
constexpr double far_out = 8;
// Out of frame only areas count, so large strips are drawn with larger cells.
constexpr double cells_of_strip = 400;
constexpr double cells_of_thing = 600;

bool same(const Solid& a, const Solid& b) {
  return a.shape == b.shape && a.part == b.part && a.material == b.material && a.a == b.a && a.b == b.b &&
         a.ra == b.ra && a.rb == b.rb && a.flat == b.flat && a.flat_axis == b.flat_axis && a.radii == b.radii &&
         a.x_axis == b.x_axis && a.y_axis == b.y_axis && a.z_axis == b.z_axis;
}

bool same(const std::vector<Solid>& a, std::span<const Solid> b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const Solid& one, const Solid& other) { return same(one, other); });
}

bool same(const Pinhole& a, const Pinhole& b) {
  return a.at == b.at && a.pan == b.pan && a.tilt == b.tilt && a.roll == b.roll && a.focal == b.focal &&
         a.gate_width == b.gate_width && a.gate_height == b.gate_height;
}

bool is_head(Part part) { return part == Part::face || part == Part::hair; }
bool is_face(Part part) { return part == Part::face; }
bool is_head_or_chest(Part part) { return is_head(part) || part == Part::neck || part == Part::chest; }

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
  for (std::size_t i = 0; i < layer.solids.size(); ++i) {
    if (of(layer.solids[i].part)) all = joined(all, layer.bounds[i]);
  }
  return all;
}

// The cells whose middles may lie in the bounds, of a picture cut into width × height.
Window window_over(const OutlineBounds& bounds, int width, int height) {
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
  for (std::size_t i = 0; i < layer.solids.size(); ++i) {
    if (meet(layer.bounds[i], strip)) solids.push_back(layer.solids[i]);
  }
  return solids;
}

void add_strip(Layer& layer, const MaskFrame& frame, const OutlineBounds& strip) {
  if (!known(strip) || strip.left == strip.right || strip.top == strip.bottom) return;
  const std::vector<Solid> solids = reaching_into(layer, strip);
  const double cells = (strip.right - strip.left) * frame.width * (strip.bottom - strip.top) * frame.height;
  const double coarser = std::max(1.0, std::sqrt(cells / cells_of_strip));
  const int width = std::max(1, static_cast<int>(frame.width / coarser));
  const int height = std::max(1, static_cast<int>(frame.height / coarser));
  const Window window = window_over(strip, width, height);
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
void add_out_of_frame(Layer& layer, const MaskFrame& frame) {
  const OutlineBounds all = clipped(layer.all, {-far_out, -far_out, 1 + far_out, 1 + far_out});
  if (!known(all)) return;
  add_strip(layer, frame, clipped(all, {-far_out, -far_out, 1 + far_out, 0}));
  add_strip(layer, frame, clipped(all, {-far_out, 1, 1 + far_out, 1 + far_out}));
  add_strip(layer, frame, clipped(all, {-far_out, 0, 0, 1}));
  add_strip(layer, frame, clipped(all, {1, 0, 1 + far_out, 1}));
}

// ---- In frame ------------------------------------------------------------------------------------------------------

template <class Visit>
void each_cell(const Layer& layer, const Visit& visit) {
  for (int y = 0; y < layer.raster.height; ++y) {
    for (int x = 0; x < layer.raster.width; ++x) {
      const std::int32_t solid = layer.raster.solid_at(x, y);
      if (solid >= 0) visit(x + layer.window.left, y + layer.window.top, solid);
    }
  }
}

void count_in_frame(Layer& layer) {
  Tally tally;
  each_cell(layer, [&](int, int, std::int32_t solid) { tally.add(layer.parts[static_cast<std::size_t>(solid)], 1); });
  layer.body.in_frame = tally.of(is_any);
  layer.head.in_frame = tally.of(is_head);
  layer.face.in_frame = tally.of(is_face);
  layer.head_and_chest.in_frame = tally.of(is_head_or_chest);
  add_whole(layer, tally);
}

Layer draw_layer(const SeenGroup& group, const MaskFrame& frame) {
  Layer layer;
  layer.solids.assign(group.solids.begin(), group.solids.end());
  for (const Solid& solid : group.solids) layer.parts.push_back(solid.part);
  layer.bounds = bounds_of(group.solids, frame.lens);
  for (const OutlineBounds& bounds : layer.bounds) layer.all = joined(layer.all, bounds);
  layer.window = window_over(clipped(layer.all, {0, 0, 1, 1}), frame.width, frame.height);
  layer.raster = rasterise(group.solids, frame.lens, frame.width, frame.height, layer.window);
  if (group.owner.kind != Target::Kind::person) return layer;
  count_in_frame(layer);
  add_out_of_frame(layer, frame);
  return layer;
}

bool still_good(const Layer& layer, const SeenGroup& group) { return same(layer.solids, group.solids); }

// Groups keep their order from one moment to the next, but for those who come and go.
std::shared_ptr<const Layer> reusable(const MaskFrame& other, std::size_t from, const SeenGroup& group) {
  for (std::size_t i = 0; i < other.layers.size(); ++i) {
    const std::shared_ptr<const Layer>& layer = other.layers[(from + i) % other.layers.size()];
    if (still_good(*layer, group)) return layer;
  }
  return nullptr;
}

void add_layers(MaskFrame& frame, const std::vector<SeenGroup>& groups, const MaskFrame* other) {
  frame.layers.reserve(groups.size());
  for (std::size_t i = 0; i < groups.size(); ++i) {
    std::shared_ptr<const Layer> drawn = other == nullptr ? nullptr : reusable(*other, i, groups[i]);
    if (!drawn) drawn = std::make_shared<const Layer>(draw_layer(groups[i], frame));
    frame.layers.push_back(std::move(drawn));
  }
}

void add_front(MaskFrame& frame, const std::vector<SeenGroup>& groups) {
  const std::size_t cells = static_cast<std::size_t>(frame.width) * static_cast<std::size_t>(frame.height);
  std::vector<float> depth(cells, std::numeric_limits<float>::infinity());
  frame.front.assign(cells, -1);
  for (std::size_t i = 0; i < groups.size(); ++i) {
    if (groups[i].lets_through) continue;
    const Layer& layer = *frame.layers[i];
    for (int y = 0; y < layer.window.height; ++y) {
      const std::size_t from = static_cast<std::size_t>(y) * static_cast<std::size_t>(layer.window.width);
      const std::size_t to = frame.cell(layer.window.left, y + layer.window.top);
      for (std::size_t x = 0; x < static_cast<std::size_t>(layer.window.width); ++x) {
        if (!(layer.raster.depth[from + x] < depth[to + x])) continue;
        depth[to + x] = layer.raster.depth[from + x];
        frame.front[to + x] = static_cast<std::int16_t>(i);
      }
    }
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

Box drawn_box(const Window& window, int width, int height, const std::vector<bool>& shown) {
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

// Solids of all other groups that may stand before the thing.
std::vector<Solid> others_near(const MaskFrame& frame, const std::vector<SeenGroup>& groups, int group) {
  std::vector<Solid> others;
  const Layer& own = frame.layer(group);
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const Layer& layer = *frame.layers[i];
    if (static_cast<int>(i) == group || groups[i].lets_through || !meet(layer.all, own.all)) continue;
    for (std::size_t s = 0; s < layer.solids.size(); ++s) {
      if (meet(layer.bounds[s], own.all)) others.push_back(layer.solids[s]);
    }
  }
  return others;
}

// A letter is smaller than a cell of the frame, so a thing has cells of its own.
ThingMask draw_thing(const MaskFrame& frame, const Layer& layer, const std::vector<Solid>& others) {
  const OutlineBounds all = clipped(layer.all, {-1, -1, 2, 2});
  ThingMask mask;
  if (!known(all) || all.left == all.right || all.top == all.bottom) return mask;
  const double cells = (all.right - all.left) * frame.width * (all.bottom - all.top) * frame.height;
  const double finer = std::clamp(std::sqrt(cells_of_thing / cells), 1.0 / 16, 256.0);
  const int width = std::max(1, static_cast<int>(std::lround(frame.width * finer)));
  const int height = std::max(1, static_cast<int>(std::lround(frame.height * finer)));
  const Window window = window_over(all, width, height);
  const Raster own = rasterise(layer.solids, frame.lens, width, height, window);
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

}  // namespace

std::shared_ptr<MaskFrame> draw_frame(const std::vector<SeenGroup>& groups, const Pinhole& lens,
                                      const std::shared_ptr<const MaskFrame>& other) {
  auto frame = std::make_shared<MaskFrame>();
  frame->lens = lens;
  frame->width = frame_width;
  const double tall = frame_width * (lens.gate_height / lens.gate_width);
  frame->height = static_cast<int>(std::lround(std::clamp(tall, 1.0, 4.0 * frame_width)));
  const bool helps = other && same(other->lens, lens);
  if (helps) frame->things = other->things;
  add_layers(*frame, groups, helps ? other.get() : nullptr);
  add_front(*frame, groups);
  return frame;
}

PersonMask person_mask(const MaskFrame& frame, const std::vector<SeenGroup>& groups, int group) {
  const Layer& layer = frame.layer(group);
  PersonMask mask{layer.body, layer.head, layer.face, layer.head_and_chest, box_of(layer.all), {}, {}};
  mask.head_box = box_of(bounds_over(layer, is_head));
  std::vector<Masking> masking(groups.size());
  for (std::size_t i = 0; i < groups.size(); ++i) masking[i].owner = groups[i].owner;
  Tally visible;
  each_cell(layer, [&](int x, int y, std::int32_t solid) {
    const Part part = layer.parts[static_cast<std::size_t>(solid)];
    const int front = frame.front_at(x, y);
    if (front == group) {
      visible.add(part, 1);
    } else if (front >= 0 && may_mask(groups[static_cast<std::size_t>(front)].owner)) {
      ++masking[static_cast<std::size_t>(front)].of_body;
      if (is_head_or_chest(part)) ++masking[static_cast<std::size_t>(front)].of_head_and_chest;
    }
  });
  mask.body.visible = visible.of(is_any);
  mask.head.visible = visible.of(is_head);
  mask.face.visible = visible.of(is_face);
  mask.head_and_chest.visible = visible.of(is_head_or_chest);
  mask.masked_by = in_order(masking);
  return mask;
}

ThingMask thing_mask(MaskFrame& frame, const std::vector<SeenGroup>& groups, int group) {
  const Layer& layer = frame.layer(group);
  std::vector<Solid> before = others_near(frame, groups, group);
  const auto good = std::find_if(frame.things.begin(), frame.things.end(), [&](const auto& drawn) {
    return same(drawn->own, layer.solids) && same(drawn->before, before);
  });
  if (good != frame.things.end()) return (*good)->mask;
  const ThingMask mask = draw_thing(frame, layer, before);
  std::erase_if(frame.things, [&](const auto& drawn) { return same(drawn->own, layer.solids); });
  frame.things.push_back(std::make_shared<const ThingDrawn>(ThingDrawn{layer.solids, std::move(before), mask}));
  return mask;
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

int group_of(const std::vector<SeenGroup>& groups, const Target& owner) {
  for (std::size_t i = 0; i < groups.size(); ++i) {
    if (groups[i].owner == owner) return static_cast<int>(i);
  }
  return -1;
}

}  // namespace lensward
