#include <algorithm>
#include <cmath>

#include "export/export.h"
#include "export/painter.h"
#include "export/palette.h"

namespace lensward {
namespace {

cairo_status_t append(void* bytes, const unsigned char* data, unsigned length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

std::string to_png(const Sheet& sheet, double dots_per_inch) {
  constexpr double inch = 25.4;
  constexpr double most_dots = 20000;
  const double longest = std::max(sheet.width, sheet.height);
  const double scale = std::min(dots_per_inch / inch, most_dots / longest);
  const int width = std::max(1, static_cast<int>(std::lround(sheet.width * scale)));
  const int height = std::max(1, static_cast<int>(std::lround(sheet.height * scale)));
  const CairoSurface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height));
  require_good(cairo_surface_status(surface.get()));
  const CairoContext context(cairo_create(surface.get()));
  const Colour paper = colour_of(Ink::paper);
  cairo_set_source_rgb(context.get(), paper.red, paper.green, paper.blue);
  cairo_paint(context.get());
  cairo_scale(context.get(), scale, scale);
  PaintListener nobody;
  paint(context.get(), sheet.items, nobody);
  require_good(cairo_status(context.get()));
  std::string bytes;
  require_good(cairo_surface_write_to_png_stream(surface.get(), append, &bytes));
  return bytes;
}

}  // namespace lensward
