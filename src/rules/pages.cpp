#include "rules/pages.h"

#include <algorithm>

#include "rules/rule.h"
#include "syntax/near_miss.h"

namespace lensward {
namespace {

// One sentence of what to do about a finding that an earlier stage reports.
struct ShortPage {
  std::string_view id;
  const char* mend;
};

const std::vector<ShortPage>& short_pages() {
  static const std::vector<ShortPage> all{
#define TOLD(id, severity, line, mend) {id, mend},
#include "rules/told_elsewhere.def"
#undef TOLD
  };
  return all;
}

struct LongPage {
  std::string_view id;
  const ManualPage* page;
};

const std::vector<LongPage>& long_pages() {
  static const std::vector<LongPage> all{
#define RULE(symbol, id, severity, waivable, line) {id, &symbol##_page},
#include "rules/rules.def"
#undef RULE
  };
  return all;
}

template <class Page>
const Page* page_called(const std::vector<Page>& pages, std::string_view id) {
  const auto found = std::find_if(pages.begin(), pages.end(), [id](const Page& page) { return page.id == id; });
  return found == pages.end() ? nullptr : &*found;
}

std::string paragraph(const char* title, const std::string& words) {
  return std::string(title) + ": " + words + "\n\n";
}

std::string block(const char* title, const std::string& lines) {
  std::string text = std::string(title) + ":\n\n    ";
  for (const char letter : lines) text += letter == '\n' ? std::string("\n    ") : std::string(1, letter);
  return text + "\n\n";
}

std::string body_of(const ManualPage& page) {
  return paragraph("Sees", page.sees) + paragraph("Why", page.why) + block("For example", page.example) +
         block("Better", page.better) + "Threshold: " + page.source + "\n";
}

std::string severity_words(const RuleEntry& entry) {
  const bool dotted = entry.id.find('.') != std::string_view::npos;
  const bool may = dotted ? entry.severity == Severity::remark : entry.waivable;
  return std::string(name_of(entry.severity)) + (may ? "" : ", cannot be waived");
}

std::string_view family_of(std::string_view id) {
  const std::size_t dot = id.find('.');
  return dot == std::string_view::npos ? std::string_view{"floor and clock"} : id.substr(0, dot);
}

}  // namespace

const std::vector<RuleEntry>& all_rules() {
  static const std::vector<RuleEntry> all{
#define RULE(symbol, id, severity, waivable, line) {id, Severity::severity, waivable, line},
#include "rules/rules.def"
#undef RULE
#define TOLD(id, severity, line, mend) {id, Severity::severity, true, line},
#include "rules/told_elsewhere.def"
#undef TOLD
  };
  return all;
}

std::optional<std::string> rule_page(std::string_view id) {
  const std::vector<RuleEntry>& all = all_rules();
  const auto entry = std::find_if(all.begin(), all.end(), [id](const RuleEntry& one) { return one.id == id; });
  if (entry == all.end()) return std::nullopt;
  const std::string head = std::string(id) + " (" + severity_words(*entry) + "): " + std::string(entry->says) + "\n\n";
  if (const LongPage* page = page_called(long_pages(), id)) return head + body_of(*page->page);
  return head + page_called(short_pages(), id)->mend + "\n";
}

std::optional<std::string_view> nearest_rule(std::string_view name) {
  std::vector<std::string_view> names;
  for (const RuleEntry& entry : all_rules()) names.push_back(entry.id);
  return nearest(name, names);
}

std::string rules_document() {
  std::string text =
      "# Rules\n\n"
      "Made from the rules themselves by `unit_rules`; do not edit. `lensward explain RULE` prints one page.\n"
      "A close call is a warning at most; so is an intent that fails only by a default. `treat RULE as …` changes a\n"
      "severity, `waive RULE for WHO, because \"…\"` excuses what stands under its heading. Of the rules with a dot "
      "only\n"
      "remarks can be waived.\n\n"
      "| rule | severity | says |\n|---|---|---|\n";
  for (const RuleEntry& entry : all_rules()) {
    text += "| `" + std::string(entry.id) + "` | " + severity_words(entry) + " | " + std::string(entry.says) + " |\n";
  }
  for (const LongPage& page : long_pages()) {
    text += "\n## " + std::string(page.id) + "\n\n" + body_of(*page.page);
  }
  std::string_view family;
  for (const ShortPage& page : short_pages()) {
    if (family_of(page.id) != family) text += "\n## " + std::string(family_of(page.id)) + "\n\n";
    family = family_of(page.id);
    text += "- `" + std::string(page.id) + "`: " + page.mend + "\n";
  }
  return text;
}

}  // namespace lensward
