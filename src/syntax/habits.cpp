#include "syntax/habits.h"

#include <algorithm>

#include "grammar/letters.hpp"
#include "syntax/declared_names.h"
#include "syntax/everyday_words.h"
#include "syntax/verb_forms.h"

namespace lensward {
namespace {

struct Token {
  std::uint32_t at = 0;
  std::string_view text;

  std::uint32_t end() const { return at + static_cast<std::uint32_t>(text.size()); }
};

std::vector<Token> tokens_of(const LineText& line) {
  std::vector<Token> tokens;
  const char* const base = line.bytes.data();
  std::uint32_t at = line.begin;
  while (true) {
    at = static_cast<std::uint32_t>(grammar::past_blanks(base + at, base + line.end) - base);
    const std::string_view text = token_at(line.bytes, at, line.end);
    if (text.empty()) return tokens;
    tokens.push_back({at, text});
    at += static_cast<std::uint32_t>(text.size());
  }
}

bool is_small(std::string_view token) { return !token.empty() && grammar::is_lower(token.front()); }
bool is_name(std::string_view token) {
  return !token.empty() &&
         (grammar::is_upper(token.front()) || grammar::wide_size(token.data(), token.data() + token.size()) > 0);
}
bool is_verb(std::string_view word) {
  return verb_of_one(word) != word || verb_of_several(word) != word || everyday_verb(VerbsOf::people, word);
}
bool is_one_of(const std::vector<std::string_view>& words, std::string_view word) {
  return std::ranges::find(words, word) != words.end();
}

// How far the grammar reads a line; past its end when it reads all.
std::size_t reach_of(const std::string& line) {
  LineReader reader(line);
  Tree tree;
  const auto stop = reader.read(0, static_cast<std::uint32_t>(line.size()), tree);
  return stop ? stop->at : line.size() + 1;
}

struct SizeWords {
  std::string_view said, size;
};
// The longest first.
constexpr SizeWords sizes[] = {
    {"extreme close-up", "extreme close-up"},
    {"extreme wide shot", "extreme wide shot"},
    {"medium close-up", "medium close-up"},
    {"close-up", "close-up"},
    {"close up", "close-up"},
    {"closeup", "close-up"},
    {"close shot", "close-up"},
    {"close on", "close-up"},
    {"close of", "close-up"},
    {"medium shot", "medium shot"},
    {"knee shot", "knee shot"},
    {"full shot", "full shot"},
    {"wide shot", "wide shot"},
    {"medium on", "medium shot"},
    {"wide on", "wide shot"},
};

constexpr std::string_view silences[] = {"pause",        "beat",        "a pause",       "a beat",      "long pause",
                                         "a long pause", "short pause", "a short pause", "a long beat", "long beat"};

// One line that stopped, as tokens.
class Habit {
 public:
  Habit(const LineText& line, const Stop& stop) : line_(line), stop_(stop), tokens_(tokens_of(line)) {
    while (stop_at_ < tokens_.size() && tokens_[stop_at_].at < stop.at) ++stop_at_;
    if (word(0) == "then" || word(0) == "meanwhile") begin_ = 1;
  }

  std::optional<Finding> explain() const {
    using Try = std::optional<Finding> (Habit::*)() const;
    constexpr Try tries[] = {&Habit::single_marks,     &Habit::silence,       &Habit::size_line,
                             &Habit::comma_after_name, &Habit::favour_of_two, &Habit::bare_camera,
                             &Habit::leaves_the_room,  &Habit::pronoun,       &Habit::blank_in_name,
                             &Habit::plain_clause,     &Habit::spoken_words,  &Habit::which_wall};
    for (const Try attempt : tries) {
      if (auto finding = (this->*attempt)()) return finding;
    }
    return std::nullopt;
  }

  std::optional<Finding> size_line() const {
    const std::string line = lowered(text(begin_, tokens_.size()));
    const auto* const size = std::ranges::find_if(sizes, [&line](const SizeWords& words) {
      return line.starts_with(words.said) &&
             !grammar::word_more_at(line.data() + words.said.size(), line.data() + line.size());
    });
    if (size == std::end(sizes) || is_declared(word(begin_))) return std::nullopt;
    std::size_t at = begin_ + static_cast<std::size_t>(1 + std::ranges::count(size->said, ' '));
    while (word(at) == "of" || word(at) == "on" || word(at) == "the" || word(at) == "OF" || word(at) == "ON") ++at;
    std::string whom = is_name(word(at)) ? declared_as(word(at)) : "NAME";
    const std::string proper = "camera" + camera() + " frames " + whom + ", " + std::string(size->size);
    const Token& first = tokens_[begin_];
    Finding finding = reading_error("parse.unknown-line", span(begin_, begin_ + 1),
                                    "a size is no line of its own: no line begins with " + quoted(first.text),
                                    "write " + quoted(proper));
    const bool whole = is_name(word(at)) && (at + 1 == tokens_.size() || word(at + 1) == ".");
    if (whole) replace(finding, begin_, tokens_.size(), proper);
    return finding;
  }

