// Planted slips: each file of a folder holds one mistake that somebody who stages a scene would make. It must be found,
// the finding must say what to do, and doing it must make the finding go away.
//   slip_tests SLIPS [words of a slip's name ...]
//
//   --! slip RULE     the finding the mistake must bring about, anywhere in the file
//   --! next TEXT     its next step, whole; when it stands
//   --! mend TEXT     below the line that is wrong: what the message implies it should be; empty: gone; \n: a new line
//   --! repair        instead of a mend: the finding's own first edit
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>
#include <vector>

#include "cli/pipeline.h"

namespace fs = std::filesystem;
using namespace lensward;

namespace {

constexpr std::string_view slip_word = "--! slip ", next_word = "--! next ", mend_word = "--! mend",
                           repair_word = "--! repair";

struct Slip {
  std::string rule;
  std::optional<std::string> next_step;
  std::vector<std::string> lines;    // without those that begin --!
  std::optional<std::size_t> wrong;  // the line a mend stands below
  std::string mended;
  bool own_repair = false;
};

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

std::string with_line_ends(std::string text) {
  for (std::size_t at = text.find("\\n"); at != std::string::npos; at = text.find("\\n", at)) text.replace(at, 2, "\n");
  return text;
}

Slip read_slip(const fs::path& path) {
  Slip slip;
  std::ifstream in(path, std::ios::binary);
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with(slip_word)) {
      slip.rule = line.substr(slip_word.size());
    } else if (line.starts_with(next_word)) {
      slip.next_step = line.substr(next_word.size());
    } else if (line.starts_with(repair_word)) {
      slip.own_repair = true;
    } else if (line.starts_with(mend_word)) {
      slip.wrong = slip.lines.size() - 1;
      slip.mended = with_line_ends(line.substr(std::min(line.size(), mend_word.size() + 1)));
    } else {
      slip.lines.push_back(line);
    }
  }
  return slip;
}

Findings findings_of(const std::string& text) {
  Run run;
  compile("slip.staging", text, Until::rules, run);
  return run.findings;
}

const Finding* find_rule(const Findings& findings, const std::string& rule) {
  const auto found = std::ranges::find_if(findings.all(), [&](const Finding& one) { return one.rule == rule; });
  return found == findings.all().end() ? nullptr : &*found;
}

std::string edited(std::string text, const Repair& repair) {
  std::vector<TextEdit> edits = repair.edits;
  std::ranges::stable_sort(edits, [](const TextEdit& a, const TextEdit& b) { return a.where.begin > b.where.begin; });
  for (const TextEdit& edit : edits) text.replace(edit.where.begin, edit.where.end - edit.where.begin, edit.text);
  return text;
}

// The text after the edit; nothing, and why not.
std::optional<std::string> mend(const Slip& slip, const Finding& finding, std::string& why_not) {
  if (slip.own_repair) {
    if (!finding.repairs.empty()) return edited(joined(slip.lines), finding.repairs.front());
    why_not = "the finding carries no edit of its own";
    return std::nullopt;
  }
  if (!slip.wrong) {
    why_not = "neither `--! mend` nor `--! repair`";
    return std::nullopt;
  }
  std::vector<std::string> lines = slip.lines;
  if (slip.mended.empty()) {
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(*slip.wrong));
  } else {
    lines[*slip.wrong] = slip.mended;
  }
  return joined(lines);
}

std::string check(const Slip& slip) {
  const Findings before = findings_of(joined(slip.lines));
  const Finding* finding = find_rule(before, slip.rule);
  if (finding == nullptr) {
    std::string others;
    for (const Finding& one : before.all()) others += "\n    " + one.rule + ": " + one.message;
    return "no " + slip.rule + "; it says" + others;
  }
  if (finding->next_step.empty() && finding->repairs.empty()) return slip.rule + " does not say what to do";
  if (slip.next_step && *slip.next_step != finding->next_step) return "its next step is: " + finding->next_step;
  std::string why_not;
  const std::optional<std::string> text = mend(slip, *finding, why_not);
  if (!text) return why_not;
  const Findings after = findings_of(*text);
  if (const Finding* still = find_rule(after, slip.rule)) return "still there after the mend: " + still->message;
  // A beat that could not be read was not judged, so what the eye makes of it may be new.
  const bool judged = std::ranges::none_of(before.all(), [](const Finding& one) {
    return one.rule == "not-judged" || (one.rule.starts_with("parse.") && one.severity == Severity::error);
  });
  for (const Finding& one : after.all()) {
    if (!judged && one.rule.find('.') == std::string::npos) continue;
    const bool is_new = one.severity == Severity::error && find_rule(before, one.rule) == nullptr;
    if (is_new) return "the mend brings about " + one.rule + ": " + one.message;
  }
  return {};
}

}  // namespace

int main(int count, char** arguments) {
  if (count < 2) {
    std::printf("slip_tests SLIPS [words of a slip's name ...]\n");
    return 2;
  }
  std::vector<fs::path> paths;
  for (const auto& entry : fs::directory_iterator(arguments[1])) {
    if (entry.path().extension() == ".staging") paths.push_back(entry.path());
  }
  std::ranges::sort(paths);
  int run = 0, failed = 0;
  for (const fs::path& path : paths) {
    const std::vector<std::string> words(arguments + 2, arguments + count);
    const bool wanted = words.empty() || std::ranges::any_of(words, [&](const std::string& word) {
                          return path.stem().string().find(word) != std::string::npos;
                        });
    if (!wanted) continue;
    ++run;
    const std::string fault = check(read_slip(path));
    if (fault.empty()) continue;
    ++failed;
    std::printf("FAILED %s: %s\n", path.filename().c_str(), fault.c_str());
  }
  std::printf("%d slips, %d failed\n", run, failed);
  return failed > 0 || run == 0 ? 1 : 0;
}
