#include <png.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <stdexcept>
#include <vector>

#include "export/export.h"
#include "export/painter.h"
#include "export/palette.h"

namespace lensward {
namespace {

constexpr std::size_t greys = 13, tints = 3, inks = greys + tints;

struct Rgb {
  std::uint8_t red = 0, green = 0, blue = 0;
};

std::uint8_t byte_of(double value) { return static_cast<std::uint8_t>(std::lround(std::clamp(value, 0.0, 1.0) * 255)); }

Rgb between(Colour from, Colour to, double share) {
  return {byte_of(from.red + (to.red - from.red) * share), byte_of(from.green + (to.green - from.green) * share),
          byte_of(from.blue + (to.blue - from.blue) * share)};
}

// Black to paper, then the accent alone and thinned by paper.
std::array<Rgb, inks> palette() {
  const Colour black = colour_of(Ink::black), paper = colour_of(Ink::paper), accent = colour_of(Ink::accent);
  std::array<Rgb, inks> colours{};
  for (std::size_t i = 0; i < greys; ++i) colours[i] = between(black, paper, static_cast<double>(i) / (greys - 1));
  for (std::size_t i = 0; i < tints; ++i) colours[greys + i] = between(accent, paper, 0.3 * static_cast<double>(i));
  return colours;
}

int distance(Rgb a, Rgb b) {
  const int red = a.red - b.red, green = a.green - b.green, blue = a.blue - b.blue;
  return red * red + green * green + blue * blue;
}

// The nearest ink of a colour, by its upper five bits a channel.
class Nearest {
 public:
  explicit Nearest(const std::array<Rgb, inks>& colours) {
    for (int at = 0; at < 1 << 15; ++at) {
      const auto channel = [&](int shift) { return static_cast<std::uint8_t>((at >> shift & 31) * 255 / 31); };
      const Rgb colour{channel(10), channel(5), channel(0)};
      const auto best = std::min_element(colours.begin(), colours.end(),
                                         [&](Rgb a, Rgb b) { return distance(a, colour) < distance(b, colour); });
      ink_[static_cast<std::size_t>(at)] = static_cast<std::uint8_t>(best - colours.begin());
    }
  }
  unsigned operator()(std::uint32_t pixel) const {
    return ink_[(pixel >> 9U & 0x7C00U) | (pixel >> 6U & 0x3E0U) | (pixel >> 3U & 0x1FU)];
  }

 private:
  std::array<std::uint8_t, 1U << 15U> ink_{};
};

// A pixel a byte, row by row.
std::vector<std::uint8_t> inks_of(cairo_surface_t* surface, const Nearest& nearest) {
  const int width = cairo_image_surface_get_width(surface), height = cairo_image_surface_get_height(surface);
  const int stride = cairo_image_surface_get_stride(surface);
  cairo_surface_flush(surface);
  const unsigned char* pixels = cairo_image_surface_get_data(surface);
  std::vector<std::uint8_t> all;
  all.reserve(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
  for (int y = 0; y < height; ++y) {
    const auto* row = reinterpret_cast<const std::uint32_t*>(pixels + static_cast<std::ptrdiff_t>(y) * stride);
    for (int x = 0; x < width; ++x) all.push_back(static_cast<std::uint8_t>(nearest(row[x])));
  }
  return all;
}

}  // namespace

std::string to_small_png(const Sheet& sheet, int width) {
  static const std::array<Rgb, inks> colours = palette();
  static const Nearest nearest(colours);
  const CairoSurface surface = painted(sheet, width / sheet.width);
  const std::vector<std::uint8_t> all = inks_of(surface.get(), nearest);

  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(cairo_image_surface_get_width(surface.get()));
  image.height = static_cast<png_uint_32>(cairo_image_surface_get_height(surface.get()));
  image.format = PNG_FORMAT_RGB_COLORMAP;
  image.colormap_entries = inks;
  png_alloc_size_t size = PNG_IMAGE_PNG_SIZE_MAX(image);
  std::string bytes(size, '\0');
  const int done = png_image_write_to_memory(&image, bytes.data(), &size, 0, all.data(), 0, colours.data());
  if (done == 0) throw std::runtime_error(image.message);
  bytes.resize(size);
  return bytes;
}

}  // namespace lensward