 private:
  // Empty past the end.
  std::string_view word(std::size_t index) const {
    return index < tokens_.size() ? tokens_[index].text : std::string_view{};
  }
  std::string_view found() const { return word(stop_at_); }
  std::string_view before(std::size_t back = 1) const {
    return stop_at_ < back ? std::string_view{} : word(stop_at_ - back);
  }

  Span span(std::size_t first, std::size_t past) const {
    return line_.span(tokens_[first].at, tokens_[past - 1].end());
  }
  // What is written from one token up to another.
  std::string text(std::size_t first, std::size_t past) const {
    if (first >= past) return {};
    const Span where = span(first, past);
    return std::string(line_.bytes.substr(where.begin, where.end - where.begin));
  }
  std::string line_with(std::size_t first, std::size_t past, const std::string& instead) const {
    const std::string head(line_.bytes.substr(line_.begin, tokens_[first].at - line_.begin));
    const std::uint32_t behind = tokens_[past - 1].end();
    return head + instead + std::string(line_.bytes.substr(behind, line_.end - behind));
  }
  void replace(Finding& finding, std::size_t first, std::size_t past, const std::string& instead) const {
    finding.repairs.push_back({Repair::Kind::choice, "write " + quoted(instead), {{span(first, past), instead}}});
  }

  bool expects(std::string_view wanted) const {
    return std::ranges::any_of(stop_.expected, [wanted](const Expected& expected) { return expected.text == wanted; });
  }
  bool is_declared(std::string_view name) const {
    const std::vector<DeclaredName> names = declared_names(line_.bytes);
    return std::ranges::any_of(names, [name](const DeclaredName& declared) { return declared.name == name; });
  }
  // `Oda` for `ODA`, when that is declared.
  std::string declared_as(std::string_view name) const {
    for (const DeclaredName& declared : declared_names(line_.bytes)) {
      if (lowered(declared.name) == lowered(name)) return std::string(declared.name);
    }
    return std::string(name);
  }
  // " A", or nothing for the camera on air.
  std::string camera() const {
    for (const DeclaredName& declared : declared_names(line_.bytes)) {
      if (declared.kind == "camera") return ' ' + std::string(declared.name);
    }
    return {};
  }
  // The first token from `from` on that ends a clause, or the end.
  std::size_t clause_end(std::size_t from) const {
    while (from < tokens_.size() && word(from) != "," && word(from) != ":") ++from;
    return from;
  }

  // 'Well?'
  std::optional<Finding> single_marks() const {
    const bool opens = found() == "'" || found() == "‘";
    const bool speech = expects(":");
    if (!opens || (!speech && !expects("words in quotation marks"))) return std::nullopt;
    const std::uint32_t from = tokens_[stop_at_].end();
    std::string_view words = line_.bytes.substr(from, line_.end - from);
    const std::size_t straight = words.rfind('\''), curled = words.rfind("’");
    const std::size_t close = straight == std::string_view::npos ? curled : straight;
    const bool closed = close != std::string_view::npos;
    const std::size_t mark = straight == std::string_view::npos ? std::string_view("’").size() : 1;
    words = closed ? words.substr(0, close) : words.substr(0, words.find_last_not_of(" \t") + 1);
    const Span where =
        line_.span(tokens_[stop_at_].at, from + static_cast<std::uint32_t>(words.size() + (closed ? mark : 0)));
    const std::string instead = (speech ? ": \"" : "\"") + std::string(words) + '"';
    Finding finding = reading_error("parse.left-over", where, "single quotation marks open no words here",
                                    "write double ones: " + quoted(instead));
    if (words.find('"') == std::string_view::npos && stop_at_ > 0) {
      Span replaced = where;
      if (speech) replaced.begin = tokens_[stop_at_ - 1].end();
      finding.repairs.push_back({Repair::Kind::choice, "write " + quoted(instead), {{replaced, instead}}});
    }
    return finding;
  }

