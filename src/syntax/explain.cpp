// Names what is wrong with a line from where reading stopped, what stands there, and what was looked for.
#include <algorithm>
#include <initializer_list>
#include <utility>

#include "grammar/letters.hpp"
#include "source/character.h"
#include "syntax/broken.h"
#include "syntax/declared_names.h"
#include "syntax/habits.h"
#include "syntax/near_miss.h"
#include "syntax/units.h"

namespace lensward {
namespace {

constexpr std::string_view quote_marks[][2] = {{"\"", "\""}, {"“", "”"}, {"«", "»"}, {"「", "」"}};

// The closing mark for the quotation mark that opens at the start of `text`, or empty.
std::string_view closing_mark(std::string_view text) {
  for (const auto& marks : quote_marks) {
    if (text.starts_with(marks[0])) return marks[1];
  }
  return {};
}

constexpr std::string_view counts[] = {"one",   "two",   "three", "four", "five",   "six",
                                       "seven", "eight", "nine",  "ten",  "eleven", "twelve"};

std::string_view last_word_of(std::string_view text) { return text.substr(text.find_last_of(" \t") + 1); }

// What a writer may say for a pace, and what the language says.
struct Manner {
  std::string_view said, read;
};
constexpr Manner manners[] = {
    {"quickly", "`briskly` or `hurrying`"},
    {"fast", "`briskly` or `hurrying`"},
    {"rapidly", "`briskly` or `hurrying`"},
    {"swiftly", "`briskly` or `hurrying`"},
    {"hurriedly", "`briskly` or `hurrying`"},
    {"slow", "`slowly`"},
    {"quietly", "`softly`"},
    {"gently", "`slowly` or `softly`"},
};

bool is_word(std::string_view token) { return !token.empty() && grammar::is_lower(token.front()); }
bool is_name(std::string_view token) {
  return !token.empty() &&
         (grammar::is_upper(token.front()) || grammar::wide_size(token.data(), token.data() + token.size()) > 0);
}

// How a line goes on that so begins, or nothing.
std::string example_for(std::string_view first) {
  constexpr std::string_view examples[] = {
      "beat Morning", "scene Workshop",     "pause 1 s",         "settle 0.8 s",    "favour NAME",
      "cut to A",     "prop NAME, on NAME", "people NAME, NAME", "room 7 m by 5 m", "sound Bell, for 2 s",
      "plant NAME",   "hide NAME",          "reveal NAME",       "lasts 8 s",       "share NAME and NAME"};
  const auto* const found = std::ranges::find_if(
      examples, [first](std::string_view example) { return example.substr(0, example.find(' ')) == first; });
  return found == std::end(examples) ? std::string{} : ", as in " + in_ticks(*found);
}

// What stands outside quotation marks before the comment.
struct Outline {
  std::optional<std::uint32_t> unclosed;  // a quotation mark that is never closed
  std::optional<std::uint32_t> colon;     // the first
  std::uint32_t end = 0;                  // where the comment or the line end begins
};

Outline outline_of(const LineText& line) {
  Outline outline;
  std::uint32_t at = line.begin;
  while (at < line.end) {
    const std::string_view rest = line.bytes.substr(at, line.end - at);
    if (rest.starts_with("--")) break;
    if (rest.front() == ':' && !outline.colon) outline.colon = at;
    const std::string_view close = closing_mark(rest);
    if (close.empty()) {
      ++at;
      continue;
    }
    // Every opening mark is as long as its closing one.
    const std::size_t closed = rest.find(close, close.size());
    if (closed == std::string_view::npos) {
      outline.unclosed = at;
      at = line.end;
    } else {
      at += static_cast<std::uint32_t>(closed + close.size());
    }
  }
  outline.end = at;
  return outline;
}

// One line that stopped, with the questions the explanations ask of it.
class Explanation {
 public:
  Explanation(const LineText& line, const Stop& stop) : line_(line), stop_(stop), outline_(outline_of(line)) {
    found_ = token_at(line.bytes, stop.at, line.end);
    const char* const from = line.bytes.data() + line.begin;
    const char* const to = line.bytes.data() + line.end;
    first_at_ = line.begin + static_cast<std::uint32_t>(grammar::past_blanks(from, to) - from);
    first_ = token_at(line.bytes, first_at_, line.end);
    if (first_ == "then" || first_ == "meanwhile") {
      first_at_ = after(first_at_, first_);
      first_ = token_at(line.bytes, first_at_, line.end);
    }
    second_at_ = after(first_at_, first_);
    second_ = token_at(line.bytes, second_at_, line.end);
  }

