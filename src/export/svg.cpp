#include <fmt/core.h>

#include <map>
#include <set>
#include <utility>

#include "base/quantity_text.h"
#include "export/export.h"
#include "export/hatch.h"
#include "export/markup.h"
#include "export/outline_font.h"
#include "export/palette.h"

namespace lensward {
namespace {

std::string mm(double value) { return number(value, 3); }
std::string point(Vec2 at) { return mm(at.x) + " " + mm(at.y); }

std::string path_data(const std::vector<PathStep>& steps) {
  std::string path;
  for (const PathStep& step : steps) {
    switch (step.kind) {
      case PathStep::Kind::move:
        path += "M" + point(step.to);
        break;
      case PathStep::Kind::line:
        path += "L" + point(step.to);
        break;
      case PathStep::Kind::curve:
        path += "C" + point(step.control_1) + " " + point(step.control_2) + " " + point(step.to);
        break;
      case PathStep::Kind::close:
        path += "Z";
        break;
    }
  }
  return path;
}

std::string stroke_attributes(const Stroke& stroke) {
  if (stroke.ink == Ink::none) return {};
  std::string text = fmt::format(" stroke=\"{}\" stroke-width=\"{}\"", hex_of(stroke.ink), mm(stroke.width));
  if (stroke.round) text += " stroke-linecap=\"round\" stroke-linejoin=\"round\"";
  if (stroke.dash.empty()) return text;
  text += " stroke-dasharray=\"";
  for (std::size_t i = 0; i < stroke.dash.size(); ++i) text += (i > 0 ? " " : "") + mm(stroke.dash[i]);
  return text + "\"";
}

class SvgWriter {
 public:
  // Every id begins with `ids_begin`.
  explicit SvgWriter(const SourceSet* sources, std::string ids_begin = {})
      : sources_(sources), ids_begin_(std::move(ids_begin)) {}

  std::string whole(const Sheet& sheet) {
    for (const Item& item : sheet.items) std::visit(*this, item.body);
    std::string text = fmt::format(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\">\n",
        mm(sheet.width), mm(sheet.height));
    if (!sheet.title.empty()) text += fmt::format("<title>{}</title>\n", escaped(sheet.title));
    text += "<defs>\n" + definitions_ + "</defs>\n";
    text += fmt::format("<rect width=\"{}\" height=\"{}\" fill=\"{}\"/>\n", mm(sheet.width), mm(sheet.height),
                        hex_of(Ink::paper));
    return text + body_ + "</svg>\n";
  }

  // What the items draw; what they share is left to definitions().
  std::string part(const std::vector<Item>& items) {
    body_.clear();
    for (const Item& item : items) std::visit(*this, item.body);
    return body_;
  }

  const std::string& definitions() const { return definitions_; }

  void operator()(const Shape& shape) {
    if (shape.steps.empty()) return;
    const std::string path = path_data(shape.steps);
    const bool filled = shape.fill.ink != Ink::none;
    if (filled && shape.fill.hatched) hatching(shape, path);
    const bool flat = filled && !shape.fill.hatched;
    if (!flat && shape.stroke.ink == Ink::none) return;
    body_ += fmt::format("<path d=\"{}\" fill=\"{}\"", path, flat ? hex_of(shape.fill.ink) : "none");
    if (flat && shape.even_odd) body_ += " fill-rule=\"evenodd\"";
    body_ += stroke_attributes(shape.stroke) + "/>\n";
  }

  void operator()(const Text& text) {
    const ShapedText shaped = shape(text.words, text.face, text.size);
    const double start = text.anchor == Text::Anchor::left     ? 0
                         : text.anchor == Text::Anchor::middle ? -shaped.width / 2
                                                               : -shaped.width;
    const double scale = text.size / units_per_em(text.face);
    body_ += fmt::format("<g role=\"img\" aria-label=\"{}\" fill=\"{}\" transform=\"translate({})", escaped(text.words),
                         hex_of(text.ink), point(text.at));
    if (text.turn != 0) body_ += fmt::format(" rotate({})", mm(text.turn));
    body_ += fmt::format(" scale({})\">", number(scale, 7));
    for (const PlacedGlyph& glyph : shaped.glyphs) {
      const std::string id = glyph_id(text.face, glyph.glyph);
      if (id.empty()) continue;
      body_ += fmt::format("<use href=\"#{}\" x=\"{}\"", id, number((start + glyph.at.x) / scale, 1));
      if (glyph.at.y != 0) body_ += fmt::format(" y=\"{}\"", number(-glyph.at.y / scale, 1));
      body_ += "/>";
    }
    body_ += "</g>\n";
  }

