#include "type/face.h"

#include <hb-ot.h>
#include <hb.h>

#include <array>
#include <cstddef>
#include <memory>
#include <mutex>
#include <utility>

extern "C" {
extern const char lensward_font_sans_begin[], lensward_font_sans_end[];
extern const char lensward_font_sans_bold_begin[], lensward_font_sans_bold_end[];
extern const char lensward_font_sans_italic_begin[], lensward_font_sans_italic_end[];
extern const char lensward_font_serif_begin[], lensward_font_serif_end[];
extern const char lensward_font_serif_italic_begin[], lensward_font_serif_italic_end[];
extern const char lensward_font_serif_bold_begin[], lensward_font_serif_bold_end[];
}

namespace lensward {
namespace {

std::string_view between(const char* begin, const char* end) { return {begin, static_cast<std::size_t>(end - begin)}; }

struct FontDeleter {
  void operator()(hb_font_t* font) const { hb_font_destroy(font); }
};
struct BufferDeleter {
  void operator()(hb_buffer_t* buffer) const { hb_buffer_destroy(buffer); }
};
using Font = std::unique_ptr<hb_font_t, FontDeleter>;
using Buffer = std::unique_ptr<hb_buffer_t, BufferDeleter>;

Font load(Face face) {
  const std::string_view bytes = font_bytes(face);
  hb_blob_t* blob =
      hb_blob_create(bytes.data(), static_cast<unsigned>(bytes.size()), HB_MEMORY_MODE_READONLY, nullptr, nullptr);
  hb_face_t* hb_face = hb_face_create(blob, 0);
  hb_blob_destroy(blob);
  Font font(hb_font_create(hb_face));
  // Shaping happens in the font's own units and is scaled afterwards: sizes then never change where kerning rounds.
  const int units = static_cast<int>(hb_face_get_upem(hb_face));
  hb_face_destroy(hb_face);
  hb_ot_font_set_funcs(font.get());
  hb_font_set_scale(font.get(), units, units);
  return font;
}

hb_font_t* font_of(Face face) {
  static std::array<std::once_flag, face_count> loaded;
  static std::array<Font, face_count> fonts;
  const auto index = static_cast<std::size_t>(face);
  std::call_once(loaded[index], [&] { fonts[index] = load(face); });
  return fonts[index].get();
}

// Bytes that begin a character: not UTF-8 continuation bytes.
bool begins_character(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }

class LineBreaker {
 public:
  LineBreaker(Face face, double size, double width) : face_(face), size_(size), width_(width) {}

  void paragraph(std::string_view words) {
    std::size_t at = 0;
    while (at < words.size()) {
      const std::size_t end = end_of_piece(words, at);
      add(words.substr(at, end - at));
      at = end;
    }
    flush();
  }

  std::vector<std::string> lines;

 private:
  // A piece is what may not be broken: a run of spaces with the word after it, up to a hyphen or dash.
  static std::size_t end_of_piece(std::string_view words, std::size_t at) {
    while (at < words.size() && words[at] == ' ') ++at;
    const std::size_t word = at;
    while (at < words.size() && words[at] != ' ') {
      if (words[at] == '-' && at > word) return at + 1;
      if (words.substr(at, 3) == "\u2014" && at > word) return at + 3;
      ++at;
    }
    return at;
  }

  double measure(std::string_view words) const { return width_of(words, face_, size_); }

  // Widths are added piece by piece: a line of many words is then measured once, not once for each of its words.
  void add(std::string_view piece) {
    const double wide = measure(piece);
    if (used_ + wide <= width_) {
      line_ += piece;
      used_ += wide;
      return;
    }
    if (!line_.empty()) flush();
    const std::size_t word = piece.find_first_not_of(' ');
    if (word == std::string_view::npos) return;
    line_ = cut_to_fit(piece.substr(word));
    used_ = measure(line_);
  }

