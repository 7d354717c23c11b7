#include "live/page.h"

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <set>

#include "base/quantity_text.h"
#include "export/markup.h"
#include "live/charts.h"
#include "live/page_files.h"
#include "live/page_parts.h"
#include "live/show_json.h"
#include "live/written.h"
#include "pages/words.h"
#include "source/character.h"
#include "type/font_part.h"

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;

Json floor_json(const FloorDrawing& floor) {
  return {{"scale", floor.scale},  {"low_x", floor.low.x},   {"high_y", floor.high.y},
          {"width", floor.size.x}, {"height", floor.size.y}, {"figure", floor.figure}};
}

Json pictures_json(const Pictures& pictures) {
  Json showing = Json::array(), pngs = Json::array();
  for (const Pictures::Showing& one : pictures.play) showing.push_back(Json::array({one.from.count, one.picture}));
  for (const std::string& png : pictures.pngs) pngs.push_back(base64(png));
  return {{"width", play_width}, {"ratio", pictures.ratio}, {"showing", showing}, {"pngs", pngs}};
}

// JSON inside a <script>: nothing in it may look like the element's end or the start of a comment (HTML, 4.12.1.3).
std::string for_script(const Json& json) {
  std::string safe;
  for (const char c : json.dump(-1, ' ', true, Json::error_handler_t::replace)) {
    if (c == '<' || c == '>' || c == '&')
      safe += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
    else
      safe += c;
  }
  return safe;
}

constexpr const char* news_html =
    "<aside class=\"news\" id=\"news\" role=\"status\" hidden></aside>\n<nav class=\"scenes\" id=\"scenes\" "
    "hidden></nav>\n"
    "<aside id=\"written\" role=\"status\" hidden></aside>\n";

struct PageFace {
  Face face;
  const char *family, *weight, *style;
};
constexpr PageFace page_faces[] = {
    {Face::serif, "Page Serif", "400", "normal"},      {Face::serif_italic, "Page Serif", "400", "italic"},
    {Face::serif_bold, "Page Serif", "700", "normal"}, {Face::sans, "Page Sans", "400", "normal"},
    {Face::sans_italic, "Page Sans", "400", "italic"}, {Face::sans_bold, "Page Sans", "600 700", "normal"}};

// The house faces, with the letters of these words and those that any page has.
Json faces_json(const std::string& words) {
  std::set<char32_t> letters;
  for (char32_t letter = ' '; letter <= '~'; ++letter) letters.insert(letter);
  for (const char32_t letter : U"–—…·×½▴“”‘’") letters.insert(letter);
  for (std::size_t at = 0; at < words.size();) {
    if (static_cast<unsigned char>(words[at]) < 0x80) {
      ++at;
      continue;
    }
    const Character next = character_at(words, at);
    if (next.code > 0) letters.insert(static_cast<char32_t>(next.code));
    at += next.length;
  }
  letters.erase(0);
  Json faces = Json::array();
  for (const PageFace& face : page_faces)
    faces.push_back({{"family", face.family},
                     {"weight", face.weight},
                     {"style", face.style},
                     {"data", base64(font_part(face.face, letters))}});
  return faces;
}

std::string counts_of(const Show& show) {
  std::map<Severity, std::size_t> counts;
  for (const ShownFinding& finding : show.findings)
    if (finding.waived_because.empty()) ++counts[finding.severity];
  std::vector<std::string> words;
  const auto add = [&](Severity severity, const char* one, const char* more) {
    if (counts[severity] > 0) words.push_back(counted(counts[severity], one, more));
  };
  add(Severity::error, "error", "errors");
  add(Severity::warning, "warning", "warnings");
  add(Severity::remark, "remark", "remarks");
  return words.empty() ? "no findings" : listed(words);
}

// The floor that moves: the room, then the ways of each beat, of which the script shows one.
std::string floor_of_player(const FloorDrawing& floor) {
  std::string svg = "<g id=\"lamps\">" + floor.lamps + "</g>\n<g id=\"room\">" + floor.room + "</g>\n";
  for (std::size_t beat = 0; beat < floor.ways.size(); ++beat)
    svg += fmt::format("<g class=\"ways\" id=\"ways-{}\">{}</g>\n", beat, floor.ways[beat]);
  return svg;
}