  void operator()(const Picture& picture) {
    if (picture.width <= 0 || picture.height <= 0) return;
    Sheet pixels;
    pixels.width = picture.width;
    pixels.height = picture.height;
    Picture whole = picture;
    whole.at = {};
    whole.size = {pixels.width, pixels.height};
    pixels.items.push_back({whole});
    body_ += fmt::format("<image x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" preserveAspectRatio=\"none\" href=\"",
                         mm(picture.at.x), mm(picture.at.y), mm(picture.size.x), mm(picture.size.y));
    constexpr double one_dot_a_millimetre = 25.4;
    body_ += "data:image/png;base64," + base64(to_png(pixels, one_dot_a_millimetre)) + "\"/>\n";
  }

  void operator()(const Group& group) {
    body_ += "<g";
    if (!group.id.empty()) body_ += fmt::format(" id=\"{}\"", unique_id(group.id));
    if (group.line && sources_ != nullptr && group.line->file < sources_->size() && group.line->file >= 0)
      body_ += fmt::format(" data-line=\"{}\"", sources_->begin_of(*group.line).line);
    if (group.figure) body_ += " role=\"img\"";
    if (group.clip) body_ += fmt::format(" clip-path=\"url(#{})\"", clip_to(*group.clip));
    body_ += ">\n";
    if (!group.title.empty()) body_ += fmt::format("<title>{}</title>\n", escaped(group.title));
    if (!group.description.empty()) body_ += fmt::format("<desc>{}</desc>\n", escaped(group.description));
    for (const Item& item : group.items) std::visit(*this, item.body);
    body_ += "</g>\n";
  }

 private:
  void hatching(const Shape& shape, const std::string& path) {
    const std::string id = fmt::format("{}clip-{}", ids_begin_, ++clips_);
    definitions_ += fmt::format("<clipPath id=\"{}\"><path d=\"{}\"{}/></clipPath>\n", id, path,
                                shape.even_odd ? " clip-rule=\"evenodd\"" : "");
    std::string lines;
    for (const HatchLine& line : hatch_lines(shape.fill, bounds_of(shape.steps)))
      lines += "M" + point(line.from) + "L" + point(line.to);
    body_ += fmt::format("<path d=\"{}\" clip-path=\"url(#{})\" fill=\"none\" stroke=\"{}\" stroke-width=\"{}\"/>\n",
                         lines, id, hex_of(shape.fill.ink), mm(shape.fill.hatch_width));
  }

  std::string clip_to(const std::pair<Vec2, Vec2>& clip) {
    std::string id = fmt::format("{}clip-{}", ids_begin_, ++clips_);
    definitions_ += fmt::format("<clipPath id=\"{}\"><rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/></clipPath>\n",
                                id, mm(clip.first.x), mm(clip.first.y), mm(clip.second.x), mm(clip.second.y));
    return id;
  }

  // The glyph's place among the definitions, put there at its first use; empty for one with nothing to draw.
  std::string glyph_id(Face face, std::uint32_t glyph) {
    const auto [found, added] = glyphs_.try_emplace({face, glyph});
    if (!added) return found->second;
    const std::string path = glyph_path(face, glyph);
    if (path.empty()) return {};
    found->second = fmt::format("{}glyph-{}-{}", ids_begin_, static_cast<int>(face), glyph);
    definitions_ += fmt::format("<path id=\"{}\" d=\"{}\"/>\n", found->second, path);
    return found->second;
  }

  std::string unique_id(const std::string& id) {
    std::string name = ids_begin_;
    for (const char c : id) {
      const auto byte = static_cast<unsigned char>(c);
      const bool plain =
          (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || byte >= 0x80;
      name += plain ? c : '.';
    }
    if (!(name[0] >= 'a' && name[0] <= 'z')) name = "id-" + name;
    std::string unused = name;
    for (int count = 2; !ids_.insert(unused).second; ++count) unused = fmt::format("{}.{}", name, count);
    return unused;
  }

  const SourceSet* sources_;
  std::string ids_begin_;
  std::string definitions_, body_;
  std::map<std::pair<Face, std::uint32_t>, std::string> glyphs_;
  std::set<std::string> ids_;
  int clips_ = 0;
};

}  // namespace

std::string to_svg(const Sheet& sheet, const SourceSet* sources) { return SvgWriter(sources).whole(sheet); }

SvgParts to_svg_parts(const std::vector<std::vector<Item>>& drawings, const std::string& ids_begin) {
  SvgWriter writer(nullptr, ids_begin);
  SvgParts parts;
  for (const std::vector<Item>& items : drawings) parts.drawings.push_back(writer.part(items));
  parts.definitions = writer.definitions();
  return parts;
}

}  // namespace lensward
