#include <zlib.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <stdexcept>

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

void add_number(std::string& bytes, std::uint32_t number) {
  for (const unsigned shift : {24U, 16U, 8U, 0U}) bytes += static_cast<char>(number >> shift & 0xFFU);
}

// PNG (third edition), 5.3: length, type, data, CRC over type and data.
void add_chunk(std::string& bytes, const std::string& type, const std::string& data) {
  add_number(bytes, static_cast<std::uint32_t>(data.size()));
  const std::string body = type + data;
  bytes += body;
  add_number(bytes, static_cast<std::uint32_t>(
                        crc32(0, reinterpret_cast<const Bytef*>(body.data()), static_cast<uInt>(body.size()))));
}

std::string deflated(const std::string& rows) {
  uLongf size = compressBound(static_cast<uLong>(rows.size()));
  std::string bytes(size, '\0');
  const int done = compress2(reinterpret_cast<Bytef*>(bytes.data()), &size, reinterpret_cast<const Bytef*>(rows.data()),
                             static_cast<uLong>(rows.size()), 6);
  if (done != Z_OK) throw std::runtime_error("a picture could not be packed");
  bytes.resize(size);
  return bytes;
}

// Two pixels a byte, each row after a byte that says it is not filtered.
std::string rows_of(cairo_surface_t* surface, const Nearest& nearest) {
  const int width = cairo_image_surface_get_width(surface), height = cairo_image_surface_get_height(surface);
  const int stride = cairo_image_surface_get_stride(surface);
  const unsigned char* pixels = cairo_image_surface_get_data(surface);
  std::string rows;
  rows.reserve(static_cast<std::size_t>(height) * static_cast<std::size_t>(width / 2 + 2));
  for (int y = 0; y < height; ++y) {
    const auto* row = reinterpret_cast<const std::uint32_t*>(pixels + static_cast<std::ptrdiff_t>(y) * stride);
    rows += '\0';
    for (int x = 0; x < width; x += 2)
      rows += static_cast<char>(nearest(row[x]) << 4U | (x + 1 < width ? nearest(row[x + 1]) : 0U));
  }
  return rows;
}

}  // namespace

std::string to_small_png(const Sheet& sheet, int width) {
  static const std::array<Rgb, inks> colours = palette();
  static const Nearest nearest(colours);
  const double scale = width / sheet.width;
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
  cairo_surface_flush(surface.get());

  constexpr char bits = 4, by_palette = 3;
  std::string header;
  add_number(header, static_cast<std::uint32_t>(width));
  add_number(header, static_cast<std::uint32_t>(height));
  header += {bits, by_palette, 0, 0, 0};
  std::string table;
  for (const Rgb& colour : colours)
    table += {static_cast<char>(colour.red), static_cast<char>(colour.green), static_cast<char>(colour.blue)};
  std::string bytes = "\x89PNG\r\n\x1a\n";
  add_chunk(bytes, "IHDR", header);
  add_chunk(bytes, "PLTE", table);
  add_chunk(bytes, "IDAT", deflated(rows_of(surface.get(), nearest)));
  add_chunk(bytes, "IEND", "");
  return bytes;
}

}  // namespace lensward