  // `Beat.`, `PAUSE`, `(a pause)`
  std::optional<Finding> silence() const {
    std::string words;
    for (std::size_t i = begin_; i < tokens_.size(); ++i) {
      if (word(i) == "." || word(i) == "(" || word(i) == ")") continue;
      if (!words.empty()) words += ' ';
      words += lowered(word(i));
    }
    // `beat` alone lacks its name.
    if (std::ranges::find(silences, words) == std::end(silences) || text(begin_, tokens_.size()) == "beat") {
      return std::nullopt;
    }
    Finding finding = reading_error("parse.left-over", span(begin_, tokens_.size()),
                                    "a silence is told with its length", "write `pause 1 s`");
    replace(finding, begin_, tokens_.size(), "pause 1 s");
    return finding;
  }

  // `Oda, walks to the Table`
  std::optional<Finding> comma_after_name() const {
    std::size_t at = begin_;
    while (is_name(word(at)) || word(at) == "and" || word(at) == "the" || word(at) == "everyone") ++at;
    const bool parted = at > begin_ && word(at) == "," && is_small(word(at + 1)) && is_verb(word(at + 1));
    const bool speaks = std::ranges::any_of(tokens_, [](const Token& token) { return token.text == ":"; });
    if (!parted || speaks || is_one_of(leading_words(), word(begin_))) return std::nullopt;
    const std::string instead = std::string(word(at - 1)) + ' ' + std::string(word(at + 1));
    Finding finding = reading_error("parse.left-over", span(at, at + 1),
                                    "a comma parts " + quoted(word(at - 1)) + " from " + quoted(word(at + 1)),
                                    "write " + quoted(text(begin_, at) + ' ' + std::string(word(at + 1))));
    replace(finding, at - 1, at + 2, instead);
    return finding;
  }

  // `favour Oda and Jun`
  std::optional<Finding> favour_of_two() const {
    if (word(begin_) != "favour" && word(begin_) != "favor") return std::nullopt;
    std::size_t past = begin_ + 1;
    while (is_name(word(past)) || word(past) == "and" || word(past) == "the" ||
           (word(past) == "," && is_name(word(past + 1)))) {
      ++past;
    }
    const bool several = past >= begin_ + 4 && stop_at_ < past;
    if (!several) return std::nullopt;
    const std::string instead = "share " + text(begin_ + 1, past);
    if (reach_of(instead) <= instead.size()) return std::nullopt;
    Finding finding = reading_error("parse.left-over", span(stop_at_, stop_at_ + 1), "`favour` takes one name",
                                    "write " + quoted(instead));
    replace(finding, begin_, past, instead);
    return finding;
  }

  // `turns to the camera`, `looks at the audience`
  std::optional<Finding> bare_camera() const {
    std::size_t at = stop_at_;
    const bool camera = before() == "camera" && stop_at_ > begin_ + 1 && (found().empty() || found() == ",");
    if (camera) --at;
    const bool house = found() == "audience" || found() == "us" || found() == "viewer" || found() == "viewers";
    if (!camera && !(house && expects("a name"))) return std::nullopt;
    const std::size_t past = at + 1;
    if (at > 0 && word(at - 1) == "the") --at;
    if (reach_of(line_with(at, past, "lens")) < tokens_[at].at - line_.begin + 4) return std::nullopt;
    Finding finding = reading_error(
        "parse.left-over", span(at, past),
        camera ? "`camera` stands here without its name" : quoted(text(at, past)) + " is not on the floor; the lens is",
        "write `lens`");
    replace(finding, at, past, "lens");
    return finding;
  }

  // `leaves the room`
  std::optional<Finding> leaves_the_room() const {
    const bool place = found() == "room" || found() == "scene" || found() == "set" || found() == "stage";
    if (!place || stop_at_ < begin_ + 2 || !expects("a name")) return std::nullopt;
    const std::size_t first = before() == "the" ? stop_at_ - 1 : stop_at_;
    const std::string verb(verb_of_one(word(first - 1)));
    if (verb != "leaves" && verb != "exits" && verb != "enters") return std::nullopt;
    Finding finding =
        reading_error("parse.left-over", span(first, stop_at_ + 1), quoted(verb) + " needs no " + quoted(found()),
                      "leave it out: " + quoted(text(begin_, first)));
    finding.repairs.push_back(
        {Repair::Kind::choice, "leave it out", {{line_.span(tokens_[first - 1].end(), tokens_[stop_at_].end()), ""}}});
    return finding;
  }

