#include "mend/mend_json.h"

#include <cmath>

#include "mend/mend_text.h"

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;

Json points_json(const std::optional<Points>& points) {
  return points ? Json(std::round(points->value * 10) / 10) : Json();
}

Json lines_json(const std::vector<LineTyped>& lines) {
  Json all = Json::array();
  for (const LineTyped& line : lines)
    all.push_back({{"line", line.line}, {"words", line.words}, {"old", line.instead ? Json(line.old) : Json()}});
  return all;
}

Json edits_json(const std::vector<TextEdit>& edits) {
  Json all = Json::array();
  for (const TextEdit& edit : edits)
    all.push_back({{"begin", edit.where.begin}, {"end", edit.where.end}, {"text", edit.text}});
  return all;
}

Json way_json(const WayOut& way, const std::string& name) {
  Json leaves = Json::array();
  for (const LostFromPicture& lost : way.leaves) leaves.push_back({{"who", lost.who}, {"ms", lost.time.count}});
  return {{"name", name},
          {"department", way.department ? Json(name_of(*way.department)) : Json("spelling")},
          {"lines", lines_json(way.lines)},
          {"edits", edits_json(way.edits)},
          {"lead_before", points_json(way.lead_before)},
          {"lead_after", points_json(way.lead_after)},
          {"mends", way.mends.size()},
          {"come_late", way.come_late},
          {"out_of_the_picture", std::move(leaves)}};
}

}  // namespace

nlohmann::ordered_json mending_json(const Rehearsal& scene, const std::vector<Trouble>& troubles) {
  Json all = Json::array();
  for (const Trouble& trouble : troubles) {
    const Finding& finding = scene.findings.all()[static_cast<std::size_t>(trouble.finding)];
    const Position at = scene.sources.begin_of(finding.where);
    Json ways = Json::array();
    for (std::size_t i = 0; i < trouble.ways.size(); ++i)
      ways.push_back(way_json(trouble.ways[i], name_of_way(trouble.number, i)));
    all.push_back(
        {{"number", trouble.number},
         {"rule", finding.rule},
         {"severity", name_of(finding.severity)},
         {"message", finding.message},
         {"line", at.line},
         {"column", at.column},
         {"tried", trouble.tried},
         {"goes_with",
          trouble.goes_with ? Json(name_of_way(trouble.goes_with->first, trouble.goes_with->second)) : Json()},
         {"ways", std::move(ways)}});
  }
  return {{"schema", "lensward/mending/1"}, {"scene", scene.plan.facts.name}, {"findings", std::move(all)}};
}

}  // namespace lensward
