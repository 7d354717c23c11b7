#include "editor/answers.h"

#include <algorithm>
#include <map>

#include "editor/complete.h"
#include "editor/lengths.h"
#include "editor/naming.h"
#include "editor/outline.h"
#include "source/character.h"
#include "syntax/tidy.h"

namespace lensward {
namespace {

std::string path_known(const ReadFiles& read, std::int32_t source) {
  for (const GatheredFile& file : read.gathered.files) {
    if (file.tree.file == source) return file.canonical;
  }
  return "";
}

// Byte spans as ranges of the editor; the lines of each file are found once.
class Ruler {
 public:
  Ruler(const SourceSet& sources, const Manner& manner) : sources_(sources), columns_(manner.columns) {}

  const TextLines& lines(std::int32_t file) {
    const auto known = lines_.find(file);
    return known != lines_.end() ? known->second
                                 : lines_.emplace(file, TextLines(sources_.file(file).bytes(), columns_)).first->second;
  }
  JsonValue range(Span span) { return to_json(lines(span.file).range(span.begin, span.end)); }

 private:
  const SourceSet& sources_;
  Columns columns_;
  std::map<std::int32_t, TextLines> lines_;
};

JsonValue location(const ReadFiles& read, Span span, Ruler& ruler, const Manner& manner) {
  return {{"uri", manner.uri(path_known(read, span.file))}, {"range", ruler.range(span)}};
}

std::uint32_t offset_of(const ReadFiles& read, Caret caret, const Manner& manner) {
  return TextLines(read.text(), manner.columns).offset(caret);
}

JsonValue workspace_edit(const SourceSet& sources, const std::map<std::int32_t, std::string>& paths,
                         const std::vector<TextEdit>& edits, const Manner& manner) {
  Ruler ruler(sources, manner);
  std::map<std::int32_t, JsonValue> by_file;
  for (const TextEdit& edit : edits) {
    JsonValue& list = by_file.emplace(edit.where.file, JsonValue::array()).first->second;
    list.push_back({{"range", ruler.range(edit.where)}, {"newText", edit.text}});
  }
  JsonValue documents = JsonValue::array(), changes = JsonValue::object();
  for (auto& [file, list] : by_file) {
    const std::string& path = paths.at(file);
    if (manner.document_changes) {
      documents.push_back({{"textDocument", {{"uri", manner.uri(path)}, {"version", manner.version(path)}}},
                           {"edits", std::move(list)}});
    } else {
      changes[manner.uri(path)] = std::move(list);
    }
  }
  if (manner.document_changes) return {{"documentChanges", std::move(documents)}};
  return {{"changes", std::move(changes)}};
}

// SymbolKind and CompletionItemKind of the protocol.
int symbol_kind(OutlineEntry::Kind kind) {
  switch (kind) {
    case OutlineEntry::Kind::file:
      return 2;
    case OutlineEntry::Kind::room:
      return 23;
    case OutlineEntry::Kind::person:
      return 13;
    case OutlineEntry::Kind::group:
      return 18;
    case OutlineEntry::Kind::thing:
      return 19;
    case OutlineEntry::Kind::equipment:
      return 8;
    case OutlineEntry::Kind::story:
      return 3;
    default:
      return 24;
  }
}

int completion_kind(Completion::Kind kind) {
  switch (kind) {
    case Completion::Kind::name:
      return 6;
    case Completion::Kind::unit:
      return 11;
    case Completion::Kind::mark:
      return 18;
    case Completion::Kind::rule:
      return 20;
    default:
      return 14;
  }
}

JsonValue symbol_json(const OutlineEntry& entry, Ruler& ruler) {
  JsonValue parts = JsonValue::array();
  for (const OutlineEntry& part : entry.parts) parts.push_back(symbol_json(part, ruler));
  JsonValue symbol = {{"name", entry.name},
                      {"kind", symbol_kind(entry.kind)},
                      {"range", ruler.range(entry.whole)},
                      {"selectionRange", ruler.range(entry.named)},
                      {"children", std::move(parts)}};
  if (!entry.detail.empty()) symbol["detail"] = entry.detail;
  return symbol;
}

void add_flat(const OutlineEntry& entry, const std::string& within, const std::string& uri, Ruler& ruler,
              JsonValue& list) {
  JsonValue symbol = {{"name", entry.name},
                      {"kind", symbol_kind(entry.kind)},
                      {"location", {{"uri", uri}, {"range", ruler.range(entry.whole)}}}};
  if (!within.empty()) symbol["containerName"] = within;
  list.push_back(std::move(symbol));
  for (const OutlineEntry& part : entry.parts) add_flat(part, entry.name, uri, ruler, list);
}

std::map<std::int32_t, std::string> paths_of(const Compiled& compiled, const std::string& own) {
  std::map<std::int32_t, std::string> paths;
  for (const GatheredFile& file : compiled.gathered().files) paths[file.tree.file] = file.canonical;
  paths[compiled.own()] = own;
  return paths;
}

// DiagnosticSeverity of the protocol. What is waived is only hinted at.
int severity_number(const Told& told) {
  if (told.waived) return 4;
  switch (told.severity) {
    case Severity::error:
      return 1;
    case Severity::warning:
      return 2;
    case Severity::remark:
      return 3;
  }
  return 3;
}

bool same_edits(const std::vector<TextEdit>& some, const std::vector<TextEdit>& others) {
  return std::ranges::equal(some, others, [](const TextEdit& one, const TextEdit& other) {
    return one.where == other.where && one.text == other.text;
  });
}

}  // namespace

JsonValue definition(const ReadFiles& read, Caret caret, const Manner& manner) {
  JsonValue list = JsonValue::array();
  const auto mention = mention_at(read, offset_of(read, caret, manner));
  if (!mention) return list;
  Ruler ruler(read.sources, manner);
  for (const Mention& place : places_of(read, *mention)) {
    if (place.declares) list.push_back(location(read, place.span, ruler, manner));
  }
  return list;
}

JsonValue references(const ReadFiles& read, Caret caret, bool with_declaration, const Manner& manner) {
  JsonValue list = JsonValue::array();
  const auto mention = mention_at(read, offset_of(read, caret, manner));
  if (!mention) return list;
  Ruler ruler(read.sources, manner);
  for (const Mention& place : places_of(read, *mention)) {
    if (with_declaration || !place.declares) list.push_back(location(read, place.span, ruler, manner));
  }
  return list;
}

JsonValue rename_place(const ReadFiles& read, Caret caret, const Manner& manner) {
  const auto mention = mention_at(read, offset_of(read, caret, manner));
  if (!mention) return nullptr;
  return {{"range", Ruler(read.sources, manner).range(mention->span)}, {"placeholder", mention->name}};
}

std::variant<JsonValue, std::string> rename(const ReadFiles& read, Caret caret, const std::string& name,
                                            const Manner& manner) {
  const auto made = renamed(read, offset_of(read, caret, manner), name);
  if (const auto* refused = std::get_if<NotRenamed>(&made)) return refused->reason;
  std::map<std::int32_t, std::string> paths;
  for (const GatheredFile& file : read.gathered.files) paths[file.tree.file] = file.canonical;
  return workspace_edit(read.sources, paths, std::get<std::vector<TextEdit>>(made), manner);
}

JsonValue outline(const ReadFiles& read, const std::string& uri, const Manner& manner) {
  Ruler ruler(read.sources, manner);
  JsonValue list = JsonValue::array();
  for (const OutlineEntry& entry : outline_of_file(read)) {
    if (manner.outline_in_levels) {
      list.push_back(symbol_json(entry, ruler));
    } else {
      add_flat(entry, "", uri, ruler, list);
    }
  }
  return list;
}

JsonValue completion(const ReadFiles& read, Caret caret, const Manner& manner) {
  const std::uint32_t offset = offset_of(read, caret, manner);
  const Completions found = completions_at(read, offset);
  const JsonValue range = Ruler(read.sources, manner).range({read.tree().file, found.begin, offset});
  JsonValue items = JsonValue::array();
  for (const Completion& one : found.all) {
    const std::string order = std::to_string(10000 + items.size());
    JsonValue item = {{"label", one.text},
                      {"kind", completion_kind(one.kind)},
                      {"sortText", order},
                      {"filterText", one.text},
                      {"textEdit", {{"range", range}, {"newText", one.text}}}};
    if (!one.about.empty()) item["detail"] = one.about;
    items.push_back(std::move(item));
  }
  return {{"isIncomplete", false}, {"items", std::move(items)}};
}

std::variant<JsonValue, std::string> tidying(const std::string& text, const Manner& manner) {
  SourceSet sources;
  const std::int32_t file = sources.add(SourceFile("", text));
  const Tidied tidied = tidy(sources, file);
  if (!tidied.refusal.empty()) return "the file stays as it is: " + tidied.refusal + "; that is a fault of the program";
  const TextLines lines(text, manner.columns);
  JsonValue edits = JsonValue::array();
  std::uint32_t begin = 0;
  for (const LineChange& change : tidied.lines) {
    const std::size_t feed = text.find('\n', begin);
    const auto end = static_cast<std::uint32_t>(feed == std::string::npos ? text.size() : feed + 1);
    std::string made = change.before;
    for (const std::string& line : change.after) made += line;
    if (made != std::string_view(text).substr(begin, end - begin))
      edits.push_back({{"range", to_json(lines.range(begin, end))}, {"newText", made}});
    begin = end;
  }
  return edits;
}

JsonValue hover(const Compiled& compiled, Caret caret, const Manner& manner) {
  if (compiled.own() < 0) return nullptr;
  const TextLines lines(compiled.sources().file(compiled.own()).bytes(), manner.columns);
  const int line = compiled.sources().file(compiled.own()).position(lines.offset(caret)).line;
  const std::string words = compiled.told_of(line);
  const std::string value = manner.markdown ? "```text\n" + words + "```" : words;
  return {{"contents", {{"kind", manner.markdown ? "markdown" : "plaintext"}, {"value", value}}}};
}

JsonValue lengths(const Compiled& compiled, const CaretRange& within, const Manner& manner) {
  JsonValue list = JsonValue::array();
  if (compiled.own() < 0) return list;
  const TextLines lines(compiled.sources().file(compiled.own()).bytes(), manner.columns);
  for (const LengthNote& note : length_notes(compiled.plan(), compiled.own())) {
    const Caret at = lines.caret(note.at);
    if (at < within.begin || within.end < at) continue;
    list.push_back({{"position", to_json(at)}, {"label", note.words}, {"paddingLeft", true}});
  }
  return list;
}

std::pair<int, int> lines_within(const Compiled& compiled, const CaretRange& within, const Manner& manner) {
  if (compiled.own() < 0) return {1, 0};
  const TextLines lines(compiled.sources().file(compiled.own()).bytes(), manner.columns);
  const SourceFile& file = compiled.sources().file(compiled.own());
  return {file.position(lines.offset(within.begin)).line, file.position(lines.offset(within.end)).line};
}

JsonValue repairs(const Compiled& compiled, const CaretRange& within, const std::vector<WayFound>& ways,
                  const std::string& path, const Manner& manner) {
  JsonValue list = JsonValue::array();
  if (compiled.own() < 0) return list;
  const auto [first, last] = lines_within(compiled, within, manner);
  const std::map<std::int32_t, std::string> paths = paths_of(compiled, path);
  std::vector<std::vector<TextEdit>> offered;
  const auto offer = [&](const std::string& title, const std::vector<TextEdit>& edits, bool preferred) {
    if (std::ranges::any_of(offered, [&](const auto& other) { return same_edits(edits, other); })) return;
    offered.push_back(edits);
    JsonValue action = {{"title", printable(title)},
                        {"kind", "quickfix"},
                        {"edit", workspace_edit(compiled.sources(), paths, edits, manner)}};
    if (preferred) action["isPreferred"] = true;
    list.push_back(std::move(action));
  };
  for (const Finding& finding : compiled.findings().all()) {
    if (finding.where.file != compiled.own()) continue;
    const int begin = compiled.sources().begin_of(finding.where).line,
              end = compiled.sources().end_of(finding.where).line;
    if (end < first || last < begin) continue;
    for (const Repair& repair : finding.repairs) {
      const bool blank = repair.kind == Repair::Kind::fill_in;
      offer(repair.offer + (blank ? ", and fill in the blank" : ""), repair.edits, repair.kind == Repair::Kind::safe);
    }
  }
  for (const WayFound& way : ways) offer(way.title, way.edits, false);
  return list;
}

JsonValue diagnostic(const Told& told, const std::function<CaretRange(const ToldPlace&)>& range, const Manner& manner) {
  JsonValue json = {{"range", to_json(range(told.where))},
                    {"severity", severity_number(told)},
                    {"code", told.rule},
                    {"source", "lensward"},
                    {"message", printable_lines(told.message + '\n')}};
  json["message"].get_ref<std::string&>().pop_back();
  if (told.labels.empty()) return json;
  JsonValue more = JsonValue::array();
  for (const ToldLabel& label : told.labels) {
    more.push_back({{"location", {{"uri", manner.uri(label.where.path)}, {"range", to_json(range(label.where))}}},
                    {"message", printable(label.words)}});
  }
  json["relatedInformation"] = std::move(more);
  return json;
}

}  // namespace lensward
