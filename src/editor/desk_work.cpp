// What the desk has worked out by others, and what it shows of it.
#include <algorithm>
#include <iterator>
#include <string_view>
#include <tuple>

#include "editor/desk.h"

namespace lensward {
namespace {

// One finding at one place is the same, whichever check told it.
using ToldKey = std::tuple<std::string_view, std::uint32_t, std::uint32_t, std::string_view, std::string_view>;
ToldKey key_of(const Told& told) {
  return {told.where.path, told.where.begin, told.where.end, told.rule, told.message};
}

std::vector<Told> without(const std::vector<Told>& all, const std::vector<Told>& others) {
  std::set<ToldKey> known;
  for (const Told& told : others) known.insert(key_of(told));
  std::vector<Told> left;
  std::ranges::copy_if(all, std::back_inserter(left), [&](const Told& told) { return !known.contains(key_of(told)); });
  return left;
}

}  // namespace

// ---- Work ---------------------------------------------------------------------------------------------------------

Work Desk::work_of(const Document& document) const {
  Work work{document.uri, document.path, document.known_as, texts(), document.edition, document.unwanted};
  if (document.path == "-") work.texts["-"] = document.text;
  return work;
}

std::optional<ReadFiles> Desk::read(const Document& document) {
  const Work work = work_of(document);
  StandInHost open_files(host_, work.texts);
  std::optional<ReadFiles> files = read_files(open_files, work.path);
  if (files) files->gathered.files[static_cast<std::size_t>(files->own)].canonical = document.known_as;
  return files;
}

bool Desk::wants_early() const {
  const auto latest = documents_.find(latest_);
  return latest != documents_.end() && latest->second.early_wanted;
}

bool Desk::wants_check() const {
  return std::ranges::any_of(documents_, [](const auto& entry) { return entry.second.check_wanted; });
}

std::optional<Work> Desk::next_early() {
  Document* next = document_of(latest_);
  if (next == nullptr || !next->early_wanted) return std::nullopt;
  next->early_wanted = false;
  return work_of(*next);
}

// What was typed in last is what somebody looks at.
std::optional<Work> Desk::next_check() {
  Document* next = document_of(latest_);
  if (next == nullptr || !next->check_wanted) {
    const auto found = std::ranges::find_if(documents_, [](const auto& entry) { return entry.second.check_wanted; });
    if (found == documents_.end()) return std::nullopt;
    next = &found->second;
  }
  next->check_wanted = next->early_wanted = false;
  return work_of(*next);
}

std::optional<WaysWork> Desk::next_ways() {
  if (ways_asked_.empty()) return std::nullopt;
  WaysWork work = std::move(ways_asked_.front());
  ways_asked_.erase(ways_asked_.begin());
  return work;
}

void Desk::give_up() {
  for (auto& [uri, document] : documents_) {
    if (document.unwanted) *document.unwanted = true;
  }
  for (auto& [id, working] : ways_working_) *working.first.work.unwanted = true;
}

// Until the rest is found, what the last whole check found of that kind stays.
void Desk::take_ahead(const Work& work, Ahead ahead, std::vector<Told> told) {
  Document* document = document_of(work.uri);
  if (document == nullptr || document->edition != work.edition || document->compiled_edition == work.edition) return;
  std::erase_if(told, [&](const Told& one) { return !will_stand(one, ahead); });
  document->found_ahead[ahead] = told;
  // Of the marks comes later and is more.
  if (ahead == Ahead::text && document->found_ahead.contains(Ahead::marks)) return;
  document->told = told;
  std::ranges::copy(without(document->found_after_all[ahead], told), std::back_inserter(document->told));
  document->shown = true;
  publish();
}

void Desk::take_checked(const Work& work, const CompiledFile& compiled) {
  Document* document = document_of(work.uri);
  if (document == nullptr || document->edition != work.edition) return;
  document->told = told_of(*compiled, document->known_as);
  for (const Ahead ahead : {Ahead::text, Ahead::marks}) {
    const auto found = document->found_ahead.find(ahead);
    std::vector<Told> left = document->told;
    if (found != document->found_ahead.end()) {
      left = without(document->told, found->second);
    } else {
      std::erase_if(left, [&](const Told& one) { return will_stand(one, ahead); });
    }
    document->found_after_all[ahead] = std::move(left);
  }
  document->shown = true;
  document->compiled_edition = work.edition;
  document->compiled = compiled;
  document->made_of.clear();
  for (const GatheredFile& file : compiled->gathered().files) document->made_of.insert(file.canonical);
  publish();
  for (const Asked& asked : std::exchange(document->waiting, {})) {
    try {
      answer_from_made(asked, *document);
    } catch (const JsonValue::exception& fault) {
      refuse(asked.id, Fault::invalid_params, "the parameters of " + asked.method + " cannot be read: " + fault.what());
    }
  }
}

void Desk::take_ways(const WaysWork& work, const std::vector<WayFound>& ways) {
  const auto working = ways_working_.find(work.id.dump());
  if (working == ways_working_.end() || working->second.first.work.unwanted != work.work.unwanted) return;
  const Asked asked = working->second.second;
  ways_working_.erase(working);
  Document* document = document_of(work.work.uri);
  if (document == nullptr || document->edition != work.work.edition)
    return refuse(asked.id, Fault::content_modified, "the text was changed before the ways out were found");
  answer_repairs(asked, *document, ways);
}

// ---- Findings -----------------------------------------------------------------------------------------------------

// Of a file that is not open the text it was last read with.
std::optional<std::string> Desk::text_known(const std::string& path) {
  if (const Document* document = document_known_as(path)) return *document->text;
  for (const auto& [uri, document] : documents_) {
    if (!document.compiled) continue;
    for (const GatheredFile& file : document.compiled->gathered().files) {
      if (file.canonical == path) return std::string(document.compiled->sources().file(file.tree.file).bytes());
    }
  }
  return std::nullopt;
}

// What the file's own check finds in it comes first, then what other open files find there.
JsonValue Desk::diagnostics_of(const std::string& path) {
  std::vector<const Told*> all;
  std::set<ToldKey> known;
  const auto add = [&](const Document& document) {
    for (const Told& told : document.told) {
      if (told.where.path == path && known.insert(key_of(told)).second) all.push_back(&told);
    }
  };
  if (const Document* own = document_known_as(path)) add(*own);
  for (const auto& [uri, document] : documents_) add(document);
  std::ranges::stable_sort(all, {}, [](const Told* told) { return told->where.begin; });
  std::map<std::string, std::pair<std::string, std::optional<TextLines>>> texts;
  const auto range = [&](const ToldPlace& place) {
    auto& [text, lines] = texts[place.path];
    if (!lines) {
      text = text_known(place.path).value_or("");
      lines.emplace(text, manner_.columns);
    }
    return lines->range(place.begin, place.end);
  };
  const Manner now = manner();
  JsonValue list = JsonValue::array();
  for (const Told* told : all) list.push_back(diagnostic(*told, range, now));
  return list;
}

void Desk::publish() {
  std::set<std::string> paths;
  for (const auto& [path, list] : published_) paths.insert(path);
  for (const auto& [uri, document] : documents_) {
    if (document.shown) paths.insert(document.known_as);
    for (const Told& told : document.told) paths.insert(told.where.path);
  }
  for (const std::string& path : paths) {
    JsonValue params = {{"uri", manner().uri(path)}, {"diagnostics", diagnostics_of(path)}};
    const Document* document = document_known_as(path);
    if (document != nullptr && document->version.is_number_integer()) params["version"] = document->version;
    const auto known = published_.find(path);
    if (known != published_.end() && known->second == params) continue;
    if (known == published_.end() && document == nullptr && params["diagnostics"].empty()) continue;
    published_[path] = params;
    if (document == nullptr && params["diagnostics"].empty()) published_.erase(path);
    send(notice("textDocument/publishDiagnostics", std::move(params)));
  }
}

}  // namespace lensward
