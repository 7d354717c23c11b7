#include "report/json.h"

#include <algorithm>

#include "source/character.h"

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;

// Characters beyond the basic plane take two units of UTF-16.
int utf16_column(const SourceFile& file, std::uint32_t offset) {
  const Position position = file.position(offset);
  const std::string_view text = file.line_text(position.line);
  const std::size_t wanted = std::min<std::size_t>(offset - file.line_start(position.line), text.size());
  int column = position.column;
  for (std::size_t at = 0; at < wanted;) {
    const Character next = character_at(text, at);
    at += next.length;
    if (next.code > 0xFFFF && at <= wanted) ++column;
  }
  return column;
}

Json place_json(const SourceSet& sources, Span span) {
  const SourceFile& file = sources.file(span.file);
  const Position begin = file.position(span.begin), end = file.position(span.end);
  return {
      {"file", file.name()},  {"begin", span.begin},      {"end", span.end},
      {"line", begin.line},   {"column", begin.column},   {"utf16_column", utf16_column(file, span.begin)},
      {"end_line", end.line}, {"end_column", end.column}, {"end_utf16_column", utf16_column(file, span.end)},
  };
}

const char* name_of(Repair::Kind kind) {
  switch (kind) {
    case Repair::Kind::safe:
      return "respelling";
    case Repair::Kind::choice:
      return "choice";
    case Repair::Kind::fill_in:
      return "fill-in";
  }
  return "choice";
}

Json words_or_null(const std::string& words) { return words.empty() ? Json(nullptr) : Json(words); }

Json subject_json(const Subject& subject) {
  return {{"scene", words_or_null(subject.scene)}, {"beat", words_or_null(subject.beat)}, {"people", subject.people}};
}

Json labels_json(const SourceSet& sources, const std::vector<Label>& labels) {
  Json list = Json::array();
  for (const Label& label : labels)
    list.push_back({{"where", place_json(sources, label.where)}, {"words", label.words}});
  return list;
}

Json because_json(const std::vector<Because>& because) {
  Json list = Json::array();
  for (const Because& step : because) {
    list.push_back({{"quantity", step.quantity}, {"value", step.value}, {"formula", words_or_null(step.formula)}});
  }
  return list;
}

Json repairs_json(const SourceSet& sources, const std::vector<Repair>& repairs) {
  Json list = Json::array();
  for (const Repair& repair : repairs) {
    Json edits = Json::array();
    for (const TextEdit& edit : repair.edits) {
      edits.push_back({{"where", place_json(sources, edit.where)}, {"text", edit.text}});
    }
    list.push_back({{"kind", name_of(repair.kind)}, {"offer", repair.offer}, {"edits", edits}});
  }
  return list;
}

Json finding_json(const SourceSet& sources, const Finding& finding) {
  return {
      {"rule", finding.rule},
      {"severity", name_of(finding.severity)},
      {"where", place_json(sources, finding.where)},
      {"message", finding.message},
      {"on_set", words_or_null(finding.on_set)},
      {"next_step", words_or_null(finding.next_step)},
      {"at_ms", finding.at ? Json(finding.at->count) : Json(nullptr)},
      {"subject", subject_json(finding.subject)},
      {"labels", labels_json(sources, finding.labels)},
      {"because", because_json(finding.because)},
      {"repairs", repairs_json(sources, finding.repairs)},
      {"waived_because", finding.waived_because ? Json(*finding.waived_because) : Json(nullptr)},
  };
}

}  // namespace

Json findings_json(const SourceSet& sources, const Findings& findings) {
  Json list = Json::array();
  for (const Finding& finding : findings.all()) list.push_back(finding_json(sources, finding));
  Json counts = Json::object();
  for (Severity severity : {Severity::error, Severity::warning, Severity::remark}) {
    counts[name_of(severity)] = findings.count(severity);
  }
  return {{"schema", "lensward/findings/1"}, {"counts", counts}, {"findings", list}};
}

}  // namespace lensward
