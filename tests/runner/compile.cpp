#include "compile.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/pipeline.h"
#include "cli/real_host.h"
#include "emphasis/dump.h"
#include "lens/dump.h"
#include "lens/see.h"
#include "plan/dump.h"
#include "report/outline.h"
#include "syntax/dump.h"

namespace lensward::test {
namespace {

std::string finding_text(const Finding& finding) {
  std::string text = std::string(name_of(finding.severity)) + "[" + finding.rule + "]: " + finding.message;
  return finding.waived_because ? "waived " + text : text;
}

void note_findings(const Run& run, const Expect& expect, std::vector<Note>& notes) {
  for (const Finding& finding : run.findings.all()) {
    if (!expect.rules.empty() && std::ranges::find(expect.rules, finding.rule) == expect.rules.end()) continue;
    const Position at = run.sources.begin_of(finding.where);
    notes.push_back({at.line, std::to_string(at.column) + " " + finding_text(finding)});
  }
}

nlohmann::ordered_json dump_of(const Run& run, const Expect& expect) {
  if (expect.waist == "syntax") return dump_tree(run.sources, run.tree);
  if (expect.waist == "plan") return dump_plan(run.plan);
  if (expect.waist == "view") return dump_view(run.plan, see(run.plan, expect.at));
  if (expect.waist == "emphasis") return dump_attention(run.plan, run.attention, run.verdicts);
  return "no such waist: " + expect.waist;
}

void note_dump(const Run& run, const Expect& expect, std::vector<Note>& notes) {
  nlohmann::ordered_json part = dump_of(run, expect);
  for (const std::string& key : expect.keys) {
    const nlohmann::ordered_json missing = "no such key: " + key;
    part = part.contains(key) ? nlohmann::ordered_json(part[key]) : missing;
  }
  std::istringstream lines(outline(part));
  for (std::string line; std::getline(lines, line);) notes.push_back({-1, "| " + line});
}

}  // namespace

Compiled compile(const CaseFile& file) {
  Run run;
  lensward::compile(file.name + ".staging", file.source(), Until::rules, run);
  Compiled compiled;
  for (const Expect& expect : file.expects) {
    if (expect.waist == "findings")
      note_findings(run, expect, compiled.notes);
    else
      note_dump(run, expect, compiled.notes);
  }
  for (const Finding& finding : run.findings.all()) {
    compiled.any_error = compiled.any_error || (finding.severity == Severity::error && !finding.waived_because);
    const Position at = run.sources.begin_of(finding.where);
    compiled.findings.push_back(std::to_string(at.line) + ":" + std::to_string(at.column) + " " +
                                finding_text(finding));
  }
  return compiled;
}

std::vector<std::string> findings_of(const std::string& path, const std::string& examples) {
  Run run;
  RealHost host;
  const auto file = read_file(host, path, run);
  if (const auto* error = std::get_if<HostError>(&file)) return {"cannot be read: " + error->reason};
  lensward::compile(std::get<int>(file), Until::rules, run);
  std::vector<std::string> told;
  for (const Finding& finding : run.findings.all()) {
    const std::string& name = run.sources.file(finding.where.file).name();
    const Position at = run.sources.begin_of(finding.where);
    const std::string other = name == path ? "" : name.substr(examples.size() + 1) + ":";
    told.push_back(other + std::to_string(at.line) + ":" + std::to_string(at.column) + " " + finding_text(finding));
  }
  return told;
}

FileKind kind_of_file(const std::string& path) {
  Run run;
  RealHost host;
  const auto file = read_file(host, path, run);
  const int* index = std::get_if<int>(&file);
  return index == nullptr ? FileKind::scene : run.gathered.files[static_cast<std::size_t>(*index)].kind;
}

}  // namespace lensward::test
