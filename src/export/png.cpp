#include <algorithm>

#include "export/export.h"
#include "export/painter.h"

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
  const CairoSurface surface = painted(sheet, scale);
  std::string bytes;
  require_good(cairo_surface_write_to_png_stream(surface.get(), append, &bytes));
  return bytes;
}

}  // namespace lensward
