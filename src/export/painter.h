// Draws a sheet's items with Cairo: the part that PDF and PNG share.
#pragma once

#include <cairo.h>

#include <memory>

#include "pages/sheet.h"

namespace lensward {

struct CairoDeleter {
  void operator()(cairo_t* context) const { cairo_destroy(context); }
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using CairoContext = std::unique_ptr<cairo_t, CairoDeleter>;
using CairoSurface = std::unique_ptr<cairo_surface_t, CairoDeleter>;

// Called before and after what a group or a text draws, for tags. The default does nothing.
class PaintListener {
 public:
  virtual ~PaintListener() = default;
  virtual void begin(const Group&) {}
  virtual void end(const Group&) {}
  virtual void begin(const Text&) {}
  virtual void end(const Text&) {}
};

// One unit of the context is one millimetre, y down.
void paint(cairo_t* context, const std::vector<Item>& items, PaintListener& listener);

// A sheet on paper, so many dots to a millimetre; at least one dot either way. Throws as require_good.
CairoSurface painted(const Sheet& sheet, double dots_per_mm);

// Throws std::runtime_error with Cairo's own words when something went wrong.
void require_good(cairo_status_t status);

}  // namespace lensward