  Finding explain() const {
    using Try = std::optional<Finding> (Explanation::*)() const;
    // The surest signs first; each later one supposes that the earlier ones are not there.
    constexpr Try tries[] = {&Explanation::unfinished_text,  &Explanation::habit,           &Explanation::screenplay,
                             &Explanation::unknown_line,     &Explanation::capital_heading, &Explanation::after_speech,
                             &Explanation::no_colon,         &Explanation::bare_left,       &Explanation::unknown_unit,
                             &Explanation::missing_comma,    &Explanation::capital_word,    &Explanation::other_manner,
                             &Explanation::needless_article, &Explanation::misspelt,        &Explanation::unknown_rig,
                             &Explanation::unknown_piece,    &Explanation::no_one_name,     &Explanation::second_deed,
                             &Explanation::lower_case_name,  &Explanation::lonely_share};
    for (const Try attempt : tries) {
      if (auto finding = (this->*attempt)()) return *finding;
    }
    return left_over();
  }

 private:
  // Where the token after `token`, which stands at `at`, begins.
  std::uint32_t after(std::uint32_t at, std::string_view token) const {
    const char* const past = line_.bytes.data() + at + token.size();
    return at + static_cast<std::uint32_t>(
                    token.size() +
                    static_cast<std::size_t>(grammar::past_blanks(past, line_.bytes.data() + line_.end) - past));
  }

  Span span_of(std::uint32_t at, std::string_view token) const {
    return line_.span(at, at + static_cast<std::uint32_t>(token.size()));
  }
  Span here() const { return span_of(stop_.at, found_); }

  bool expects(std::string_view text) const {
    return std::ranges::any_of(stop_.expected, [text](const Expected& expected) { return expected.text == text; });
  }
  bool wants_name() const { return expects("a name") && !complete() && !wants_clause(); }
  bool wants_clause() const { return expects("until") && expects("facing") && expects("slowly"); }
  bool complete() const { return expects("the end of the line"); }

  std::vector<std::string_view> expected_words() const {
    std::vector<std::string_view> words;
    for (const Expected& expected : stop_.expected) {
      if (expected.literal && is_word(expected.text)) words.push_back(expected.text);
    }
    return words;
  }

  std::string_view text_before_stop() const {
    std::string_view text = line_.bytes.substr(line_.begin, stop_.at - line_.begin);
    while (text.ends_with(' ') || text.ends_with('\t')) text.remove_suffix(1);
    return text;
  }

  Finding mending(Finding finding, Repair::Kind kind, std::string offer, Span where, std::string text) const {
    finding.repairs.push_back({kind, std::move(offer), {{where, std::move(text)}}});
    return finding;
  }

  std::optional<Finding> unfinished_text() const {
    if (!outline_.unclosed) return std::nullopt;
    const std::string_view close = closing_mark(line_.bytes.substr(*outline_.unclosed));
    const auto size = static_cast<std::uint32_t>(close.size());
    return mending(reading_error("parse.unfinished-text", line_.span(*outline_.unclosed, *outline_.unclosed + size),
                                 "the quotation mark that opens here is never closed on this line",
                                 "close it; a speech goes on with a line that begins with a quotation mark"),
                   Repair::Kind::choice, "close the quotation at the end of the line", line_.span(line_.end, line_.end),
                   std::string(close));
  }

  std::optional<Finding> habit() const { return explain_habit(line_, stop_); }

  // `INT. WORKSHOP`, `NELL (softly)`, `(a silence)`: habits of another page.
  std::optional<Finding> screenplay() const {
    if ((first_ == "INT" || first_ == "EXT") && second_ == ".") {
      const std::string doors = first_ == "INT" ? "interior" : "exterior";
      return reading_error("parse.left-over", span_of(first_at_, first_), "this looks like the heading of a screenplay",
                           "write `scene NAME, " + doors + "`");
    }
    if (found_ != "(" || (stop_.at != first_at_ && stop_.at != second_at_)) return std::nullopt;
    if (first_ == "(") {
      return reading_error("parse.unknown-line", here(), "no line begins with `(`",
                           "put `--` before a remark, or write `note \"…\"`");
    }
    if (!is_name(first_)) return std::nullopt;
    return reading_error(
        "parse.left-over", here(), "brackets hold no manners here",
        "put them before the colon, after a comma: " + in_ticks(std::string(first_) + std::string(", softly: \"…\"")));
  }

