#include "plan/cues.h"

#include <algorithm>
#include <utility>

#include "plan/amounts.h"

namespace lensward {
namespace {

std::string lowered(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return text;
}

bool same(const std::string& a, const std::string& b, bool any_case) {
  return a == b || (any_case && lowered(a) == lowered(b));
}

// A cue's verb fits a line's with or without its particle, and in either number: `Piet puts` fits `puts down`, and
// `Guests look` fits `looks`.
bool verb_fits(const std::string& wanted, const std::string& verb) {
  if (wanted.empty() || wanted == verb) return true;
  const std::string first = verb.substr(0, verb.find(' '));
  return first == wanted || first == wanted + 's' || first == wanted + "es";
}

bool holds(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

// Fewest letters put in, taken out or changed.
std::size_t letters_apart(const std::string& a, const std::string& b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t above = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0U : 1U)});
      diagonal = above;
    }
  }
  return row[b.size()];
}

}  // namespace

CueFinder::CueFinder(const std::vector<TimedLine>& lines, Subject subject, Findings& findings)
    : lines_(lines), subject_(std::move(subject)), findings_(findings) {}

std::optional<Anchor> CueFinder::find(const Cue& cue) {
  Milliseconds offset;
  if (cue.offset) {
    const std::optional<Milliseconds> told = time_told(*cue.offset, findings_);
    if (!told) return std::nullopt;
    offset = *told;
  }
  if (cue.kind == Cue::Kind::from_top) return Anchor{Anchor::Edge::top, 0, 0, offset};
  if (cue.kind == Cue::Kind::at_end) return Anchor{Anchor::Edge::beat_end, 0, 0, {}};
  std::optional<Anchor> anchor = find(cue.point, cue.kind == Cue::Kind::after);
  if (!anchor) return anchor;
  if (cue.kind == Cue::Kind::midway) anchor->edge = Anchor::Edge::middle;
  anchor->offset = cue.kind == Cue::Kind::before ? -offset : offset;
  return anchor;
}

std::optional<Anchor> CueFinder::find(const CuePoint& point, bool its_end) {
  if (point.kind == CuePoint::Kind::mark) return find_mark(point);
  if (point.kind == CuePoint::Kind::deed) return find_deed(point, its_end);
  const std::optional<Match> match = find_words(point.words.words, point.of, point.ordinal, point.span);
  if (!match) return std::nullopt;
  return its_end ? Anchor{Anchor::Edge::word_end, match->line, match->last, {}}
                 : Anchor{Anchor::Edge::word_begin, match->line, match->first, {}};
}

std::optional<CueFinder::Match> CueFinder::find_words(const std::string& words, const std::optional<Name>& whose,
                                                      std::optional<int> ordinal, Span span) {
  const std::vector<std::string> wanted = words_of(words);
  std::vector<Match> found = matches(wanted, whose, false);
  if (found.empty()) found = matches(wanted, whose, true);
  const auto count = static_cast<int>(found.size());
  if (ordinal && *ordinal <= count && count > 0) {
    return *ordinal < 0 ? found.back() : found[static_cast<std::size_t>(std::max(*ordinal, 1) - 1)];
  }
  if (found.empty() || ordinal) {
    report_missing(words, whose, span);
    return std::nullopt;
  }
  if (found.size() > 1) {
    unclear_.push_back({span, words, std::move(found)});
    return std::nullopt;
  }
  return found.front();
}

std::vector<CueFinder::Match> CueFinder::matches(const std::vector<std::string>& wanted,
                                                 const std::optional<Name>& whose, bool any_case) const {
  std::vector<Match> found;
  if (wanted.empty()) return found;
  const auto agrees = [&](const Word& word, const std::string& asked) { return same(word.text, asked, any_case); };
  for (std::size_t line = 0; line < lines_.size(); ++line) {
    if (!lines_[line].spoken || (whose && lines_[line].speaker != whose->text)) continue;
    const std::vector<Word>& words = lines_[line].spoken->timed;
    for (auto at = words.begin(); at != words.end(); ++at) {
      at = std::search(at, words.end(), wanted.begin(), wanted.end(), agrees);
      if (at == words.end()) break;
      const auto first = static_cast<std::size_t>(at - words.begin());
      found.push_back({line, first, first + wanted.size() - 1});
    }
  }
  return found;
}

