#include "live/written.h"

#include <cmath>

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t longest_line = 400;

std::string cut(std::string_view line) {
  if (line.size() <= longest_line) return std::string(line);
  std::size_t end = longest_line;
  while (end > 0 && (static_cast<unsigned char>(line[end]) & 0xC0) == 0x80) --end;
  return std::string(line.substr(0, end)) + "…";
}

double millimetres(double metres) { return std::round(metres * 1000) / 1000 + 0.0; }

Json mark_json(const Results& results, const Mark& mark) {
  return {{"name", mark.name},           {"who", mark.person.index},
          {"x", millimetres(mark.at.x)}, {"y", millimetres(mark.at.y)},
          {"at", mark.reached.count},    {"where", line_json(results.sources, mark.said_at)}};
}

}  // namespace

Json line_json(const SourceSet& sources, Span where) {
  if (where.file < 0 || where.file >= sources.size()) return nullptr;
  const SourceFile& file = sources.file(where.file);
  const int line = file.position(where.begin).line;
  return {{"file", file.name()}, {"line", line}, {"text", cut(file.line_text(line))}};
}

Json written_json(const Results& results, const Show& show) {
  Json people = Json::array(), marks = Json::array(), findings = Json::array();
  for (const Person& person : results.plan.stage.people)
    people.push_back(person.declared.empty() ? Json(nullptr) : line_json(results.sources, person.declared));
  for (const Mark& mark : results.plan.marks) marks.push_back(mark_json(results, mark));
  for (const ShownFinding& finding : show.findings) findings.push_back(line_json(results.sources, finding.where));
  return {{"people", people}, {"marks", marks}, {"findings", findings}};
}

}  // namespace lensward