  // Sets all of an over-long word but its last line, which is returned.
  std::string cut_to_fit(std::string_view word) {
    while (true) {
      const std::size_t taken = characters_that_fit(word);
      if (taken == word.size()) return std::string(word);
      line_ = word.substr(0, taken);
      flush();
      word.remove_prefix(taken);
    }
  }

  // Bytes of the whole characters that fit on a line, at least one character.
  std::size_t characters_that_fit(std::string_view word) const {
    std::size_t taken = 0;
    for (std::size_t at = 1; at <= word.size(); ++at) {
      if (at < word.size() && !begins_character(word[at])) continue;
      if (taken > 0 && measure(word.substr(0, at)) > width_) break;
      taken = at;
    }
    return taken;
  }

  void flush() {
    while (!line_.empty() && line_.back() == ' ') line_.pop_back();
    lines.push_back(line_);
    line_.clear();
    used_ = 0;
  }

  Face face_;
  double size_;
  double width_;
  std::string line_;
  double used_ = 0;
};

}  // namespace

std::string_view font_bytes(Face face) {
  switch (face) {
    case Face::sans:
      return between(lensward_font_sans_begin, lensward_font_sans_end);
    case Face::sans_bold:
      return between(lensward_font_sans_bold_begin, lensward_font_sans_bold_end);
    case Face::sans_italic:
      return between(lensward_font_sans_italic_begin, lensward_font_sans_italic_end);
    case Face::serif:
      return between(lensward_font_serif_begin, lensward_font_serif_end);
    case Face::serif_italic:
      return between(lensward_font_serif_italic_begin, lensward_font_serif_italic_end);
    case Face::serif_bold:
      return between(lensward_font_serif_bold_begin, lensward_font_serif_bold_end);
  }
  return {};
}

ShapedText shape(std::string_view words, Face face, double size) {
  hb_font_t* font = font_of(face);
  const Buffer buffer(hb_buffer_create());
  hb_buffer_set_cluster_level(buffer.get(), HB_BUFFER_CLUSTER_LEVEL_MONOTONE_GRAPHEMES);
  hb_buffer_add_utf8(buffer.get(), words.data(), static_cast<int>(words.size()), 0, static_cast<int>(words.size()));
  hb_buffer_guess_segment_properties(buffer.get());
  // The guess takes its language from the host; ligatures and kerning must not.
  hb_buffer_set_language(buffer.get(), hb_language_from_string("en", -1));
  hb_shape(font, buffer.get(), nullptr, 0);

  unsigned count = 0;
  const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(buffer.get(), &count);
  const hb_glyph_position_t* places = hb_buffer_get_glyph_positions(buffer.get(), &count);
  const double scale = size / static_cast<double>(hb_face_get_upem(hb_font_get_face(font)));
  ShapedText shaped;
  shaped.glyphs.reserve(count);
  Vec2 pen;
  for (unsigned i = 0; i < count; ++i) {
    const Vec2 at = pen + Vec2{static_cast<double>(places[i].x_offset), static_cast<double>(places[i].y_offset)};
    shaped.glyphs.push_back({infos[i].codepoint, at * scale, infos[i].cluster});
    if (infos[i].codepoint == 0) shaped.complete = false;
    pen = pen + Vec2{static_cast<double>(places[i].x_advance), static_cast<double>(places[i].y_advance)};
  }
  shaped.width = pen.x * scale;
  return shaped;
}

double width_of(std::string_view words, Face face, double size) { return shape(words, face, size).width; }

std::vector<std::string> break_lines(std::string_view words, Face face, double size, double width) {
  LineBreaker breaker(face, size, width);
  std::size_t at = 0;
  while (true) {
    const std::size_t end = words.find('\n', at);
    breaker.paragraph(words.substr(at, end == std::string_view::npos ? end : end - at));
    if (end == std::string_view::npos) break;
    at = end + 1;
  }
  return std::move(breaker.lines);
}

}  // namespace lensward