  std::optional<Finding> unknown_line() const {
    if (first_.empty() || is_name(first_) || stop_.at > first_at_ || !closing_mark(first_).empty()) return std::nullopt;
    const std::string message = "no line begins with " + in_ticks(first_);
    const Span where = span_of(first_at_, first_);
    if (!is_word(first_)) {
      return reading_error("parse.unknown-line", where, message,
                           first_ == "#" || first_ == "/" || first_ == ";" ? "a comment begins with `--`"
                                                                           : "begin with a name or a leading word");
    }
    if (const auto meant = nearest(first_, leading_words())) {
      return mending(reading_error("parse.unknown-line", where, message, "did you mean " + in_ticks(*meant) + "?"),
                     Repair::Kind::choice, "write " + in_ticks(*meant), where, std::string(*meant));
    }
    if (is_word(second_) || second_ == ":" || second_ == ",") return small_letter(line_, where);
    return reading_error("parse.unknown-line", where, message,
                         "begin with a name, or with a word such as `beat`, `favour`, `camera`, `pause`");
  }

  // `Favour Oda`: the leading word itself has the capital.
  std::optional<Finding> capital_heading() const {
    if (!is_name(first_) || stop_.at != second_at_ || is_word(second_)) return std::nullopt;
    const std::string word = lowered(first_);
    if (!std::ranges::binary_search(leading_words(), word)) return std::nullopt;
    return capital(span_of(first_at_, first_), first_, word);
  }

  Finding capital(Span where, std::string_view found, const std::string& word) const {
    return mending(reading_error("parse.capital-word", where,
                                 in_ticks(found) + " reads as a name where a word of the language must be",
                                 "write " + in_ticks(word) + "; words of the language are lower case"),
                   Repair::Kind::choice, "write " + in_ticks(word), where, word);
  }

  std::optional<Finding> capital_word() const {
    if (!is_name(found_) || expects("a name")) return std::nullopt;
    const std::string word = lowered(found_);
    const std::vector<std::string_view> words = expected_words();
    const bool known = std::ranges::find(words, word) != words.end();
    if (!known && !expects("a verb") && !expects("a word")) return std::nullopt;
    return capital(here(), found_, word);
  }

  std::optional<Finding> after_speech() const {
    if (found_ != "," || !outline_.colon || *outline_.colon > stop_.at) return std::nullopt;
    const std::string_view before = text_before_stop();
    const bool quote = std::ranges::any_of(quote_marks, [&](const auto& marks) { return before.ends_with(marks[1]); });
    if (!quote) return std::nullopt;
    return reading_error("parse.after-speech", line_.span(stop_.at, trimmed_end()),
                         "clauses stand after the words of this speech",
                         "move them before the colon: " +
                             in_ticks(std::string(first_) + " …" +
                                      std::string(line_.bytes.substr(stop_.at, trimmed_end() - stop_.at)) + ": \"…\""));
  }

  std::optional<Finding> no_colon() const {
    if (!is_name(first_) && first_ != "everyone" && first_ != "the") return std::nullopt;
    const bool says = second_ == "says" || second_ == "say";
    const bool speech_like =
        says || (!closing_mark(found_).empty() && (expects(":") || text_before_stop().ends_with(',')));
    if (!speech_like || (outline_.colon && *outline_.colon < stop_.at && !says)) return std::nullopt;
    if (says) {
      return reading_error("parse.no-colon", span_of(second_at_, second_),
                           "there is no " + in_ticks(second_) + " in front of a speech", "write `NAME to NAME: \"…\"`");
    }
    Span gap = line_.span(stop_.at, stop_.at);
    gap.begin = line_.begin + static_cast<std::uint32_t>(text_before_stop().size());
    return mending(reading_error("parse.no-colon", span_of(stop_.at, found_.substr(0, 1)),
                                 "a speech begins here without its colon", "put a colon before the words"),
                   Repair::Kind::safe, "put `:` before the words", gap, ": ");
  }

