#include "report/text.h"

#include <algorithm>
#include <map>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

#include "base/quantity_text.h"
#include "report/excerpt.h"
#include "source/character.h"

namespace lensward {
namespace {

constexpr std::size_t most_reasons = 6;
constexpr std::size_t most_further_places = 12;
// A file that is no staging script at all must not flood the terminal.
constexpr std::size_t most_told = 200;
constexpr int widest_line = 100;

// What is wrong with the text comes first, since it may cause the rest: its rules have a dot in their names. Then what
// is wrong with the staging, then remarks.
int rank_of(const Finding& finding) {
  if (finding.severity == Severity::remark) return 2;
  return finding.severity == Severity::error && finding.rule.find('.') != std::string::npos ? 0 : 1;
}

// A finding and those that need no telling of their own after it.
struct Told {
  const Finding* finding = nullptr;
  std::vector<const Finding*> again;
};

// One cause speaks up again and again: the same words at other places, the same line and people at other times, or
// other people whom the same step would help. Reasons of its own make it a finding of its own.
std::vector<Told> told_once(const Findings& findings) {
  std::vector<Told> all;
  std::map<std::pair<std::string_view, std::string_view>, std::size_t> by_words;
  std::map<std::tuple<std::string_view, Span, std::vector<std::string>, std::string_view>, std::size_t> by_place;
  std::map<std::pair<std::string_view, std::string_view>, std::size_t> by_step;
  for (const Finding& finding : findings.all()) {
    if (finding.waived_because) continue;
    const auto words = by_words.try_emplace({finding.rule, finding.message}, all.size()).first;
    std::size_t first = words->second;
    // Findings about nobody share a place by chance: several defaults stand at one heading.
    if (!finding.subject.people.empty()) {
      const auto place =
          by_place.try_emplace({finding.rule, finding.where, finding.subject.people, finding.subject.beat}, first)
              .first;
      first = std::min(first, place->second);
      const bool asks = finding.severity != Severity::remark && !finding.next_step.empty();
      if (asks && finding.because.empty())
        first = std::min(first, by_step.try_emplace({finding.rule, finding.next_step}, first).first->second);
      words->second = place->second = first;
    }
    if (first == all.size()) {
      all.push_back({&finding, {}});
    } else {
      all[first].again.push_back(&finding);
    }
  }
  return all;
}

std::string place_of(const SourceSet& sources, Span span) {
  const Position at = sources.begin_of(span);
  return printable(sources.file(span.file).name()) + ':' + std::to_string(at.line) + ':' + std::to_string(at.column);
}

const char* colour_of(Severity severity) {
  switch (severity) {
    case Severity::error:
      return "\x1b[1;31m";
    case Severity::warning:
      return "\x1b[1;33m";
    case Severity::remark:
      return "\x1b[1;36m";
  }
  return "";
}

// The next blank; those between backticks belong to a line to be copied, and do not break it.
std::size_t end_of_word(const std::string& words, std::size_t at) {
  bool quoted = false;
  for (; at < words.size() && (quoted || words[at] != ' '); ++at) quoted = quoted != (words[at] == '`');
  return at;
}

class Writer {
 public:
  Writer(const SourceSet& sources, bool colour) : sources_(sources), colour_(colour) {}

  // A remark asks for nothing, so it takes no more than its words and what would settle it.
  void write(const Told& told) {
    if (told.finding->severity == Severity::remark) {
      write_first_line(*told.finding);
      write_again(told);
      write_wrapped("  next: ", told.finding->next_step);
    } else {
      write_whole(told);
    }
  }

  void write_left_out(std::size_t count) {
    text_ += "and " + std::to_string(count) + " further, which `check --as lines` prints\n\n";
  }

  void write_waived(const Finding& finding) {
    text_ += "waived: " + place_of(sources_, finding.where) + ": " + printable(finding.message) + ", because " +
             printable(finding.waived_because.value_or("")) + " [" + finding.rule + "]\n";
  }

  std::string text() && { return std::move(text_); }

 private:
  void write_first_line(const Finding& finding) {
    text_ += painted("\x1b[1m", place_of(sources_, finding.where) + ':') + ' ' +
             painted(colour_of(finding.severity), std::string(name_of(finding.severity)) + ':') + ' ' +
             printable(finding.message) + ' ' + painted("\x1b[2m", '[' + finding.rule + ']') + '\n';
  }

  void write_whole(const Told& told) {
    const Finding& finding = *told.finding;
    write_first_line(finding);
    write_excerpt(finding.where, colour_of(finding.severity), true);
    write_again(told);
    for (const Label& label : finding.labels) write_label(label, finding);
    write_wrapped("  why: ", finding.on_set);
    write_wrapped("  next: ", finding.next_step);
    write_reasons(finding);
    text_ += '\n';
  }

  std::string painted(const char* colour, const std::string& words) const {
    return colour_ ? colour + words + "\x1b[0m" : words;
  }

  void write_excerpt(Span span, const char* colour, bool caret) {
    const Excerpt excerpt = excerpt_of(sources_, span, caret);
    text_ += excerpt.text_line + '\n' + painted(colour, excerpt.mark_line) + '\n';
  }

