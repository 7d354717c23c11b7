// The manual: every rule has a page, and docs/rules.md is the manual as it stands. LENSWARD_UPDATE=1 rewrites it.
#include "rules/pages.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include "plan/make_plan.h"
#include "syntax/parse.h"

using namespace lensward;

namespace {

const std::string document_path = std::string(LENSWARD_TESTS_DIR) + "/../docs/rules.md";

std::string read_whole(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream whole;
  whole << in.rdbuf();
  return whole.str();
}

}  // namespace

TEST_CASE("every rule has its own name and a page that opens with it") {
  std::set<std::string> names;
  for (const RuleEntry& entry : all_rules()) {
    INFO(entry.id);
    CHECK(names.insert(std::string(entry.id)).second);
    CHECK_FALSE(entry.says.empty());
    const std::optional<std::string> page = rule_page(entry.id);
    REQUIRE(page.has_value());
    CHECK(page->rfind(std::string(entry.id) + " (", 0) == 0);
  }
}

// The plan reads `treat` lines before there are rules, by a list of its own.
TEST_CASE("every rule can be treated, and nothing else by such a name") {
  std::string text = "staging 1.0 scene\nscene Shed\n";
  std::size_t count = 0;
  for (const RuleEntry& entry : all_rules()) {
    // No key has a figure in it, and an error of reading cannot be treated.
    if (entry.id == "parse.not-utf8") continue;
    text += "treat " + std::string(entry.id) + " as remark\n";
    ++count;
  }
  text += "treat weak-cuts as remark\n";
  SourceSet sources;
  Findings findings;
  const std::int32_t file = sources.add(SourceFile("shed.staging", text));
  const Tree tree = parse(sources, file, findings);
  const Plan plan = make_plan(sources, read_script(sources, tree, findings), findings);
  std::vector<std::string> unknown;
  for (const Finding& finding : findings.all()) {
    if (finding.rule == "name.unknown-rule") unknown.push_back(finding.message);
  }
  CHECK(unknown == std::vector<std::string>{"no rule is called `weak-cuts`, so this line does nothing"});
  CHECK(plan.settings.treat.size() == count);
}

TEST_CASE("a rule checked here says what it sees, why, by what example, and whence its threshold") {
  static const std::vector<const char*> checked_here{
#define RULE(symbol, id, severity, waivable, line) id,
#include "rules/rules.def"
#undef RULE
  };
  for (const char* id : checked_here) {
    const std::string page = *rule_page(id);
    INFO(page);
    for (const char* part : {"Sees: ", "Why: ", "For example:", "Better:", "Threshold: "}) {
      CHECK(page.find(part) != std::string::npos);
    }
  }
}

// A rule that gets its case leaves this list; none may join it.
TEST_CASE("every rule checked here fires in a case; those that still want one are named") {
  std::string cases;
  for (const auto& entry :
       std::filesystem::recursive_directory_iterator(std::string(LENSWARD_TESTS_DIR) + "/cases/rules")) {
    if (entry.path().extension() == ".staging") cases += read_whole(entry.path().string());
  }
  std::set<std::string> without_case;
  for (const char* id : {
#define RULE(symbol, id, severity, waivable, line) id,
#include "rules/rules.def"
#undef RULE
       }) {
    if (cases.find("[" + std::string(id) + "]: ") == std::string::npos) without_case.insert(id);
  }
  CHECK(without_case == std::set<std::string>{});
}

TEST_CASE("names are hyphenated small letters, and read well after `waive`") {
  for (const RuleEntry& entry : all_rules()) {
    INFO(entry.id);
    CHECK(entry.id.find_first_not_of("abcdefghijklmnopqrstuvwxyz-.8") == std::string_view::npos);
  }
}

TEST_CASE("nothing is known of a rule that does not exist") {
  CHECK_FALSE(rule_page("blurry-badger").has_value());
  CHECK_FALSE(rule_page("").has_value());
}

TEST_CASE("docs/rules.md is the manual as it stands") {
  if (std::getenv("LENSWARD_UPDATE") != nullptr) std::ofstream(document_path, std::ios::binary) << rules_document();
  CHECK(read_whole(document_path) == rules_document());
}

TEST_CASE("the manual never speaks of shares of viewers, and calls nothing safe") {
  const std::string document = rules_document();
  for (const char* words : {"% of the audience", "viewers will", "is safe", "are safe"}) {
    CHECK(document.find(words) == std::string::npos);
  }
}

TEST_CASE("every rule that the sources name with a family has a page") {
  const std::regex named("\"((parse|name|unit|time|place)\\.[a-z0-9-]+)\"");
  int found = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(std::string(LENSWARD_TESTS_DIR) + "/../src")) {
    if (entry.path().extension() != ".cpp") continue;
    const std::string text = read_whole(entry.path().string());
    for (std::sregex_iterator hit(text.begin(), text.end(), named); hit != std::sregex_iterator(); ++hit) {
      INFO((*hit)[1].str() << " in " << entry.path().string());
      CHECK(rule_page((*hit)[1].str()).has_value());
      ++found;
    }
  }
  CHECK(found > 0);
}