  std::optional<Finding> bare_left() const {
    if (found_ != "left" && found_ != "right") return std::nullopt;
    const std::string side(found_);
    if (token_at(line_.bytes, after(stop_.at, found_), line_.end) == "hand") {
      return mending(reading_error("parse.bare-left", here(), in_ticks(side) + " has no owner here",
                                   "write " + in_ticks("own " + side + " hand")),
                     Repair::Kind::safe, "write `own`", line_.span(stop_.at, stop_.at), "own ");
    }
    const std::string owner = owner_after(after(stop_.at, found_));
    return reading_error("parse.bare-left", here(), in_ticks(side) + " has no owner here",
                         "write " + in_ticks("frame " + side) + ", " + in_ticks("camera " + side + " of " + owner) +
                             " or " + in_ticks(owner + "'s " + side));
  }

  // The name in `of NAME`, or a stand-in.
  std::string owner_after(std::uint32_t at) const {
    std::string_view token = token_at(line_.bytes, at, line_.end);
    if (token == "of") {
      at = after(at, token);
      token = token_at(line_.bytes, at, line_.end);
      if (token == "the") token = token_at(line_.bytes, after(at, token), line_.end);
      if (is_name(token)) return std::string(token);
    }
    return "NAME";
  }

  std::optional<Finding> unknown_unit() const {
    if (!expects("a unit") || found_.empty()) return std::nullopt;
    const std::string_view before = text_before_stop();
    const bool letter = is_word(found_) || is_name(found_);
    const bool counted = std::ranges::find(counts, last_word_of(before)) != std::end(counts);
    const bool number = counted || (!before.empty() && grammar::is_digit(before.back()));
    if (!number || !letter || stop_.clause_here) return std::nullopt;
    const std::string message = in_ticks(found_) + " is not a unit";
    std::string_view meant = unit_meant(found_);
    if (meant.empty()) meant = nearest(found_, {unit_words().begin(), unit_words().end()}).value_or("");
    if (meant.empty()) {
      return reading_error("unit.unknown", here(), message,
                           "lengths: mm cm m in ft; times: s ms min; angles: deg; light: lux lm stops; shares: %");
    }
    return mending(reading_error("unit.unknown", here(), message, "write " + in_ticks(meant)), Repair::Kind::choice,
                   "write " + in_ticks(meant), here(), std::string(meant));
  }

  std::optional<Finding> missing_comma() const {
    if (!expects(",") || !is_word(found_)) return std::nullopt;
    if (!stop_.clause_here && !std::ranges::binary_search(clause_words(), found_)) return std::nullopt;
    const auto before = line_.begin + static_cast<std::uint32_t>(text_before_stop().size());
    return mending(reading_error("parse.missing-comma", here(), "two clauses run together before " + in_ticks(found_),
                                 "put a comma before " + in_ticks(found_)),
                   Repair::Kind::safe, "put `,` before " + in_ticks(found_), line_.span(before, before), ",");
  }

  std::optional<Finding> misspelt() const {
    if (!is_word(found_)) return std::nullopt;
    const auto meant = nearest(found_, expected_words());
    if (!meant) return std::nullopt;
    // Where only a name can complete the line, a slip of one letter is a slip; more is another word.
    if (wants_name() && edits_between(found_, *meant) > 1) return std::nullopt;
    return mending(reading_error("parse.left-over", here(), in_ticks(found_) + " cannot be read here",
                                 "did you mean " + in_ticks(*meant) + "?"),
                   Repair::Kind::choice, "write " + in_ticks(*meant), here(), std::string(*meant));
  }

  // `walks quickly`, `…, quickly`
  std::optional<Finding> other_manner() const {
    const auto* const manner = std::ranges::find(manners, found_, &Manner::said);
    if (manner == std::end(manners) || !expects("slowly")) return std::nullopt;
    return reading_error("parse.left-over", here(), in_ticks(found_) + " is no manner of the language",
                         "write " + std::string(manner->read) + ", after a comma");
  }

  // `camera A, on rails`
  std::optional<Finding> unknown_rig() const {
    const bool camera = first_ == "camera" && expects("dolly") && last_word_of(text_before_stop()) == "on";
    if (!camera || !is_word(found_)) return std::nullopt;
    return reading_error(
        "parse.left-over", here(), "no support of a camera is called " + in_ticks(found_),
        "write " + one_of({"sticks", "tripod", "shoulder", "slider", "dolly", "jib", "crane", "stabiliser"}));
  }