std::optional<Anchor> CueFinder::find_mark(const CuePoint& point) {
  std::vector<Anchor> found;
  for (std::size_t line = 0; line < lines_.size(); ++line) {
    if (!lines_[line].spoken) continue;
    const std::vector<SpeechMarkTime>& marks = lines_[line].spoken->marks;
    for (std::size_t i = 0; i < marks.size(); ++i) {
      if (marks[i].name == point.name.text) found.push_back({Anchor::Edge::mark, line, i, {}});
    }
  }
  if (found.size() == 1) return found.front();
  if (found.size() > 1) {
    report("time.cue-unclear", point.span,
           "the mark `[" + point.name.text + "]` stands " + std::to_string(found.size()) + " times in this beat",
           "call each mark otherwise");
    return std::nullopt;
  }
  report("time.cue-missing", point.span, "no speech of this beat holds the mark `[" + point.name.text + "]`",
         "put `[" + point.name.text + "]` into a speech of this beat, before the word it stands on");
  return std::nullopt;
}

std::optional<Anchor> CueFinder::find_deed(const CuePoint& point, bool its_end) {
  const Anchor::Edge edge = its_end ? Anchor::Edge::end : Anchor::Edge::begin;
  if (point.verb.empty()) {
    if (const std::optional<std::size_t> line = line_named(point.name.text)) return Anchor{edge, *line, 0, {}};
  }
  std::vector<std::size_t> found;
  for (const bool alone : {true, false}) {
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      const TimedLine& line = lines_[i];
      const bool by = holds(alone ? line.doers : line.others, point.name.text);
      if (by && verb_fits(point.verb, line.verb)) found.push_back(i);
    }
    if (!found.empty()) break;
  }
  if (found.size() == 1) return Anchor{edge, found.front(), 0, {}};
  const std::string called = point.verb.empty() ? point.name.text : point.name.text + " " + point.verb;
  const bool none = found.empty();
  const std::string rule = none && point.verb.empty() ? "time.cue-missing" : "name.verb-unclear";
  report(rule, point.span,
         none ? "no line of this beat is called `" + called + "`"
              : std::to_string(found.size()) + " lines of this beat fit `" + called + "`",
         "give the line it hangs from a label, such as `named Cross`, and hang it from that");
  return std::nullopt;
}

std::optional<std::size_t> CueFinder::line_named(const std::string& label) const {
  for (std::size_t i = 0; i < lines_.size(); ++i) {
    if (!label.empty() && lines_[i].label == label) return i;
  }
  return std::nullopt;
}

std::vector<CueFinder::Unclear> CueFinder::take_unclear() { return std::exchange(unclear_, {}); }

std::string CueFinder::nearest_word(const std::string& word) const {
  std::string nearest;
  std::size_t least = std::max<std::size_t>(2, word.size() / 2) + 1;
  for (const TimedLine& line : lines_) {
    if (!line.spoken) continue;
    for (const Word& spoken : line.spoken->timed) {
      const std::size_t apart = letters_apart(lowered(word), lowered(spoken.text));
      if (apart >= least) continue;
      least = apart;
      nearest = spoken.text;
    }
  }
  return nearest;
}

void CueFinder::report_missing(const std::string& words, const std::optional<Name>& whose, Span span) {
  const std::vector<std::string> wanted = words_of(words);
  const std::string near = wanted.empty() ? std::string{} : nearest_word(wanted.front());
  const std::string who = whose ? "`" + whose->text + "` does not say" : "nobody says";
  report("time.cue-missing", span, who + " \"" + words + "\" in this beat",
         near.empty() ? "quote words that are said in this beat, or put a mark such as `[Turn]` in the speech"
                      : "use `on \"" + near + "\"`, or put a mark such as `[Turn]` in the speech");
}

void CueFinder::report(std::string rule, Span where, std::string message, std::string next_step) {
  Finding finding;
  finding.rule = std::move(rule);
  finding.where = where;
  finding.message = std::move(message);
  finding.next_step = std::move(next_step);
  finding.subject = subject_;
  findings_.add(std::move(finding));
}

}  // namespace lensward
