#include "syntax/opening_words.h"

#include <algorithm>
#include <utility>

namespace lensward {
namespace {

struct Handle {
  std::string_view text;
  std::size_t statement;
};

std::string_view first_of(const Handle& handle) { return handle.text; }

using Range = std::pair<std::size_t, std::size_t>;

// Handles sorted by their text, so that all that begin alike stand together.
class Handles {
 public:
  void add(std::string_view text, std::size_t statement) { all_.push_back({text, statement}); }
  void sort() {
    std::ranges::stable_sort(all_, {}, first_of);
    called_.assign(all_.size() + 1, 0);
    unclear_ = called_;
  }

  // Those that begin with the words, or are the words.
  Range find(std::string_view words, bool whole) const {
    const auto first = std::ranges::lower_bound(all_, words, {}, first_of);
    const auto fits = [&](const Handle& handle) {
      return whole ? handle.text == words : handle.text.starts_with(words);
    };
    const auto last = std::partition_point(first, all_.end(), fits);
    return {first - all_.begin(), last - all_.begin()};
  }

  std::size_t statement(Range range) const { return all_[range.first].statement; }

  void call(Range range, bool unclear) {
    count(range, called_);
    if (unclear) count(range, unclear_);
  }

  void mark(std::vector<bool>& called, std::vector<bool>& unclear) const {
    int calls = 0;
    int unclear_calls = 0;
    for (std::size_t i = 0; i < all_.size(); ++i) {
      calls += called_[i];
      unclear_calls += unclear_[i];
      if (calls > 0) called[all_[i].statement] = true;
      if (unclear_calls > 0) unclear[all_[i].statement] = true;
    }
  }

 private:
  static void count(Range range, std::vector<int>& changes) {
    ++changes[range.first];
    --changes[range.second];
  }

  std::vector<Handle> all_;
  std::vector<int> called_, unclear_;  // how many more such calls begin than end here
};

const Clauses* clauses_of(const Statement& statement) {
  if (const auto* speech = std::get_if<SpeechLine>(&statement.body)) return &speech->clauses;
  if (const auto* deed = std::get_if<DeedLine>(&statement.body)) return &deed->clauses;
  return nullptr;
}

std::string_view label_of(const Statement& statement) {
  const Clauses* clauses = clauses_of(statement);
  if (clauses == nullptr) return {};
  for (const Clause& clause : *clauses) {
    const auto* label = std::get_if<LabelClause>(&clause.body);
    if (label != nullptr && label->kind == LabelClause::Kind::named) return label->name.text;
  }
  return {};
}

// The words between quotation marks, whatever the pair.
std::string_view unquoted(std::string_view words) {
  for (const std::string_view mark : {"\"", "“", "«", "「"}) {
    if (words.starts_with(mark) && words.size() >= 2 * mark.size()) {
      return words.substr(mark.size(), words.size() - 2 * mark.size());
    }
  }
  return {};
}

}  // namespace

OpeningWords::OpeningWords(std::string_view bytes, const Script& script) {
  const auto is_change = [](const Statement& statement) { return std::holds_alternative<ChangeLine>(statement.body); };
  if (std::ranges::none_of(script.statements, is_change)) return;
  Handles texts, labels, spoken;
  for (std::size_t i = 0; i < script.statements.size(); ++i) {
    const Statement& statement = script.statements[i];
    texts.add(bytes.substr(statement.span.begin, statement.span.end - statement.span.begin), i);
    if (const std::string_view label = label_of(statement); !label.empty()) labels.add(label, i);
    const auto* speech = std::get_if<SpeechLine>(&statement.body);
    if (speech == nullptr) continue;
    for (const SpeechPart& part : speech->parts) {
      if (part.kind == SpeechPart::Kind::words) spoken.add(part.words, i);
    }
  }
  for (Handles* handles : {&texts, &labels, &spoken}) handles->sort();
  for (const Statement& statement : script.statements) {
    const auto* change = std::get_if<ChangeLine>(&statement.body);
    if (change == nullptr) continue;
    const std::string_view words = change->opening_words.words;
    const std::string_view quoted = unquoted(words);
    const std::pair<Handles*, Range> ranges[] = {{&texts, texts.find(words, false)},
                                                 {&labels, labels.find(words, true)},
                                                 {&spoken, quoted.empty() ? Range{} : spoken.find(quoted, false)}};
    CalledLines called;
    for (const auto& [handles, range] : ranges) {
      if (range.first == range.second) continue;
      if (called.count == 0) called.statement = handles->statement(range);
      called.by_text = called.by_text || handles == &texts;
      called.count += range.second - range.first;
    }
    const bool unclear =
        called.count != 1 || std::holds_alternative<BrokenLine>(script.statements[called.statement].body);
    for (const auto& [handles, range] : ranges) handles->call(range, unclear);
    called_.push_back(called);
  }
  pinned_.assign(script.statements.size(), false);
  unclear_ = pinned_;
  for (const Handles* handles : {&texts, &labels, &spoken}) handles->mark(pinned_, unclear_);
}

}  // namespace lensward
