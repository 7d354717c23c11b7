#include "syntax/habits.h"

#include <algorithm>
#include <utility>

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
bool is_verb(std::string_view word) { return is_language_verb(word) || everyday_verb(VerbsOf::people, word); }
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
    constexpr Try tries[] = {&Habit::single_marks,     &Habit::silence,         &Habit::silence_of,
                             &Habit::size_line,        &Habit::camera_line,     &Habit::leading_capital,
                             &Habit::comma_after_name, &Habit::manner_first,    &Habit::speech_verb,
                             &Habit::business,         &Habit::to_whom_first,   &Habit::particle_behind,
                             &Habit::over_to,          &Habit::phrase,          &Habit::favour_of_two,
                             &Habit::bare_camera,      &Habit::then_another,    &Habit::verb_for_a_clause,
                             &Habit::manner_of_speech, &Habit::leaves_the_room, &Habit::all,
                             &Habit::pronoun,          &Habit::blank_in_name,   &Habit::plain_clause,
                             &Habit::spoken_words,     &Habit::which_wall,      &Habit::at_the_top,
                             &Habit::bare_measures};
    for (const Try attempt : tries) {
      if (auto finding = (this->*attempt)()) return finding;
    }
    return std::nullopt;
  }

  std::optional<Finding> as_a_deed() const {
    if (auto finding = size_line()) return finding;
    return camera_line();
  }

 private:
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
                                    "a size is no line of its own: no line begins with " + in_ticks(first.text),
                                    "write " + in_ticks(proper));
    const bool whole = is_name(word(at)) && (at + 1 == tokens_.size() || word(at + 1) == ".");
    if (whole) replace(finding, begin_, tokens_.size(), proper);
    return finding;
  }

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
    finding.repairs.push_back({Repair::Kind::choice, "write " + in_ticks(instead), {{span(first, past), instead}}});
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

  // What is read to its end, when it stands for the tokens from one up to another.
  std::optional<Finding> read_with(std::size_t first, std::size_t past, const std::string& instead, std::string message,
                                   const std::string& next_step) const {
    const std::string proper = line_with(first, past, instead);
    if (reach_of(proper) <= proper.size()) return std::nullopt;
    Finding finding = reading_error("parse.left-over", span(first, past), std::move(message), next_step);
    replace(finding, first, past, instead);
    return finding;
  }

  // `Cut to A`
  std::optional<Finding> leading_capital() const {
    const std::string low = lowered(word(begin_));
    if (!is_name(word(begin_)) || !is_one_of(leading_words(), low) || is_declared(word(begin_))) return std::nullopt;
    auto finding = read_with(begin_, begin_ + 1, low,
                             in_ticks(word(begin_)) + " reads as a name where a word of the language must be",
                             "write " + in_ticks(low) + "; words of the language are lower case");
    if (finding) finding->rule = "parse.capital-word";
    return finding;
  }

  // `Focus on Oda`
  std::optional<Finding> camera_line() const {
    constexpr std::string_view verbs[] = {"focus", "pan", "tilt", "zoom", "push", "pull", "track", "frame"};
    const std::string low = lowered(word(begin_));
    if (std::ranges::find(verbs, low) == std::end(verbs) || is_declared(word(begin_))) return std::nullopt;
    const std::string instead = "camera" + camera() + ' ' + std::string(verb_of_one(low));
    return read_with(begin_, begin_ + 1, instead, "a camera's deed begins with the camera",
                     "write " + in_ticks(instead + ' ' + text(begin_ + 1, tokens_.size())));
  }

  // Where the verb of a deed of people stands, or nothing.
  std::optional<std::size_t> verb_of_people() const {
    std::size_t at = begin_;
    while (is_name(word(at)) || word(at) == "and" || word(at) == "," || word(at) == "the" || word(at) == "everyone")
      ++at;
    const bool speaks = std::ranges::any_of(tokens_, [](const Token& token) { return token.text == ":"; });
    const bool deed = at > begin_ && at < tokens_.size() && is_small(word(at)) && !speaks && word(at - 1) != ",";
    if (!deed || is_one_of(leading_words(), word(begin_))) return std::nullopt;
    return at;
  }

  // `Oda slowly walks to the Table`
  std::optional<Finding> manner_first() const {
    const auto manner = verb_of_people();
    if (!manner || !word(*manner).ends_with("ly") || !is_verb(word(*manner + 1))) return std::nullopt;
    const std::string_view pace = everyday_pace(word(*manner));
    const std::size_t past = clause_end(*manner);
    std::string instead = text(*manner + 1, past);
    if (!pace.empty()) instead += ", " + std::string(pace);
    const std::string whole = text(begin_, *manner) + ' ' + instead;
    return read_with(*manner, past, instead, in_ticks(word(*manner)) + " stands where the verb must be",
                     (pace.empty() ? "leave it out: " : "put it behind, after a comma: ") + in_ticks(whole));
  }

  // `puts the Ladle down`
  std::optional<Finding> particle_behind() const {
    const bool particle = found() == "down" || found() == "up" || found() == "away" || found() == "over";
    const auto verb = verb_of_people();
    if (!particle || !verb || stop_at_ < *verb + 2) return std::nullopt;
    const std::string object = text(*verb + 1, stop_at_);
    if (found() == "over") {
      return read_with(*verb + 1, stop_at_ + 1, object, "`over` needs a thing to be over", "leave it out");
    }
    const std::string instead = std::string(word(*verb)) + ' ' + std::string(found()) + ' ' + object;
    return read_with(*verb, stop_at_ + 1, instead, in_ticks(found()) + " stands apart from its verb",
                     "write " + in_ticks(instead));
  }

  // `walks over to the Table`
  std::optional<Finding> over_to() const {
    if (found() != "to" || before() != "over" || stop_at_ < 2) return std::nullopt;
    return read_with(stop_at_ - 1, stop_at_ + 1, "to", "`over` needs a thing to be over",
                     "leave it out: " + in_ticks("to " + text(stop_at_ + 1, clause_end(stop_at_))));
  }

  // `gives Oda the Ladle`
  std::optional<Finding> to_whom_first() const {
    const auto verb = verb_of_people();
    if (!verb || !is_name(word(*verb + 1))) return std::nullopt;
    const std::string one(verb_of_one(word(*verb)));
    const std::size_t past = clause_end(*verb);
    if ((one != "gives" && one != "hands") || past < *verb + 3 || !is_name(word(past - 1))) return std::nullopt;
    const std::string instead = text(*verb + 2, past) + " to " + std::string(word(*verb + 1));
    return read_with(*verb + 1, past, instead, "what is given stands before who gets it",
                     "write " + in_ticks(std::string(word(*verb)) + ' ' + instead));
  }

  // `shakes his head`, `thinks about it`
  std::optional<Finding> business() const {
    const auto verb = verb_of_people();
    if (!verb || *verb >= stop_at_ || is_language_verb(word(*verb)) || !word(*verb).ends_with('s')) return std::nullopt;
    const auto everyday = everyday_verb(VerbsOf::people, word(*verb));
    if (everyday && everyday->kind != EverydayVerb::Kind::business) return std::nullopt;
    const std::size_t past = clause_end(*verb);
    const std::string words = text(*verb, past);
    if (words.find('"') != std::string::npos) return std::nullopt;
    const std::string instead = "does \"" + words + '"';
    auto finding = read_with(*verb, past, instead, "no verb of people is " + in_ticks(word(*verb)),
                             "say it as business: " + in_ticks(instead));
    if (finding) finding->rule = "name.unknown-verb";
    return finding;
  }

  // `Oda whispers: "Well?"`
  std::optional<Finding> speech_verb() const {
    std::size_t at = begin_;
    while (is_name(word(at))) ++at;
    const auto verb = everyday_verb(VerbsOf::people, word(at));
    const bool speech =
        at == begin_ + 1 && verb && verb->kind == EverydayVerb::Kind::speech && !word(at).starts_with("say");
    if (!speech) return std::nullopt;
    std::size_t colon = at;
    while (colon < tokens_.size() && word(colon) != ":") ++colon;
    if (colon == tokens_.size()) return std::nullopt;
    const bool addressed = word(at + 1) == "to" && colon > at + 2;
    const std::string manner = word(at) == "whispers" ? ", whispered" : word(at) == "shouts" ? ", shouted" : "";
    const std::string head = text(begin_, at) + (addressed ? ' ' + text(at + 1, colon) : "") + manner;
    auto finding = read_with(begin_, colon, head, "there is no " + in_ticks(word(at)) + " in front of a speech",
                             "write " + in_ticks(head + ": \"…\""));
    if (finding) finding->rule = "parse.no-colon";
    return finding;
  }

  // `pause for 2 s`, `wait 2 s`
  std::optional<Finding> silence_of() const {
    const std::string low = lowered(word(begin_));
    std::size_t at = begin_;
    if (low == "a") ++at;
    const std::string silence = lowered(word(at));
    if (silence != "pause" && silence != "wait" && silence != "silence" && silence != "beat") return std::nullopt;
    while (at < tokens_.size() && !grammar::is_digit(word(at).front())) ++at;
    if (at == tokens_.size()) return std::nullopt;
    const std::string instead = "pause " + text(at, tokens_.size());
    return read_with(begin_, tokens_.size(), instead, "a silence is told with its length",
                     "write " + in_ticks(instead));
  }

  // `next to Oda`, `to the middle of the room`
  std::optional<Finding> phrase() const {
    struct Phrase {
      std::string_view said, instead;
    };
    constexpr Phrase phrases[] = {{"next to", "beside"},
                                  {"close to", "near"},
                                  {"in the middle of the room", "at centre"},
                                  {"in the centre of the room", "at centre"},
                                  {"the middle of the room", "centre"},
                                  {"the centre of the room", "centre"},
                                  {"the center of the room", "centre"},
                                  {"center stage", "centre"},
                                  {"centre stage", "centre"}};
    for (const Phrase& phrase : phrases) {
      const std::size_t length = static_cast<std::size_t>(1 + std::ranges::count(phrase.said, ' '));
      for (std::size_t at = begin_ + 1; at + length <= tokens_.size(); ++at) {
        const bool here = at <= stop_at_ && stop_at_ < at + length && text(at, at + length) == phrase.said;
        if (!here) continue;
        const std::string instead(phrase.instead);
        return read_with(at, at + length, instead, "no place is called " + in_ticks(phrase.said),
                         "write " + in_ticks(instead));
      }
    }
    return std::nullopt;
  }

  // `…, then at Oda`
  std::optional<Finding> then_another() const {
    if (found() != "then" || stop_at_ < begin_ + 2 || !is_name(word(begin_))) return std::nullopt;
    return reading_error("parse.left-over", span(stop_at_, stop_at_ + 1),
                         "a line holds one deed, and `then` begins another",
                         "begin the next line with " + in_ticks("then " + std::string(word(begin_))));
  }

  // `Oda walks to the Table, takes the Ladle`; `Oda, slowly, walks to the Table`
  std::optional<Finding> verb_for_a_clause() const {
    const bool verb = before() == "," && is_small(found()) && is_verb(found()) && !expects(found());
    if (!verb || !is_name(word(begin_)) || !expects("facing")) return std::nullopt;
    const std::string deed = std::string(word(begin_)) + ' ' + std::string(found());
    if (verb_of_people()) {
      return reading_error("parse.left-over", span(stop_at_, stop_at_ + 1),
                           "a line holds one deed, and " + in_ticks(found()) + " begins another",
                           "begin the next line with " + in_ticks("then " + deed));
    }
    return reading_error("parse.left-over", span(stop_at_, stop_at_ + 1), "the verb stands right behind the name",
                         "begin with " + in_ticks(deed));
  }

  // `Oda to Jun, angrily: "…"`
  std::optional<Finding> manner_of_speech() const {
    const bool manner = found().ends_with("ly") || found() == "whispering" || found() == "shouting";
    const bool speech = std::ranges::any_of(tokens_, [](const Token& token) { return token.text == ":"; });
    if (!manner || !speech || !expects("whispered") || !everyday_pace(found()).empty()) return std::nullopt;
    if (found() == "whispering" || found() == "shouting") {
      const std::string instead = found() == "shouting" ? "shouted" : "whispered";
      return read_with(stop_at_, stop_at_ + 1, instead, in_ticks(found()) + " is no manner of the language",
                       "write " + in_ticks(instead));
    }
    return reading_error("parse.left-over", span(stop_at_, stop_at_ + 1),
                         in_ticks(found()) + " is no manner of the language",
                         "leave it to whoever plays it, or write `whispered`, `softly`, `loudly` or `shouted`");
  }

  // `favour both`, `all leave`
  std::optional<Finding> all() const {
    if (!is_small(found()) || !is_all(found()) || found() == "everyone") return std::nullopt;
    return read_with(stop_at_, stop_at_ + 1, "everyone", in_ticks(found()) + " is no name", "write `everyone`");
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
                                    "write double ones: " + in_ticks(instead));
    if (words.find('"') == std::string_view::npos && stop_at_ > 0) {
      Span replaced = where;
      if (speech) replaced.begin = tokens_[stop_at_ - 1].end();
      finding.repairs.push_back({Repair::Kind::choice, "write " + in_ticks(instead), {{replaced, instead}}});
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
                                    "a comma parts " + in_ticks(word(at - 1)) + " from " + in_ticks(word(at + 1)),
                                    "write " + in_ticks(text(begin_, at) + ' ' + std::string(word(at + 1))));
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
                                    "write " + in_ticks(instead));
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
    Finding finding = reading_error("parse.left-over", span(at, past),
                                    camera ? "`camera` stands here without its name"
                                           : in_ticks(text(at, past)) + " is not on the floor; the lens is",
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
        reading_error("parse.left-over", span(first, stop_at_ + 1), in_ticks(verb) + " needs no " + in_ticks(found()),
                      "leave it out: " + in_ticks(text(begin_, first)));
    finding.repairs.push_back(
        {Repair::Kind::choice, "leave it out", {{line_.span(tokens_[first - 1].end(), tokens_[stop_at_].end()), ""}}});
    return finding;
  }

  // `looks at her`, `with his left hand`
  std::optional<Finding> pronoun() const {
    if (!is_small(found()) || !is_pronoun(found())) return std::nullopt;
    const bool first = stop_at_ == begin_;
    if (!first && !expects("a name")) return std::nullopt;
    const std::string_view next = word(stop_at_ + 1);
    const bool own = before() == "with" && (next == "left" || next == "right");
    Finding finding =
        reading_error("parse.lower-case-name", span(stop_at_, stop_at_ + 1),
                      in_ticks(found()) + " names nobody: the language has no pronouns",
                      own ? "write " + in_ticks("own " + std::string(next) + " hand") : "write the name itself");
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
                                    in_ticks(text(first, past)) + " has a blank, and a name has none",
                                    "join it with a hyphen: " + in_ticks(proper));
    replace(finding, first, past, joined);
    return finding;
  }

  Finding two_names() const {
    const std::string instead = std::string(before()) + " and " + std::string(found());
    Finding finding = reading_error("parse.left-over", span(stop_at_, stop_at_ + 1),
                                    "two names stand here with nothing between", "write " + in_ticks(instead));
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

  // `when she says "turned"`
  std::optional<Finding> when_it_is_said() const {
    const std::size_t past = clause_end(stop_at_);
    if (!word(past - 1).starts_with('"')) return std::nullopt;
    const std::string instead = "on " + std::string(word(past - 1));
    if (reach_of(line_with(stop_at_, past, instead)) <= tokens_[stop_at_].at - line_.begin + instead.size()) {
      return std::nullopt;
    }
    Finding finding = reading_error("parse.left-over", span(stop_at_, stop_at_ + 1),
                                    "no clause begins with " + in_ticks(found()), "write " + in_ticks(instead));
    replace(finding, stop_at_, past, instead);
    return finding;
  }

  // `when Oda turns`, `before "turned"`
  std::optional<Finding> plain_clause() const {
    if (!is_small(found()) || stop_at_ <= begin_) return std::nullopt;
    std::string instead(everyday_clause(found()));
    const bool words =
        !word(stop_at_ + 1).empty() && (word(stop_at_ + 1).front() == '"' || word(stop_at_ + 1).starts_with("“"));
    if (found() == "before") instead = "0.3 s before";
    if (instead == "as" && words) instead = "on";
    if (instead == "as") {
      if (auto finding = when_it_is_said()) return finding;
    }
    if (instead.empty()) return std::nullopt;
    for (const std::string& comma : {std::string{}, std::string(", ")}) {
      if (!comma.empty() && before() == ",") continue;
      const std::size_t come_to = tokens_[stop_at_].at - line_.begin + comma.size() + instead.size();
      if (reach_of(line_with(stop_at_, stop_at_ + 1, comma + instead)) <= come_to) continue;
      const std::size_t past = clause_end(stop_at_ + 1);
      const std::string rest = with_names(stop_at_ + 1, past);
      Finding finding = reading_error(
          "parse.left-over", span(stop_at_, stop_at_ + 1),
          found() == "before" ? "`before` does not say how long before" : "no clause begins with " + in_ticks(found()),
          "write " + in_ticks(comma + instead + ' ' + rest));
      replace(finding, stop_at_, past, comma + instead + ' ' + rest);
      return finding;
    }
    return std::nullopt;
  }

  // Whether the words stand in a speech of this file, as they are.
  bool is_spoken(const std::string& words) const {
    constexpr std::size_t most = 32768;
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
    if (!spoken && words != found()) return std::nullopt;
    if (!spoken && (before(2) != "," || !names_meant(line_.bytes, found()).empty())) return std::nullopt;
    const std::string instead = '"' + words + '"';
    Finding finding = reading_error("parse.left-over", span(stop_at_, clause_end(stop_at_)),
                                    "the words of a cue stand in quotation marks",
                                    "write " + in_ticks(std::string(before()) + ' ' + instead));
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
                         in_ticks(found()) + " does not say which of the " + std::string(found()) + 's',
                         "write which, as in " + in_ticks("the " + instead));
  }

  // `cut to B, at top`: a beat has an end to be at, and a top to count from.
  std::optional<Finding> at_the_top() const {
    if (found() != "top" || before() != "at") return std::nullopt;
    return read_with(stop_at_ - 1, stop_at_ + 1, "from top", "the beginning of a beat is told as `from top`",
                     "write `from top`");
  }

  // `furniture Counter, 2 m by 0.4 m`
  std::optional<Finding> bare_measures() const {
    const bool has_measures = word(begin_) == "furniture" || word(begin_) == "prop";
    if (!has_measures || before() != "by" || stop_at_ < 3 || !is_figure(found()) || !is_figure(before(3)))
      return std::nullopt;
    const std::size_t first = stop_at_ - 3;
    const std::string instead = "measures " + text(first, clause_end(first));
    return read_with(first, clause_end(first), instead, "how large a thing is stands after `measures`",
                     "write " + in_ticks(instead));
  }

  static bool is_figure(std::string_view token) { return !token.empty() && token[0] >= '0' && token[0] <= '9'; }

  const LineText& line_;
  const Stop& stop_;
  std::vector<Token> tokens_;
  std::size_t stop_at_ = 0, begin_ = 0;
};

}  // namespace

std::optional<Finding> explain_habit(const LineText& line, const Stop& stop) { return Habit(line, stop).explain(); }

std::optional<Finding> read_as_a_deed(const LineText& line) { return Habit(line, {}).as_a_deed(); }

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
    listed += (i == 0 ? "" : i + 1 == names.size() ? " or " : ", ") + in_ticks(names[i]);
  }
  Finding finding =
      reading_error("parse.lower-case-name", where, in_ticks(word) + " begins with a small letter where a name must be",
                    "write " + listed + (guessed ? " if that is the name" : ""));
  for (const std::string& name : names) {
    finding.repairs.push_back({Repair::Kind::choice, "write " + in_ticks(name), {{where, name}}});
  }
  return finding;
}

}  // namespace lensward
