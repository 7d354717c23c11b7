#include "pages/dump.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/quantity_text.h"

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;

const char* name_of(Ink ink) {
  switch (ink) {
    case Ink::none:
      return "none";
    case Ink::paper:
      return "paper";
    case Ink::black:
      return "black";
    case Ink::dark:
      return "dark";
    case Ink::mid:
      return "mid";
    case Ink::light:
      return "light";
    case Ink::faint:
      return "faint";
    case Ink::accent:
      return "accent";
  }
  return "none";
}

const char* name_of(Face face) {
  switch (face) {
    case Face::sans:
      return "sans";
    case Face::sans_bold:
      return "sans bold";
    case Face::sans_italic:
      return "sans italic";
    case Face::serif:
      return "serif";
    case Face::serif_italic:
      return "serif italic";
    case Face::serif_bold:
      return "serif bold";
  }
  return "sans";
}

// To the hundredth of a millimetre.
double rounded(double value) { return std::round(value * 100) / 100 + 0.0; }
Json point(Vec2 at) { return Json::array({rounded(at.x), rounded(at.y)}); }

std::string outline_of(const std::vector<PathStep>& steps) {
  std::string text;
  const auto put = [&text](Vec2 at) { text += number(at.x, 2) + "," + number(at.y, 2) + " "; };
  for (const PathStep& step : steps) {
    switch (step.kind) {
      case PathStep::Kind::move:
        text += "M ";
        put(step.to);
        break;
      case PathStep::Kind::line:
        text += "L ";
        put(step.to);
        break;
      case PathStep::Kind::curve:
        text += "C ";
        put(step.control_1);
        put(step.control_2);
        put(step.to);
        break;
      case PathStep::Kind::close:
        text += "Z ";
        break;
    }
  }
  if (!text.empty()) text.pop_back();
  return text;
}

struct Dump {
  Json operator()(const Shape& shape) const {
    Json json{{"shape", outline_of(shape.steps)}};
    if (shape.fill.ink != Ink::none) json["fill"] = name_of(shape.fill.ink);
    if (shape.fill.ink != Ink::none && shape.fill.hatched)
      json["hatch"] = Json{{"angle", rounded(shape.fill.hatch_angle)}, {"gap", rounded(shape.fill.hatch_gap)}};
    if (shape.stroke.ink != Ink::none) {
      json["stroke"] = name_of(shape.stroke.ink);
      json["width"] = rounded(shape.stroke.width);
      if (!shape.stroke.dash.empty()) json["dash"] = shape.stroke.dash;
    }
    return json;
  }
  Json operator()(const Text& text) const {
    Json json{{"text", text.words}, {"at", point(text.at)}, {"face", name_of(text.face)}, {"size", rounded(text.size)}};
    if (text.ink != Ink::black) json["ink"] = name_of(text.ink);
    if (text.anchor != Text::Anchor::left) json["anchor"] = text.anchor == Text::Anchor::middle ? "middle" : "right";
    if (text.turn != 0) json["turn"] = rounded(text.turn);
    return json;
  }
  Json operator()(const Picture& picture) const {
    return Json{{"picture", Json::array({picture.width, picture.height})},
                {"at", point(picture.at)},
                {"size", point(picture.size)}};
  }
  Json operator()(const Group& group) const {
    Json json{{"group", group.id}};
    if (!group.title.empty()) json["title"] = group.title;
    if (!group.description.empty()) json["description"] = group.description;
    if (group.line) json["span"] = Json::array({group.line->file, group.line->begin, group.line->end});
    if (group.clip) json["clip"] = Json::array({point(group.clip->first), point(group.clip->second)});
    if (group.figure) json["figure"] = true;
    if (!group.link_to.empty()) json["link"] = group.link_to;
    json["items"] = items_of(group.items);
    return json;
  }
  static Json items_of(const std::vector<Item>& items) {
    Json json = Json::array();
    for (const Item& item : items) json.push_back(std::visit(Dump{}, item.body));
    return json;
  }
};

}  // namespace

Json dump_sheet(const Sheet& sheet) {
  return Json{{"schema", "lensward/sheet/1"},
              {"width", rounded(sheet.width)},
              {"height", rounded(sheet.height)},
              {"label", sheet.label},
              {"title", sheet.title},
              {"anchor", sheet.anchor},
              {"items", Dump::items_of(sheet.items)}};
}

}  // namespace lensward
