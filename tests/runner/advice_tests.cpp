// Takes the program at its word: every line that a finding proposes in backticks is written where the text says, and
// the scene is compiled again. It must read, name and place with no new error. One that asks for the place of a move
// that stands there already is counted apart: the writer chooses which of the two goes. Proposals that are no whole
// line are passed over.
//   advice_tests [--all] FOLDERS …     --all prints what each proposal brought about
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "case_file.h"
#include "cli/pipeline.h"

namespace fs = std::filesystem;
using namespace lensward;

namespace {

const std::set<std::string>& told_by_rules() {
  static const std::set<std::string> names{
#define RULE(symbol, id, severity, waivable, line) id,
#include "rules/rules.def"
#undef RULE
  };
  return names;
}

enum class Place { above, below, heading, opening, same_line };

struct Proposal {
  std::string line;
  Place place = Place::below;
};

bool begins(std::string_view text, std::string_view with) { return text.substr(0, with.size()) == with; }

std::vector<std::string> words_of(std::string_view line) {
  std::vector<std::string> words;
  std::string word;
  for (const char letter : line) {
    if (letter == ' ' || letter == ',') {
      if (!word.empty()) words.push_back(word);
      word.clear();
    } else {
      word += letter;
    }
  }
  if (!word.empty()) words.push_back(word);
  return words;
}

// `light Key, aims at Oda` declares; `light Key aims at Oda` is done in a beat.
bool declares(const std::string& line) {
  const std::size_t comma = line.find(',');
  const bool named = comma != std::string::npos && words_of(line.substr(0, comma)).size() == 2;
  return named &&
         (begins(line, "light ") || begins(line, "furniture ") || begins(line, "person ") || begins(line, "camera "));
}

Place where_told(std::string_view before, const std::string& line) {
  if (before.find("above it ") != std::string_view::npos) return Place::above;
  if (before.find("in the opening") != std::string_view::npos) return Place::opening;
  if (before.find("on the line of ") != std::string_view::npos) return Place::same_line;
  return declares(line) ? Place::heading : Place::below;
}

// The words that offer a line, and not a name or part of one.
bool offers_line(std::string_view before) {
  for (const char* words :
       {"try ", "in the opening: ", "or ", ": ", "write ", "under the line ", "above it ", "write above it "}) {
    const std::string_view end = words;
    if (before.size() >= end.size() && before.substr(before.size() - end.size()) == end) return true;
  }
  return false;
}

bool is_line(const std::string& line) {
  return words_of(line).size() > 2 && line.find("…") == std::string::npos && !begins(line, "at ") &&
         !begins(line, "to ") && !begins(line, "about ") && !begins(line, "over ") && !begins(line, "gives ") &&
         !begins(line, "because ") && !begins(line, "on ") && !begins(line, "lasts ") && !begins(line, "measures ") &&
         !begins(line, "width ") && !begins(line, "staging ") && !begins(line, "beat") && !begins(line, "way ") &&
         !begins(line, "scene ") && line.find("NAME") == std::string::npos && !begins(line, "tracks ") &&
         !begins(line, "later ");
}

std::vector<Proposal> proposals_of(const std::string& text) {
  std::vector<Proposal> proposals;
  for (std::size_t open = text.find('`'); open != std::string::npos;) {
    const std::size_t close = text.find('`', open + 1);
    if (close == std::string::npos) break;
    const std::string line = text.substr(open + 1, close - open - 1);
    const std::string_view before = std::string_view(text).substr(0, open);
    if (offers_line(before) && is_line(line)) proposals.push_back({line, where_told(before, line)});
    open = text.find('`', close + 1);
  }
  return proposals;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines(1);
  for (const char letter : text) {
    if (letter == '\n')
      lines.emplace_back();
    else
      lines.back() += letter;
  }
  return lines;
}

std::string indent_of(const std::string& line) { return line.substr(0, line.find_first_not_of(' ')); }

// A declaration stands above the opening or the first beat.
void into_heading(std::vector<std::string>& lines, const std::string& line) {
  const auto first = std::find_if(lines.begin(), lines.end(), [](const std::string& other) {
    return begins(other, "opening") || begins(other, "beat ");
  });
  lines.insert(first, line);
}

std::string with_proposal(const std::string& text, const Proposal& proposal, int at) {
  std::vector<std::string> lines = lines_of(text);
  const auto told = lines.begin() + std::clamp<std::ptrdiff_t>(at - 1, 0, std::ssize(lines) - 1);
  const std::string indent = begins(*told, "beat ") ? "  " : indent_of(*told);
  switch (proposal.place) {
    case Place::heading:
      into_heading(lines, proposal.line);
      break;
    case Place::above:
      lines.insert(told, indent + proposal.line);
      break;
    case Place::below: {
      // Words that go on below the line belong to it.
      auto after = told + 1;
      while (after != lines.end() && after->find_first_not_of(' ') != std::string::npos &&
             (*after)[after->find_first_not_of(' ')] == '"') {
        ++after;
      }
      lines.insert(after, indent + proposal.line);
      break;
    }
    case Place::opening: {
      const auto first = std::find_if(lines.begin(), lines.end(), [](const std::string& other) {
        return begins(other, "opening") || begins(other, "beat ");
      });
      lines.insert(first == lines.end() ? first : first + 1, "  " + proposal.line);
      break;
    }
    case Place::same_line:
      *told = told->substr(0, told->find(" --")) + ", " + proposal.line;
      break;
  }
  std::string whole;
  for (std::size_t i = 0; i < lines.size(); ++i) whole += (i > 0 ? "\n" : "") + lines[i];
  return whole;
}

using Errors = std::map<std::string, int>;

std::string key_of(const Finding& finding) { return finding.rule + ": " + finding.message; }

// Errors of reading and planning; those of staging are of the rules.
Errors errors_of(const Run& run) {
  Errors errors;
  for (const Finding& finding : run.findings.all()) {
    if (finding.severity == Severity::error && told_by_rules().count(finding.rule) == 0) ++errors[key_of(finding)];
  }
  return errors;
}

std::vector<std::string> new_errors(const Errors& before, const Run& after) {
  std::vector<std::string> fresh;
  for (const auto& [error, times] : errors_of(after)) {
    const auto old = before.find(error);
    if (old == before.end() || old->second < times) fresh.push_back(error);
  }
  return fresh;
}

bool still_told(const Finding& finding, const Run& after) {
  return std::any_of(after.findings.all().begin(), after.findings.all().end(), [&](const Finding& other) {
    return other.rule == finding.rule && other.message == finding.message;
  });
}

struct Count {
  int tried = 0, refused = 0, clashing = 0, idle = 0;
};

void try_findings(const std::string& name, const std::string& text, bool all, Count& count) {
  Run run;
  compile(name, text, Until::rules, run);
  const Errors before = errors_of(run);
  std::set<std::string> seen;
  for (const Finding& finding : run.findings.all()) {
    const int line = run.sources.begin_of(finding.where).line;
    for (const Proposal& proposal : proposals_of(finding.next_step)) {
      if (!seen.insert(std::to_string(line) + proposal.line).second) continue;
      Run after;
      compile(name, with_proposal(text, proposal, line), all ? Until::rules : Until::plan, after);
      ++count.tried;
      const std::vector<std::string> fresh = new_errors(before, after);
      const bool idle = all && still_told(finding, after);
      const bool clash =
          std::ranges::all_of(fresh, [](const std::string& one) { return begins(one, "time.lane-clash"); });
      if (!fresh.empty()) ++(clash ? count.clashing : count.refused);
      if (fresh.empty() && idle) ++count.idle;
      if (fresh.empty() && !idle) continue;
      std::printf("%s:%d [%s] `%s`: %s\n", name.c_str(), line, finding.rule.c_str(), proposal.line.c_str(),
                  fresh.empty() ? "changes nothing of the finding" : fresh.front().c_str());
    }
  }
}

}  // namespace

int main(int count, char** arguments) {
  bool all = false;
  std::vector<fs::path> files;
  for (int i = 1; i < count; ++i) {
    if (std::string_view(arguments[i]) == "--all") {
      all = true;
      continue;
    }
    for (const auto& entry : fs::recursive_directory_iterator(arguments[i])) {
      if (entry.path().extension() == ".staging") files.push_back(entry.path());
    }
  }
  std::ranges::sort(files);
  Count total;
  for (const fs::path& path : files) {
    const auto file = test::read_case(path.string());
    if (file) try_findings(file->name, file->source(), all, total);
  }
  std::printf("%d proposals tried, %d refused, %d clash with another move, %d change nothing\n", total.tried,
              total.refused, total.clashing, total.idle);
  return total.refused > 0 || total.tried == 0 ? 1 : 0;
}