  // `furniture Stand, cooker`: the kind comes first.
  std::optional<Finding> unknown_piece() const {
    const std::string_view before = text_before_stop();
    const bool first_clause = first_ == "furniture" && std::ranges::count(before, ',') == 1 && before.ends_with(',');
    const std::string_view next = token_at(line_.bytes, after(stop_.at, found_), line_.end);
    if (!first_clause || !is_word(found_) || (!next.empty() && next != ",")) return std::nullopt;
    return reading_error("parse.left-over", here(), "no kind of furniture is called " + in_ticks(found_),
                         "name the kind nearest in size, or write `box` with `measures 1 m by 0.6 m by 0.9 m`");
  }

  // `to a Table`, `away from the lens`
  std::optional<Finding> needless_article() const {
    const std::string_view before = last_word_of(text_before_stop());
    const std::string_view next = token_at(line_.bytes, after(stop_.at, found_), line_.end);
    if ((found_ == "a" || found_ == "an") && is_name(next) && expects("a name")) {
      return mending(reading_error("parse.left-over", here(), in_ticks(found_) + " stands before no name",
                                   "leave it out: " + in_ticks(next)),
                     Repair::Kind::safe, "leave out " + in_ticks(found_), line_.span(stop_.at, after(stop_.at, found_)),
                     "");
    }
    if (found_ != "lens" || before != "the") return std::nullopt;
    const auto the = static_cast<std::uint32_t>(before.data() - line_.bytes.data());
    return mending(
        reading_error("parse.left-over", line_.span(the, stop_.at + 4), "`lens` stands without `the`", "write `lens`"),
        Repair::Kind::safe, "leave out `the`", line_.span(the, stop_.at), "");
  }

  // `favour everyone`, `hide nobody`
  std::optional<Finding> no_one_name() const {
    if ((found_ != "everyone" && found_ != "nobody") || !wants_name()) return std::nullopt;
    return reading_error(
        "parse.left-over", here(), in_ticks(found_) + " stands where somebody must be named",
        "name whom: " + in_ticks(std::string(text_before_stop().substr(first_at_ - line_.begin)) + " NAME"));
  }

  // `walks to the Table and sits`
  std::optional<Finding> second_deed() const {
    if (!is_word(found_) || !wants_name() || last_word_of(text_before_stop()) != "and") return std::nullopt;
    const bool verb = found_.ends_with('s') && !is_named_elsewhere(found_);
    if (!verb || !is_name(first_) || !is_word(second_) || second_ == "and") return std::nullopt;
    return reading_error(
        "parse.left-over", here(), "a line holds one deed, and " + in_ticks(found_) + " begins another",
        "begin the next line with " + in_ticks("then " + std::string(first_) + " " + std::string(found_)));
  }

  // Whether the word stands in the file with a capital.
  bool is_named_elsewhere(std::string_view word) const {
    return line_.bytes.find(capitalised(word)) != std::string_view::npos;
  }

  std::optional<Finding> lonely_share() const {
    if (first_ != "share" || !found_.empty() || complete() || !is_name(second_)) return std::nullopt;
    const auto end = line_.begin + static_cast<std::uint32_t>(text_before_stop().size());
    return reading_error("parse.left-over", line_.span(end, end), "a share needs two",
                         "write " + in_ticks("share " + std::string(second_) + " and NAME"));
  }

  static std::string one_of(std::initializer_list<std::string_view> words) {
    std::vector<std::string> list;
    for (const std::string_view word : words) list.push_back(in_ticks(word));
    const std::size_t most = list.size();
    return either(std::move(list), most);
  }

  std::optional<Finding> lower_case_name() const {
    if (!is_word(found_) || !wants_name()) return std::nullopt;
    return small_letter(line_, here());
  }

  Finding left_over() const {
    const bool at_end = found_.empty();
    const std::string wanted = wanted_words();
    if (at_end) {
      const auto end = line_.begin + static_cast<std::uint32_t>(text_before_stop().size());
      return reading_error("parse.left-over", line_.span(end, end), "the line ends where " + wanted + " must stand",
                           std::string("finish it") + example_for(first_));
    }
    const bool unquoted = outline_.colon && *outline_.colon < stop_.at && expects("words in quotation marks");
    if (unquoted && (is_word(found_) || is_name(found_))) {
      return reading_error("parse.left-over", here(), "the words of this speech stand without quotation marks",
                           "put them in quotation marks");
    }
    if (complete()) {
      return reading_error("parse.left-over", here(), "the line was complete before " + in_ticks(found_),
                           found_ == "." || found_ == ";"   ? end_of_statement()
                           : found_ == "," || found_ == ":" ? "delete it, or finish what it begins"
                                                            : "delete it, or make a clause of it after a comma");
    }
    return reading_error("parse.left-over", here(), in_ticks(found_) + " stands where " + wanted + " must be",
                         "write " + wanted);
  }

