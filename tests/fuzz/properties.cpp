#include "properties.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "plan/dump.h"
#include "plan/make_plan.h"
#include "syntax/gather.h"
#include "syntax/merge.h"
#include "syntax/parse.h"
#include "syntax/tidy.h"

namespace lensward::test {
namespace {

Tidied tidied(const std::string& text) {
  SourceSet sources;
  return tidy(sources, sources.add(SourceFile("mangled.staging", text)));
}

// What is spoken, without the spaces at which a speech may be broken, and the lines that nobody can read.
struct Kept {
  std::string spoken;
  std::string unread;

  bool operator==(const Kept&) const = default;
};

Kept kept_of(const std::string& text) {
  SourceSet sources;
  Findings findings;
  const Tree tree = parse(sources, sources.add(SourceFile("mangled.staging", text)), findings);
  Kept kept;
  for (const Statement& statement : read_script(sources, tree, findings).statements) {
    const auto* speech = std::get_if<SpeechLine>(&statement.body);
    if (speech == nullptr) continue;
    for (const SpeechPart& part : speech->parts) kept.spoken += part.words;
  }
  std::erase(kept.spoken, ' ');
  for (const Leaf& leaf : tree.leaves) {
    if (leaf.kind == Leaf::Kind::unread) kept.unread += text.substr(leaf.begin, leaf.end - leaf.begin) + '\n';
  }
  return kept;
}

// JSON has no spelling for what is not a number, so it must be asked of the value.
bool all_finite(const nlohmann::ordered_json& value) {
  if (value.is_number_float()) return std::isfinite(value.get<double>());
  if (!value.is_structured()) return true;
  return std::all_of(value.begin(), value.end(), [](const auto& part) { return all_finite(part); });
}

std::string fault_of_times(const Plan& plan) {
  Moment at{0};
  for (const Beat& beat : plan.beats) {
    if (beat.begin != at || beat.end < beat.begin) return "beat " + beat.name + " does not follow the one before";
    at = beat.end;
  }
  for (const Speech& speech : plan.speeches) {
    if (speech.end < speech.begin) return "a speech ends before it begins: " + speech.words;
    for (const Word& word : speech.timed) {
      if (word.begin < speech.begin || word.end < word.begin) return "a word is out of time: " + word.text;
    }
  }
  return "";
}

std::string fault_of_findings(const SourceSet& sources, const Findings& findings) {
  for (const Finding& finding : findings.all()) {
    if (finding.message.empty()) return "a finding of " + finding.rule + " says nothing";
    if (finding.where.file < 0 || finding.where.file >= sources.size()) return "a finding in no file";
    const std::size_t size = sources.file(finding.where.file).bytes().size();
    if (finding.where.begin > finding.where.end || finding.where.end > size)
      return "outside the text: " + finding.message;
  }
  return "";
}

}  // namespace

std::string fault_of_reading(const std::string& text) {
  SourceSet sources;
  Findings findings;
  const Tree tree = parse(sources, sources.add(SourceFile("mangled.staging", text)), findings);
  if (print(sources, tree) != text) return "printing the tree gives another text";
  std::uint32_t at = 0;
  for (const TreeLine& line : tree.lines) {
    if (line.begin != at || line.end <= line.begin) return "the lines leave a gap";
    at = line.end;
  }
  if (at != text.size()) return "the lines do not reach the end";
  at = 0;
  for (const Leaf& leaf : tree.leaves) {
    if (leaf.begin != at || leaf.end <= leaf.begin) return "the leaves leave a gap";
    at = leaf.end;
  }
  if (at != text.size()) return "the leaves do not reach the end";
  const Script script = read_script(sources, tree, findings);
  for (const Statement& statement : script.statements) {
    if (statement.span.begin > statement.span.end || statement.span.end > text.size()) return "a line outside the text";
  }
  return fault_of_findings(sources, findings);
}

std::string fault_of_tidying(const std::string& text) {
  const Tidied once = tidied(text);
  // Blanks that tidying puts right may let a way's opening words call a line more: then the file stays as it is.
  if (!once.refusal.empty() && once.refusal.find("opening words") == std::string::npos)
    return "refused: " + once.refusal;
  if (tidied(once.text).text != once.text) return "tidying it twice is not as good as once";
  if (kept_of(text) != kept_of(once.text)) return "a spoken word or an unread line is another";
  return "";
}

std::string fault_of_planning(const std::map<std::string, std::string>& files, const std::string& scene) {
  MemoryHost host;
  host.files = files;
  SourceSet sources;
  Gathered gathered;
  Findings findings;
  const auto file = gather(host, scene, sources, gathered, findings);
  const int* index = std::get_if<int>(&file);
  if (index == nullptr) return "";
  if (gathered.files[static_cast<std::size_t>(*index)].kind == FileKind::scene) {
    const Plan plan = make_plan(sources, merged_script(sources, gathered, *index), findings);
    if (const std::string fault = fault_of_times(plan); !fault.empty()) return fault;
    if (!all_finite(dump_plan(plan))) return "the plan holds a number that is none";
  }
  return fault_of_findings(sources, findings);
}

}  // namespace lensward::test
