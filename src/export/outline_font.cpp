#include "export/outline_font.h"

#include FT_OUTLINE_H

#include <fmt/format.h>

#include <array>
#include <initializer_list>
#include <mutex>
#include <stdexcept>

namespace lensward {
namespace {

FT_Face load(Face face) {
  static FT_Library library = [] {
    FT_Library made = nullptr;
    if (FT_Init_FreeType(&made) != 0) throw std::runtime_error("FreeType did not start");
    return made;
  }();
  const std::string_view bytes = font_bytes(face);
  FT_Face loaded = nullptr;
  const auto* data = reinterpret_cast<const FT_Byte*>(bytes.data());
  if (FT_New_Memory_Face(library, data, static_cast<FT_Long>(bytes.size()), 0, &loaded) != 0)
    throw std::runtime_error("a built-in font cannot be read");
  return loaded;
}

struct PathWriter {
  std::string path;
  bool open = false;

  void put(char step, std::initializer_list<const FT_Vector*> points) {
    path += step;
    bool first = true;
    for (const FT_Vector* point : points) {
      fmt::format_to(std::back_inserter(path), "{}{} {}", first ? "" : " ", point->x, -point->y);
      first = false;
    }
  }
  void close() {
    if (open) path += 'Z';
    open = false;
  }
};

PathWriter& writer_of(void* user) { return *static_cast<PathWriter*>(user); }

int move_to(const FT_Vector* to, void* user) {
  writer_of(user).close();
  writer_of(user).put('M', {to});
  writer_of(user).open = true;
  return 0;
}
int line_to(const FT_Vector* to, void* user) {
  writer_of(user).put('L', {to});
  return 0;
}
int conic_to(const FT_Vector* control, const FT_Vector* to, void* user) {
  writer_of(user).put('Q', {control, to});
  return 0;
}
int cubic_to(const FT_Vector* first, const FT_Vector* second, const FT_Vector* to, void* user) {
  writer_of(user).put('C', {first, second, to});
  return 0;
}

}  // namespace

FT_Face outline_font(Face face) {
  static std::mutex guard;
  static std::array<FT_Face, face_count> faces{};
  const std::lock_guard lock(guard);
  FT_Face& loaded = faces[static_cast<std::size_t>(face)];
  if (loaded == nullptr) loaded = load(face);
  return loaded;
}

int units_per_em(Face face) { return outline_font(face)->units_per_EM; }

std::string glyph_path(Face face, std::uint32_t glyph) {
  FT_Face font = outline_font(face);
  if (FT_Load_Glyph(font, glyph, FT_LOAD_NO_SCALE | FT_LOAD_NO_HINTING | FT_LOAD_NO_BITMAP) != 0) return {};
  PathWriter writer;
  const FT_Outline_Funcs steps{move_to, line_to, conic_to, cubic_to, 0, 0};
  FT_Outline_Decompose(&font->glyph->outline, &steps, &writer);
  writer.close();
  return writer.path;
}

}  // namespace lensward