// Every [[name]] of the frame by its value; a name without one stays, which the tests would see.
std::string filled(std::string_view frame, const std::map<std::string, std::string, std::less<>>& values) {
  std::string page;
  for (std::size_t at = 0; at < frame.size();) {
    const std::size_t open = std::min(frame.find("[[", at), frame.size());
    page += frame.substr(at, open - at);
    const std::size_t shut = frame.find("]]", open);
    if (open == frame.size() || shut == std::string_view::npos) return page + std::string(frame.substr(open));
    const auto value = values.find(frame.substr(open + 2, shut - open - 2));
    page += value == values.end() ? std::string(frame.substr(open, shut + 2 - open)) : value->second;
    at = shut + 2;
  }
  return page;
}

// What a page is: how it comes by its pictures, and what it has besides.
struct Manner {
  Json pictures;
  std::string policy;
  std::map<std::string, std::string, std::less<>> besides;
};

std::string policy_of(const std::string& images, const std::vector<std::string>& styles,
                      const std::vector<std::string>& scripts, const std::string& besides) {
  const auto listed_digests = [](const std::vector<std::string>& digests) {
    std::string words;
    for (const std::string& digest : digests) words += " 'sha256-" + digest + "'";
    return words;
  };
  return "default-src 'none'; img-src " + images + "; font-src data:; style-src" + listed_digests(styles) +
         "; script-src" + listed_digests(scripts) + "; base-uri 'none'; form-action 'none'" + besides;
}

std::string page_from(const PageParts& parts, Json json, Manner manner) {
  const Show& show = parts.show;
  const SceneFacts& facts = parts.results.plan.facts;
  json["floor"] = floor_json(parts.floor);
  json["pictures"] = std::move(manner.pictures);
  const std::string beats = beats_html(parts), people = people_html(parts);
  json["faces"] = faces_json(title_of(facts) + show.facts + beats + people);
  const std::string title = show.title.empty() ? show.name : show.title;
  std::map<std::string, std::string, std::less<>> values{
      {"policy", manner.policy},
      {"style", std::string(page_style().bytes)},
      {"script", std::string(page_script().bytes)},
      {"page-title", escaped(title_of(facts))},
      {"title", isolated(title)},
      {"name", show.title.empty() ? "" : isolated(show.name)},
      {"facts", escaped(show.facts)},
      {"length", clock_text(show.end)},
      {"counts", escaped(counts_of(show))},
      {"floor-box", fmt::format("0 0 {} {}", number(parts.floor.size.x, 1), number(parts.floor.size.y, 1))},
      {"definitions", parts.floor.definitions},
      {"symbols", symbols_html(parts.floor)},
      {"floor", floor_of_player(parts.floor)},
      {"beats", beats},
      {"people", people},
      {"findings", findings_html(parts)},
      {"cautions", cautions_html(show)},
      {"scene", for_script(json)},
      {"news", ""},
      {"charts", ""},
      {"more-style", ""},
      {"more-script", ""},
  };
  for (auto& [name, value] : manner.besides) values[name] = std::move(value);
  return filled(page_html().bytes, values);
}

}  // namespace

std::string page_of(const Results& results, const PictureBegins& begins) {
  const Show show = show_of(results);
  const FloorDrawing floor = floor_drawing(results, show);
  const Pictures pictures = pictures_of(results, begins);
  Manner manner{pictures_json(pictures), policy_of("data:", {page_style().digest}, {page_script().digest}, ""), {}};
  return page_from({results, show, floor, pictures}, show_json(show), std::move(manner));
}

std::string preview_page_of(const Results& results) {
  const Show show = show_of(results);
  const FloorDrawing floor = floor_drawing(results, show);
  Pictures pictures;
  pictures.ratio = picture_ratio(results.plan);
  if (!results.plan.stage.cameras.empty()) pictures.beats.resize(show.beats.size());
  Json json = show_json(show);
  json["written"] = written_json(results, show);
  const PageFile style = preview_style(), script = preview_script();
  Manner manner{
      {{"width", play_width}, {"ratio", pictures.ratio}, {"showing", Json::array()}, {"addresses", Json::array()}},
      policy_of("'self' data:", {page_style().digest, style.digest}, {page_script().digest, script.digest},
                "; connect-src 'self'"),
      {{"news", news_html},
       {"charts", charts_html(results)},
       {"more-style", "<link rel=\"icon\" href=\"data:,\">\n<style>" + std::string(style.bytes) + "</style>\n"},
       {"more-script", "<script>" + std::string(script.bytes) + "</script>\n"}}};
  return page_from({results, show, floor, pictures}, std::move(json), std::move(manner));
}

}  // namespace lensward
