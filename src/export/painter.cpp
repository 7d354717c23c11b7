#include "export/painter.h"

#include <cairo-ft.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <mutex>
#include <stdexcept>

#include "base/angle.h"
#include "export/hatch.h"
#include "export/outline_font.h"
#include "export/palette.h"

namespace lensward {
namespace {

cairo_font_face_t* cairo_face(Face face) {
  static std::mutex guard;
  static std::array<cairo_font_face_t*, face_count> faces{};
  const std::lock_guard lock(guard);
  cairo_font_face_t*& made = faces[static_cast<std::size_t>(face)];
  if (made == nullptr)
    made = cairo_ft_font_face_create_for_ft_face(outline_font(face), FT_LOAD_NO_HINTING | FT_LOAD_NO_BITMAP);
  return made;
}

void set_ink(cairo_t* context, Ink ink) {
  const Colour colour = colour_of(ink);
  cairo_set_source_rgb(context, colour.red, colour.green, colour.blue);
}

void add_path(cairo_t* context, const std::vector<PathStep>& steps) {
  cairo_new_path(context);
  for (const PathStep& step : steps) {
    switch (step.kind) {
      case PathStep::Kind::move:
        cairo_move_to(context, step.to.x, step.to.y);
        break;
      case PathStep::Kind::line:
        cairo_line_to(context, step.to.x, step.to.y);
        break;
      case PathStep::Kind::curve:
        cairo_curve_to(context, step.control_1.x, step.control_1.y, step.control_2.x, step.control_2.y, step.to.x,
                       step.to.y);
        break;
      case PathStep::Kind::close:
        cairo_close_path(context);
        break;
    }
  }
}

void paint_hatching(cairo_t* context, const Shape& shape) {
  cairo_save(context);
  add_path(context, shape.steps);
  cairo_clip(context);
  for (const HatchLine& line : hatch_lines(shape.fill, bounds_of(shape.steps))) {
    cairo_move_to(context, line.from.x, line.from.y);
    cairo_line_to(context, line.to.x, line.to.y);
  }
  set_ink(context, shape.fill.ink);
  cairo_set_line_width(context, shape.fill.hatch_width);
  cairo_stroke(context);
  cairo_restore(context);
}

void paint_stroke(cairo_t* context, const Stroke& stroke) {
  set_ink(context, stroke.ink);
  cairo_set_line_width(context, stroke.width);
  cairo_set_line_cap(context, stroke.round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(context, stroke.round ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
  cairo_set_dash(context, stroke.dash.data(), static_cast<int>(stroke.dash.size()), 0);
  cairo_stroke(context);
}

void paint_shape(cairo_t* context, const Shape& shape) {
  if (shape.steps.empty()) return;
  cairo_save(context);
  cairo_set_fill_rule(context, shape.even_odd ? CAIRO_FILL_RULE_EVEN_ODD : CAIRO_FILL_RULE_WINDING);
  if (shape.fill.ink != Ink::none && shape.fill.hatched) paint_hatching(context, shape);
  add_path(context, shape.steps);
  if (shape.fill.ink != Ink::none && !shape.fill.hatched) {
    set_ink(context, shape.fill.ink);
    cairo_fill_preserve(context);
  }
  if (shape.stroke.ink != Ink::none) paint_stroke(context, shape.stroke);
  cairo_new_path(context);
  cairo_restore(context);
}

double start_of(const Text& text, double width) {
  switch (text.anchor) {
    case Text::Anchor::left:
      return 0;
    case Text::Anchor::middle:
      return -width / 2;
    case Text::Anchor::right:
      return -width;
  }
  return 0;
}

// Which bytes each glyph stands for, so that a reader of the PDF can copy the words out.
std::vector<cairo_text_cluster_t> clusters_of(const ShapedText& shaped, std::size_t bytes) {
  std::vector<cairo_text_cluster_t> clusters;
  for (std::size_t i = 0; i < shaped.glyphs.size(); ++i) {
    if (i > 0 && shaped.glyphs[i].cluster == shaped.glyphs[i - 1].cluster) {
      ++clusters.back().num_glyphs;
      continue;
    }
    std::size_t next = i + 1;
    while (next < shaped.glyphs.size() && shaped.glyphs[next].cluster == shaped.glyphs[i].cluster) ++next;
    const std::size_t end = next < shaped.glyphs.size() ? shaped.glyphs[next].cluster : bytes;
    clusters.push_back({static_cast<int>(end - shaped.glyphs[i].cluster), 1});
  }
  return clusters;
}

// A right-to-left line comes with its clusters falling; Cairo wants them counted from the other end, which the few
// words of that kind do not need: they are drawn without.
bool runs_forward(const ShapedText& shaped) {
  for (std::size_t i = 1; i < shaped.glyphs.size(); ++i)
    if (shaped.glyphs[i].cluster < shaped.glyphs[i - 1].cluster) return false;
  return !shaped.glyphs.empty() && shaped.glyphs.front().cluster == 0;
}

void paint_text(cairo_t* context, const Text& text) {
  const ShapedText shaped = shape(text.words, text.face, text.size);
  if (shaped.glyphs.empty()) return;
  cairo_save(context);
  cairo_translate(context, text.at.x, text.at.y);
  if (text.turn != 0) cairo_rotate(context, text.turn * pi / 180);
  set_ink(context, text.ink);
  cairo_set_font_face(context, cairo_face(text.face));
  cairo_set_font_size(context, text.size);
  const double start = start_of(text, shaped.width);
  std::vector<cairo_glyph_t> glyphs;
  glyphs.reserve(shaped.glyphs.size());
  for (const PlacedGlyph& glyph : shaped.glyphs) glyphs.push_back({glyph.glyph, start + glyph.at.x, -glyph.at.y});
  const int count = static_cast<int>(glyphs.size());
  if (runs_forward(shaped)) {
    const auto clusters = clusters_of(shaped, text.words.size());
    cairo_show_text_glyphs(context, text.words.data(), static_cast<int>(text.words.size()), glyphs.data(), count,
                           clusters.data(), static_cast<int>(clusters.size()), cairo_text_cluster_flags_t{});
  } else {
    cairo_show_glyphs(context, glyphs.data(), count);
  }
  cairo_restore(context);
}

// Grey pixels with their own alpha, multiplied as Cairo wants them.
void paint_picture(cairo_t* context, const Picture& picture) {
  if (picture.width <= 0 || picture.height <= 0) return;
  const CairoSurface surface(cairo_image_surface_create(CAIRO_FORMAT_ARGB32, picture.width, picture.height));
  require_good(cairo_surface_status(surface.get()));
  unsigned char* rows = cairo_image_surface_get_data(surface.get());
  const int stride = cairo_image_surface_get_stride(surface.get());
  for (int y = 0; y < picture.height; ++y) {
    auto* row = reinterpret_cast<std::uint32_t*>(rows + static_cast<std::ptrdiff_t>(y) * stride);
    for (int x = 0; x < picture.width; ++x) {
      const std::size_t at =
          static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.width) + static_cast<std::size_t>(x);
      const std::uint32_t alpha = picture.alpha.empty() ? 255U : picture.alpha[at];
      const std::uint32_t grey = (picture.grey[at] * alpha + 127U) / 255U;
      row[x] = alpha << 24U | grey << 16U | grey << 8U | grey;
    }
  }
  cairo_surface_mark_dirty(surface.get());
  cairo_save(context);
  cairo_translate(context, picture.at.x, picture.at.y);
  cairo_scale(context, picture.size.x / picture.width, picture.size.y / picture.height);
  cairo_set_source_surface(context, surface.get(), 0, 0);
  cairo_paint(context);
  cairo_restore(context);
}

class ItemPainter {
 public:
  ItemPainter(cairo_t* context, PaintListener& listener) : context_(context), listener_(listener) {}

  void operator()(const Shape& shape) { paint_shape(context_, shape); }
  void operator()(const Picture& picture) { paint_picture(context_, picture); }
  void operator()(const Text& text) {
    listener_.begin(text);
    paint_text(context_, text);
    listener_.end(text);
  }
  void operator()(const Group& group) {
    listener_.begin(group);
    cairo_save(context_);
    if (group.clip) {
      const auto& [corner, size] = *group.clip;
      cairo_rectangle(context_, corner.x, corner.y, size.x, size.y);
      cairo_clip(context_);
    }
    for (const Item& item : group.items) std::visit(*this, item.body);
    cairo_restore(context_);
    listener_.end(group);
  }

 private:
  cairo_t* context_;
  PaintListener& listener_;
};

}  // namespace

void paint(cairo_t* context, const std::vector<Item>& items, PaintListener& listener) {
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  cairo_set_font_options(context, options);
  cairo_font_options_destroy(options);
  ItemPainter painter(context, listener);
  for (const Item& item : items) std::visit(painter, item.body);
}

CairoSurface painted(const Sheet& sheet, double dots_per_mm) {
  const auto dots = [&](double length) { return std::max(1, static_cast<int>(std::lround(length * dots_per_mm))); };
  CairoSurface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, dots(sheet.width), dots(sheet.height)));
  require_good(cairo_surface_status(surface.get()));
  const CairoContext context(cairo_create(surface.get()));
  const Colour paper = colour_of(Ink::paper);
  cairo_set_source_rgb(context.get(), paper.red, paper.green, paper.blue);
  cairo_paint(context.get());
  cairo_scale(context.get(), dots_per_mm, dots_per_mm);
  PaintListener nobody;
  paint(context.get(), sheet.items, nobody);
  require_good(cairo_status(context.get()));
  return surface;
}

void require_good(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS) throw std::runtime_error(cairo_status_to_string(status));
}

}  // namespace lensward
