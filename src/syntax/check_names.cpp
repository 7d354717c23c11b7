#include "syntax/check_names.h"

#include <algorithm>
#include <map>
#include <set>

#include "source/spelling_of_names.h"
#include "syntax/broken.h"
#include "syntax/merge.h"

namespace lensward {
namespace {

using Kind = DeclarationLine::Kind;

const GatheredFile& file_at(const Gathered& gathered, int file) {
  return gathered.files[static_cast<std::size_t>(file)];
}

bool has_place(const Clauses& clauses) {
  return std::any_of(clauses.begin(), clauses.end(), [](const Clause& clause) {
    return std::holds_alternative<AtClause>(clause.body) || std::holds_alternative<WhereClause>(clause.body) ||
           std::holds_alternative<ShiftClause>(clause.body) || std::holds_alternative<HandsClause>(clause.body);
  });
}

// What does nothing unless a line names it. Furniture and dressed props are seen all the same.
const char* idle_kind(const DeclarationLine& line) {
  switch (line.kind) {
    case Kind::group:
      return "group";
    case Kind::story:
      return "story";
    case Kind::camera:
      return "camera";
    case Kind::lens:
      return "lens";
    case Kind::area:
      return "area";
    case Kind::prop:
      return has_place(line.clauses) ? nullptr : "prop";
    default:
      return nullptr;
  }
}

struct NamedThing {
  const Name* name;
  std::string kind;  // empty: never idle
};

// What the lines above the opening declare.
std::vector<NamedThing> declared_in(const Script& script) {
  std::vector<NamedThing> things;
  for (const Statement& statement : script.statements) {
    if (const auto* heading = std::get_if<HeadingLine>(&statement.body)) {
      const auto kind = heading->kind;
      const bool part = kind == HeadingLine::Kind::opening || kind == HeadingLine::Kind::beat;
      if (part || kind == HeadingLine::Kind::way) break;
    }
    if (const auto* people = std::get_if<PeopleLine>(&statement.body)) {
      for (const Name& name : people->names) things.push_back({&name, "person"});
    }
    if (const auto* line = std::get_if<DeclarationLine>(&statement.body)) {
      const char* kind = idle_kind(*line);
      things.push_back({&line->name, kind != nullptr ? kind : ""});
    }
    if (const auto* mark = std::get_if<MarkLine>(&statement.body)) things.push_back({&mark->name, "mark"});
  }
  return things;
}

Finding& report(Findings& findings, const char* rule, Severity severity, Span where, std::string message,
                std::string next_step) {
  Finding finding = reading_error(rule, where, std::move(message), std::move(next_step));
  finding.severity = severity;
  return findings.add(std::move(finding));
}

void report_unused(const NamedThing& thing, const char* within, Findings& findings) {
  report(findings, "name.unused", Severity::remark, thing.name->span,
         "the " + thing.kind + " " + in_ticks(thing.name->text) + " is never used in this " + within,
         "use it or take it out");
}

// ---- Look-alikes ---------------------------------------------------------------------------------------------------

// The first place of every name, in the order of the text.
std::vector<Name> names_written(const SourceSet& sources, const Tree& tree) {
  std::vector<Name> names;
  std::set<std::string> seen;
  const std::string_view bytes = sources.file(tree.file).bytes();
  for (const Leaf& leaf : tree.leaves) {
    if (leaf.kind != Leaf::Kind::name) continue;
    std::string_view text = bytes.substr(leaf.begin, leaf.end - leaf.begin);
    if (text.starts_with('[')) continue;
    for (const std::string_view owner : {"'s", "’s"}) {
      if (text.ends_with(owner)) text.remove_suffix(owner.size());
    }
    text = text.substr(0, text.find('.'));
    if (!seen.insert(std::string(text)).second) continue;
    names.push_back({std::string(text), {tree.file, leaf.begin, leaf.begin + static_cast<std::uint32_t>(text.size())}});
  }
  return names;
}

void check_looks(const SourceSet& sources, const Gathered& gathered, int scene, Findings& findings) {
  std::map<std::string, Name> by_looks;
  for (int file : files_for(gathered, scene)) {
    for (const Name& name : names_written(sources, file_at(gathered, file).tree)) {
      const auto [first, added] = by_looks.emplace(looks_of(name.text), name);
      if (added || first->second.text == name.text) continue;
      Finding& finding =
          report(findings, "name.look-alike", Severity::warning, name.span,
                 in_ticks(name.text) + " and " + in_ticks(first->second.text) + " look the same and are two names",
                 "write both the same, or call one otherwise");
      finding.labels.push_back({first->second.span, "the other one"});
    }
  }
}

// ---- Labels --------------------------------------------------------------------------------------------------------

const Name* label_of(const Statement& statement) {
  const auto named = [](const Clauses& clauses) -> const Name* {
    for (const Clause& clause : clauses) {
      const auto* label = std::get_if<LabelClause>(&clause.body);
      if (label != nullptr && label->kind == LabelClause::Kind::named) return &label->name;
    }
    return nullptr;
  };
  if (const auto* deed = std::get_if<DeedLine>(&statement.body)) return named(deed->clauses);
  if (const auto* speech = std::get_if<SpeechLine>(&statement.body)) return named(speech->clauses);
  return nullptr;
}

void report_taken(const Name& name, const std::string& message, Span first, Findings& findings) {
  report(findings, "name.taken", Severity::error, name.span, message, "call one of them otherwise")
      .labels.push_back({first, "here first"});
}

void check_labels(const Script& script, const std::map<std::string, Span>& things, Findings& findings) {
  std::map<std::string, Span> beats, labels;
  bool in_way = false;
  for (const Statement& statement : script.statements) {
    if (const auto* heading = std::get_if<HeadingLine>(&statement.body)) {
      labels.clear();
      in_way = heading->kind == HeadingLine::Kind::way;
      if (heading->kind != HeadingLine::Kind::beat) continue;
      const auto [first, added] = beats.emplace(heading->name.text, heading->name.span);
      if (!added)
        report_taken(heading->name, "two beats are called " + in_ticks(heading->name.text), first->second, findings);
      continue;
    }
    const Name* label = label_of(statement);
    if (label == nullptr) continue;
    if (const auto thing = things.find(label->text); thing != things.end()) {
      report_taken(*label, in_ticks(label->text) + " is the name of a thing, and of a deed here", thing->second,
                   findings);
    } else if (!in_way) {
      const auto [first, added] = labels.emplace(label->text, label->span);
      if (!added)
        report_taken(*label, "two deeds of this beat are called " + in_ticks(label->text), first->second, findings);
    }
  }
}

}  // namespace

void check_names(const SourceSet& sources, const Gathered& gathered, int scene, Findings& findings) {
  check_looks(sources, gathered, scene, findings);
  std::map<std::string, int> mentions;
  std::map<std::string, Span> things;
  for (int file : files_for(gathered, scene)) {
    for (const auto& [name, count] : names_in(sources, file_at(gathered, file).tree)) mentions[name] += count;
    for (const NamedThing& thing : declared_in(file_at(gathered, file).script)) {
      things.emplace(thing.name->text, thing.name->span);
    }
  }
  const Script& own = file_at(gathered, scene).script;
  check_labels(own, things, findings);
  const std::vector<NamedThing> declared = declared_in(own);
  const auto cameras =
      std::count_if(declared.begin(), declared.end(), [](const NamedThing& thing) { return thing.kind == "camera"; });
  for (const NamedThing& thing : declared) {
    // People without a line are told elsewhere, and an only camera is on air unasked.
    const bool idle = !thing.kind.empty() && thing.kind != "person" && (thing.kind != "camera" || cameras > 1);
    if (idle && mentions[thing.name->text] == 1) report_unused(thing, "scene", findings);
  }
}

void check_names_of_film(const SourceSet& sources, const Gathered& gathered, int film, Findings& findings) {
  std::set<int> shared, all;
  for (int scene : file_at(gathered, film).scenes) {
    if (scene < 0) continue;
    for (int file : files_for(gathered, scene)) {
      all.insert(file);
      if (file_at(gathered, file).kind != FileKind::scene) shared.insert(file);
    }
  }
  std::map<std::string, int> mentions;
  for (int file : all) {
    for (const auto& [name, count] : names_in(sources, file_at(gathered, file).tree)) mentions[name] += count;
  }
  for (int file : shared) {
    for (const NamedThing& thing : declared_in(file_at(gathered, file).script)) {
      if (!thing.kind.empty() && mentions[thing.name->text] == 1) report_unused(thing, "film", findings);
    }
  }
}

}  // namespace lensward