  void write_again(const Told& told) {
    if (told.again.empty()) return;
    const std::size_t shown = std::min(told.again.size(), most_further_places);
    std::string places;
    for (std::size_t i = 0; i < shown; ++i)
      places += (i > 0 ? ", " : "") + further_place(*told.again[i], *told.finding);
    const std::size_t more = told.again.size() - shown;
    write_wrapped("  also: ", places + (more > 0 ? " and " + std::to_string(more) + " further" : ""));
  }

  // "line 12" for another place, "54.5 s in beat `Papers`" for another time, with the people if they are others.
  std::string further_place(const Finding& again, const Finding& first) const {
    std::string place;
    if (again.subject.people != first.subject.people) {
      for (const std::string& person : again.subject.people) place += (place.empty() ? "`" : " and `") + person + '`';
      place += ", ";
    }
    if (again.where.file != first.where.file) place += sources_.file(again.where.file).name() + ' ';
    if (again.where != first.where || !again.at) {
      return place + "line " + std::to_string(sources_.begin_of(again.where).line);
    }
    return place + text_of(*again.at) + (again.subject.beat.empty() ? "" : " in beat `" + again.subject.beat + '`');
  }

  void write_label(const Label& label, const Finding& finding) {
    const bool elsewhere = label.where.file != finding.where.file;
    const std::string file = elsewhere ? sources_.file(label.where.file).name() + ", " : "";
    write_wrapped("  see: ", file + "line " + std::to_string(sources_.begin_of(label.where).line) + ": " + label.words);
    write_excerpt(label.where, "\x1b[34m", false);
  }

  void write_reasons(const Finding& finding) {
    const std::size_t shown = std::min(finding.because.size(), most_reasons);
    for (std::size_t i = 0; i < shown; ++i) {
      write_wrapped("    because ", finding.because[i].quantity + ": " + finding.because[i].value);
    }
    const std::size_t more = finding.because.size() - shown;
    if (more > 0) text_ += "    and " + std::to_string(more) + (more == 1 ? " further reason\n" : " further reasons\n");
  }

  // Breaks at blanks outside of backticks; the lines after the first stand under its words.
  void write_wrapped(const std::string& lead, const std::string& words) {
    if (words.empty()) return;
    const int indent = display_width(lead);
    std::string line = lead;
    int width = indent;
    std::size_t at = 0;
    while (at <= words.size()) {
      const std::size_t end = end_of_word(words, at);
      const std::string word = printable(std::string_view(words).substr(at, end - at));
      const int word_width = display_width(word);
      if (width > indent && width + 1 + word_width > widest_line) {
        text_ += line + '\n';
        line.assign(static_cast<std::size_t>(indent), ' ');
        width = indent;
      }
      if (width > indent) {
        line += ' ';
        ++width;
      }
      line += word;
      width += word_width;
      at = end + 1;
    }
    text_ += line + '\n';
  }

  const SourceSet& sources_;
  bool colour_;
  std::string text_;
};

void add_count(std::string& words, int count, const std::string& one, const std::string& many) {
  if (count == 0) return;
  words += (words.empty() ? "" : ", ") + std::to_string(count) + ' ' + (count == 1 ? one : many);
}

// The first of the gravest.
const Finding* place_to_start(const Findings& findings) {
  const Finding* start = nullptr;
  for (const Finding& finding : findings.all()) {
    if (finding.waived_because) continue;
    const auto grave = [](const Finding& one) { return std::pair(rank_of(one), -static_cast<int>(one.severity)); };
    if (!start || grave(finding) < grave(*start)) start = &finding;
  }
  return start;
}

}  // namespace

std::string counts_in_words(const SourceSet& sources, const Findings& findings) {
  std::string words;
  add_count(words, findings.count(Severity::error), "error", "errors");
  add_count(words, findings.count(Severity::warning), "warning", "warnings");
  add_count(words, findings.count(Severity::remark), "remark", "remarks");
  if (words.empty()) words = "no findings";
  const auto waived = std::count_if(findings.all().begin(), findings.all().end(),
                                    [](const Finding& finding) { return finding.waived_because.has_value(); });
  add_count(words, static_cast<int>(waived), "waived", "waived");
  const Finding* start = place_to_start(findings);
  return start ? words + "; start at " + place_of(sources, start->where) : words;
}

std::string findings_text(const SourceSet& sources, const Findings& findings, bool colour) {
  Writer writer(sources, colour);
  std::vector<Told> all = told_once(findings);
  std::ranges::stable_sort(all, {}, [](const Told& told) { return rank_of(*told.finding); });
  const std::size_t shown = std::min(all.size(), most_told);
  for (std::size_t i = 0; i < shown; ++i) writer.write(all[i]);
  if (shown < all.size()) writer.write_left_out(all.size() - shown);
  for (const Finding& finding : findings.all()) {
    if (finding.waived_because) writer.write_waived(finding);
  }
  return std::move(writer).text() + counts_in_words(sources, findings) + '\n';
}

std::string findings_lines(const SourceSet& sources, const Findings& findings) {
  std::string text;
  for (const Finding& finding : findings.all()) {
    text += place_of(sources, finding.where) + ": " + (finding.waived_because ? "waived" : name_of(finding.severity)) +
            ": " + printable(finding.message) + " [" + finding.rule + "]\n";
  }
  return text;
}

}  // namespace lensward