  // A line is one statement, and ends without a mark.
  std::string end_of_statement() const {
    const bool more = !token_at(line_.bytes, after(stop_.at, found_), line_.end).empty();
    return more ? "delete it, and begin a new line behind it" : "delete it";
  }

  // "a verb, `,` or `:`", at most four; the many words a clause or a place may begin with go by that name.
  std::string wanted_words() const {
    std::vector<std::string> wanted;
    const bool clause = wants_clause();
    const bool place = !clause && expects("behind") && expects("beyond");
    if (clause) wanted.emplace_back("a clause");
    if (place) wanted.emplace_back("a place");
    const auto add = [&wanted](std::string words) {
      if (std::ranges::find(wanted, words) == wanted.end()) wanted.push_back(std::move(words));
    };
    for (const Expected& expected : stop_.expected) {
      const bool last_resort =
          expected.text == "the end of the line" || expected.text == "a comment" || expected.text == "an owner with 's";
      if (!expected.literal && !last_resort && !clause) add(std::string(expected.text));
    }
    constexpr std::size_t few = 4;
    const bool many = !wanted.empty() && expected_words().size() > few;
    for (const Expected& expected : stop_.expected) {
      const bool passed_over = expected.text == "the" || (many && is_word(expected.text));
      if (expected.literal && !passed_over) add("`" + std::string(expected.text) + "`");
    }
    constexpr std::size_t most = 4;
    return either(std::move(wanted), most);
  }

  static std::string either(std::vector<std::string> wanted, std::size_t most) {
    if (wanted.size() > most) wanted.resize(most);
    std::string list;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      if (i > 0) list += i + 1 == wanted.size() ? " or " : ", ";
      list += wanted[i];
    }
    return list.empty() ? "nothing more" : list;
  }

  std::uint32_t trimmed_end() const {
    std::uint32_t end = outline_.end;
    while (end > line_.begin && (line_.bytes[end - 1] == ' ' || line_.bytes[end - 1] == '\t')) --end;
    return end;
  }

  static std::string capitalised(std::string_view word) {
    std::string name(word);
    name[0] = static_cast<char>(name[0] - 'a' + 'A');
    return name;
  }

  const LineText& line_;
  const Stop& stop_;
  Outline outline_;
  std::string_view found_;
  std::uint32_t first_at_ = 0, second_at_ = 0;
  std::string_view first_, second_;
};

}  // namespace

Finding reading_error(std::string rule, Span where, std::string message, std::string next_step) {
  Finding finding;
  finding.rule = std::move(rule);
  finding.where = where;
  finding.message = std::move(message);
  finding.next_step = std::move(next_step);
  return finding;
}

std::string in_ticks(std::string_view words) {
  constexpr std::size_t most = 60;
  std::string fit = printable(words.substr(0, most));
  // A character cut in two prints as U+FFFD; the whole words are the better cut.
  if (words.size() > most) fit = fit.substr(0, fit.find_last_of(' ')) + " …";
  return "`" + fit + "`";
}

std::string_view token_at(std::string_view bytes, std::uint32_t at, std::uint32_t end) {
  const std::string_view rest = bytes.substr(at, end - at);
  if (rest.empty() || rest.starts_with("--")) return rest.substr(0, 0);
  if (const std::string_view close = closing_mark(rest); !close.empty()) {
    const std::size_t closed = rest.find(close, close.size());
    return rest.substr(0, closed == std::string_view::npos ? close.size() : closed + close.size());
  }
  const char* past = rest.data();
  const char* const stop = past + rest.size();
  while (past != stop) {
    const bool joint = *past == '-' || *past == '/' || *past == '\'' || *past == '.' || *past == '_';
    if (joint && past != rest.data() && past + 1 != stop && grammar::name_more_at(past + 1, stop)) {
      ++past;
    } else if (grammar::name_more_at(past, stop)) {
      past += std::max<std::size_t>(1, grammar::wide_size(past, stop));
    } else {
      break;
    }
  }
  if (past != rest.data()) return rest.substr(0, static_cast<std::size_t>(past - rest.data()));
  return rest.substr(0, character_at(rest, 0).length);
}

Finding explain(const LineText& line, const Stop& stop) { return Explanation(line, stop).explain(); }

}  // namespace lensward