  // `looks at her`, `with his left hand`
  std::optional<Finding> pronoun() const {
    if (!is_small(found()) || !is_pronoun(found())) return std::nullopt;
    const bool first = stop_at_ == begin_;
    if (!first && (!expects("a name") || expects("the end of the line"))) return std::nullopt;
    const std::string_view next = word(stop_at_ + 1);
    const bool own = before() == "with" && (next == "left" || next == "right");
    Finding finding =
        reading_error("parse.lower-case-name", span(stop_at_, stop_at_ + 1),
                      quoted(found()) + " names nobody: the language has no pronouns",
                      own ? "write " + quoted("own " + std::string(next) + " hand") : "write the name itself");
    if (own) replace(finding, stop_at_, stop_at_ + 1, "own");
    return finding;
  }

  // `furniture Old Sofa`, `beat The Morning`
  std::optional<Finding> blank_in_name() const {
    if (!is_name(found()) || !is_name(before())) return std::nullopt;
    std::size_t first = stop_at_ - 1, past = stop_at_ + 1;
    while (first > begin_ && is_name(word(first - 1))) --first;
    while (is_name(word(past))) ++past;
    const std::string second = lowered(found());
    const bool at_top = first == begin_;
    const bool other_slip = (at_top && (is_one_of(leading_words(), lowered(word(first))) || is_verb(second) ||
                                        is_one_of(clause_words(), second))) ||
                            expects(second);
    if (other_slip) return std::nullopt;
    const bool declares = is_one_of(leading_words(), word(begin_));
    if (!declares && is_declared(before()) && is_declared(found())) return two_names();
    std::string joined = text(first, past);
    std::ranges::replace(joined, ' ', '-');
    const std::string kind = lowered(word(past - 1));
    const bool piece = word(begin_) == "furniture" && is_one_of(clause_words(), kind) &&
                       reach_of("furniture " + joined + ", " + kind) > joined.size() + kind.size() + 12;
    const std::string proper = piece ? "furniture " + joined + ", " + kind : joined;
    Finding finding = reading_error("parse.left-over", span(first, past),
                                    quoted(text(first, past)) + " has a blank, and a name has none",
                                    "join it with a hyphen: " + quoted(proper));
    replace(finding, first, past, joined);
    return finding;
  }

  Finding two_names() const {
    const std::string instead = std::string(before()) + " and " + std::string(found());
    Finding finding = reading_error("parse.left-over", span(stop_at_, stop_at_ + 1),
                                    "two names stand here with nothing between", "write " + quoted(instead));
    replace(finding, stop_at_ - 1, stop_at_ + 1, instead);
    return finding;
  }

  // The text with its last word as a name, when that is a small word for one: "the Hatch" for "the door".
  std::string with_names(std::size_t first, std::size_t past) const {
    if (first >= past || !is_small(word(past - 1)) || (past - first > 1 && word(past - 2) != "the")) {
      return text(first, past);
    }
    const std::vector<std::string> names = names_meant(line_.bytes, word(past - 1));
    if (names.empty()) return text(first, past);
    return past - first > 1 ? text(first, past - 1) + ' ' + names.front() : names.front();
  }

  // `when Oda turns`, `before "turned"`
  std::optional<Finding> plain_clause() const {
    if (!is_small(found()) || stop_at_ <= begin_) return std::nullopt;
    std::string instead(everyday_clause(found()));
    const bool words =
        !word(stop_at_ + 1).empty() && (word(stop_at_ + 1).front() == '"' || word(stop_at_ + 1).starts_with("“"));
    if (found() == "before") instead = "0.3 s before";
    if (instead == "as" && words) instead = "on";
    if (instead.empty()) return std::nullopt;
    for (const std::string& comma : {std::string{}, std::string(", ")}) {
      if (!comma.empty() && before() == ",") continue;
      const std::size_t come_to = tokens_[stop_at_].at - line_.begin + comma.size() + instead.size();
      if (reach_of(line_with(stop_at_, stop_at_ + 1, comma + instead)) <= come_to) continue;
      const std::size_t past = clause_end(stop_at_ + 1);
      const std::string rest = with_names(stop_at_ + 1, past);
      Finding finding = reading_error(
          "parse.left-over", span(stop_at_, stop_at_ + 1),
          found() == "before" ? "`before` does not say how long before" : "no clause begins with " + quoted(found()),
          "write " + quoted(comma + instead + ' ' + rest));
      replace(finding, stop_at_, past, comma + instead + ' ' + rest);
      return finding;
    }
    return std::nullopt;
  }

