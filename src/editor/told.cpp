#include "editor/told.h"

#include <algorithm>
#include <map>

namespace lensward {
namespace {

std::map<std::int32_t, std::string> paths_of(const Gathered& gathered, std::int32_t own, const std::string& own_path) {
  std::map<std::int32_t, std::string> paths;
  for (const GatheredFile& file : gathered.files) paths[file.tree.file] = file.canonical;
  paths[own] = own_path;
  return paths;
}

std::string whole_message(const Finding& finding) {
  std::string message = finding.message;
  if (!finding.on_set.empty()) message += "\nwhy: " + finding.on_set;
  if (!finding.next_step.empty()) message += "\nnext: " + finding.next_step;
  if (finding.waived_because) message += "\nwaived, because " + *finding.waived_because;
  return message;
}

std::uint32_t moved(std::uint32_t at, const Replaced& change) {
  if (at <= change.begin) return at;
  if (at >= change.end) return at - change.end + change.begin + change.length;
  return std::min(at, change.begin + change.length);
}

// What is put in just before the words is not theirs, nor what is put in just behind them.
void move(const Replaced& change, ToldPlace& place) {
  if (place.path != change.path) return;
  const bool put_in_before = change.begin == change.end && change.begin == place.begin;
  place.begin = put_in_before ? place.begin + change.length : moved(place.begin, change);
  place.end = std::max(place.begin, moved(place.end, change));
}

}  // namespace

std::vector<Told> told_of(const Findings& findings, const Gathered& gathered, std::int32_t own,
                          const std::string& own_path) {
  const std::map<std::int32_t, std::string> paths = paths_of(gathered, own, own_path);
  const auto place = [&](Span span) { return ToldPlace{paths.at(span.file), span.begin, span.end}; };
  std::vector<Told> all;
  for (const Finding& finding : findings.all()) {
    Told told{finding.rule,         finding.severity,       finding.waived_because.has_value(),
              place(finding.where), whole_message(finding), {}};
    for (const Label& label : finding.labels) told.labels.push_back({place(label.where), label.words});
    all.push_back(std::move(told));
  }
  return all;
}

std::vector<Told> told_of(const Compiled& compiled, const std::string& own_path) {
  if (compiled.trouble().empty()) return told_of(compiled.findings(), compiled.gathered(), compiled.own(), own_path);
  return {{"file", Severity::error, false, {own_path, 0, 0}, "cannot read this file: " + compiled.trouble(), {}}};
}

bool will_stand(const Told& told, Ahead ahead) {
  // Whether a waiver is stale is only known when there is nothing left for it to excuse.
  if (ahead == Ahead::marks) return told.rule != "stale-waiver";
  // Of what stands before the rules, only errors and warnings can be neither waived nor treated: see rules/waivers.h.
  return told.severity != Severity::remark && told.rule.find('.') != std::string::npos;
}

void move_with(const Replaced& change, std::vector<Told>& all) {
  for (Told& told : all) {
    move(change, told.where);
    for (ToldLabel& label : told.labels) move(change, label.where);
  }
}

Replaced difference(const std::string& path, const std::string& old_text, const std::string& new_text) {
  const auto ahead = std::ranges::mismatch(old_text, new_text);
  const auto same_ahead = static_cast<std::size_t>(ahead.in1 - old_text.begin());
  const std::size_t most = std::min(old_text.size(), new_text.size()) - same_ahead;
  std::size_t behind = 0;
  while (behind < most && old_text[old_text.size() - 1 - behind] == new_text[new_text.size() - 1 - behind]) ++behind;
  return {path, static_cast<std::uint32_t>(same_ahead), static_cast<std::uint32_t>(old_text.size() - behind),
          static_cast<std::uint32_t>(new_text.size() - same_ahead - behind)};
}

}  // namespace lensward