  // Whether the words stand in a speech of this file, as they are.
  bool is_spoken(const std::string& words) const {
    constexpr std::size_t most = 32 * 1024;
    const std::string_view near = line_.bytes.substr(0, most);
    for (std::size_t at = near.find(words); at != std::string_view::npos; at = near.find(words, at + 1)) {
      const std::size_t begin = near.rfind('\n', at) + 1;
      if (std::ranges::count(near.substr(begin, at - begin), '"') % 2 == 1) return true;
    }
    return false;
  }

  // `on turned`
  std::optional<Finding> spoken_words() const {
    const bool cue = before() == "on" || before() == "after" || before() == "before" || before() == "until";
    const bool rig = word(begin_) == "camera" && expects("dolly");
    if (!cue || rig || !is_small(found()) || !expects("words in quotation marks") || !expects("a name"))
      return std::nullopt;
    const std::string words = text(stop_at_, clause_end(stop_at_));
    const bool spoken = is_spoken(words);
    if (!spoken && (before(2) != "," || !names_meant(line_.bytes, found()).empty())) return std::nullopt;
    const std::string instead = '"' + words + '"';
    Finding finding = reading_error("parse.left-over", span(stop_at_, clause_end(stop_at_)),
                                    "the words of a cue stand in quotation marks",
                                    "write " + quoted(std::string(before()) + ' ' + instead));
    replace(finding, stop_at_, clause_end(stop_at_), instead);
    return finding;
  }

  // `walks to the wall`
  std::optional<Finding> which_wall() const {
    const bool several = found() == "wall" || found() == "corner";
    if (!several || !expects("a name") || expects("the end of the line")) return std::nullopt;
    if (!names_meant(line_.bytes, found()).empty() && found() == "corner") return std::nullopt;
    const std::string instead = found() == "wall" ? "north wall" : "north-west corner";
    return reading_error("parse.left-over", span(stop_at_, stop_at_ + 1),
                         quoted(found()) + " does not say which of the " + std::string(found()) + 's',
                         "write which, as in " + quoted("the " + instead));
  }

  const LineText& line_;
  const Stop& stop_;
  std::vector<Token> tokens_;
  std::size_t stop_at_ = 0, begin_ = 0;
};

}  // namespace

std::optional<Finding> explain_habit(const LineText& line, const Stop& stop) { return Habit(line, stop).explain(); }

std::optional<Finding> size_as_a_line(const LineText& line) { return Habit(line, {}).size_line(); }

std::optional<Finding> small_piece(const LineText& line, std::uint32_t at) {
  at = static_cast<std::uint32_t>(grammar::past_blanks(line.bytes.data() + at, line.bytes.data() + line.end) -
                                  line.bytes.data());
  const std::string_view word = token_at(line.bytes, at, line.end);
  const std::string declaration = "furniture Piece, " + std::string(word);
  if (!is_small(word) || !is_one_of(clause_words(), word) || reach_of(declaration) <= declaration.size()) {
    return std::nullopt;
  }
  return small_letter(line, line.span(at, at + static_cast<std::uint32_t>(word.size())));
}

Finding small_letter(const LineText& line, Span where) {
  const std::string_view word = line.bytes.substr(where.begin, where.end - where.begin);
  std::vector<std::string> names = names_meant(line.bytes, word);
  const bool guessed = names.empty();
  if (guessed) {
    names.emplace_back(word);
    names[0][0] = static_cast<char>(word[0] - 'a' + 'A');
  }
  std::string listed;
  for (std::size_t i = 0; i < names.size(); ++i) {
    listed += (i == 0 ? "" : i + 1 == names.size() ? " or " : ", ") + quoted(names[i]);
  }
  Finding finding =
      reading_error("parse.lower-case-name", where, quoted(word) + " begins with a small letter where a name must be",
                    "write " + listed + (guessed ? " if that is the name" : ""));
  for (const std::string& name : names) {
    finding.repairs.push_back({Repair::Kind::choice, "write " + quoted(name), {{where, name}}});
  }
  return finding;
}

}  // namespace lensward
