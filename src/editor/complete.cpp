#include "editor/complete.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <tuple>

#include "plan/deeds.h"
#include "rules/pages.h"
#include "syntax/could_follow.h"
#include "syntax/node_kind.h"
#include "syntax/units.h"
#include "syntax/verb_forms.h"

namespace lensward {
namespace {

using Kind = Completion::Kind;
using Role = Mention::Role;

template <std::size_t N>
bool one_of(const std::array<std::string_view, N>& words, std::string_view word) {
  return std::ranges::find(words, word) != words.end();
}

constexpr std::array<std::string_view, 13> declaring{"people",    "person", "group", "crowd", "camera",
                                                     "lens",      "light",  "prop",  "wall",  "door",
                                                     "furniture", "window", "area"};
constexpr std::array<std::string_view, 3> people_kinds{"person", "group", "crowd"};
// Named only behind their own word, as `camera A`.
constexpr std::array<std::string_view, 4> kinds_by_word{"camera", "light", "lens", "story"};
constexpr std::array<std::string_view, 17> place_words{"the", "at",      "on",     "by",    "behind", "beside",
                                                       "in",  "near",    "under",  "over",  "inside", "outside",
                                                       "of",  "against", "beyond", "round", "from"};
constexpr std::array<std::string_view, 7> cue_words{"as", "after", "before", "into", "until", "while", "through"};

// The line up to the word that is being typed, as far as names and verbs depend on it.
struct LineSoFar {
  std::string_view text;
  std::vector<std::string_view> words;  // of letters alone
  bool in_time = false;                 // in the opening, a beat or a way
  std::string part;                     // the beat, or "opening"

  // The word just before; empty at the beginning of a line.
  std::string_view last() const { return words.empty() ? std::string_view{} : words.back(); }
  // The first word but for `then` and `meanwhile`.
  std::string_view first() const {
    for (const std::string_view word : words) {
      if (word != "then" && word != "meanwhile") return word;
    }
    return {};
  }
};

bool is_lower(char c) { return c >= 'a' && c <= 'z'; }

// Of a name or a word; what lies above ASCII is taken for a letter.
bool is_word_byte(char c) {
  const bool plain = is_lower(c) || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
  return plain || static_cast<unsigned char>(c) >= 0x80 || std::string_view("_-'.").find(c) != std::string_view::npos;
}

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> words;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t begin = at;
    while (at < text.size() && is_word_byte(text[at])) ++at;
    if (at > begin) words.push_back(text.substr(begin, at - begin));
    if (at == begin) ++at;
  }
  return words;
}

// Where the word begins that ends at `offset`. Wide blanks and marks are no letters; whoever types them starts anew.
std::uint32_t word_begin(std::string_view text, std::uint32_t offset) {
  while (offset > 0 && is_word_byte(text[offset - 1])) --offset;
  return offset;
}

// The heading that a byte stands below.
void find_part(const ReadFiles& read, std::uint32_t offset, LineSoFar& line) {
  for (const Statement& statement : read.file(read.own).script.statements) {
    if (statement.span.begin >= offset) return;
    const auto* heading = std::get_if<HeadingLine>(&statement.body);
    if (heading == nullptr) continue;
    line.in_time = heading->kind == HeadingLine::Kind::opening || heading->kind == HeadingLine::Kind::beat ||
                   heading->kind == HeadingLine::Kind::way;
    line.part = heading->kind == HeadingLine::Kind::opening              ? "opening"
                : heading->kind == HeadingLine::Kind::way && heading->of ? heading->of->text
                                                                         : heading->name.text;
  }
}

LineSoFar line_before(const ReadFiles& read, std::uint32_t begin) {
  const std::string_view text = read.text();
  const std::size_t line_end = begin == 0 ? std::string_view::npos : text.rfind('\n', begin - 1);
  const std::size_t start = line_end == std::string_view::npos ? 0 : line_end + 1;
  LineSoFar line;
  line.text = text.substr(start, begin - start);
  line.words = words_of(line.text);
  find_part(read, static_cast<std::uint32_t>(start), line);
  return line;
}

// ---- Names --------------------------------------------------------------------------------------------------------

// A name that nothing bears yet stands behind these.
bool gives_a_name(const LineSoFar& line) {
  const std::string_view last = line.last();
  if (line.words.size() > 1) return last == "named";
  if (last == "beat" || last == "scene" || last == "sound" || last == "film" || last == "set" || last == "kit" ||
      last == "company" || last == "way" || last == "extra")
    return true;
  return !line.in_time && (one_of(declaring, last) || last == "story" || last == "mark");
}

// 0: likeliest, 1, 2; nothing: cannot stand here, or hardly.
std::optional<int> rank_of_thing(const Mention& name, const LineSoFar& line) {
  const std::string_view last = line.last();
  if (one_of(kinds_by_word, last)) return name.kind == last ? std::optional(0) : std::nullopt;
  if (one_of(kinds_by_word, name.kind)) return std::nullopt;
  const bool person = one_of(people_kinds, name.kind);
  if (one_of(cue_words, last)) return person ? 1 : 2;
  return person != one_of(place_words, last) ? 0 : 1;
}

std::optional<int> rank_of(const Mention& name, const LineSoFar& line) {
  const std::string_view last = line.last();
  const bool of_a_way = last == "of" && (line.first() == "choose" || line.first() == "way");
  if (of_a_way || name.role == Role::beat) return of_a_way && name.role == Role::beat ? std::optional(0) : std::nullopt;
  switch (name.role) {
    case Role::thing:
      return rank_of_thing(name, line);
    case Role::scene:
      return last == "follows" ? std::optional(0) : std::nullopt;
    case Role::way:
      return line.first() == "choose" && last == "way" ? std::optional(0) : std::nullopt;
    case Role::label:
      return name.within == line.part && one_of(cue_words, last) ? std::optional(0) : std::nullopt;
    case Role::mark:
      return name.within == line.part && last == "mark" ? std::optional(0) : std::nullopt;
    default:
      return std::nullopt;
  }
}

void add(Completion one, std::vector<Completion>& all) {
  const auto known = std::ranges::find_if(
      all, [&](const Completion& other) { return other.text == one.text && other.kind == one.kind; });
  if (known == all.end()) all.push_back(std::move(one));
}

void add_names(const ReadFiles& read, const LineSoFar& line, std::vector<Completion>& all) {
  if (gives_a_name(line)) return;
  std::vector<int> files = files_for(read.gathered, read.own);
  std::ranges::reverse(files);
  for (int file : files) {
    for (const Mention& name : read.mentions(file)) {
      if (!name.declares) continue;
      if (const auto rank = rank_of(name, line)) add({Kind::name, name.name, name.kind, *rank}, all);
    }
  }
}

void add_marks(const ReadFiles& read, const LineSoFar& line, std::vector<Completion>& all) {
  for (const Mention& name : read.mentions(read.own)) {
    const bool here = name.role == Role::speech_mark && name.declares && name.within == line.part;
    if (here) add({Kind::mark, '[' + name.name + ']', "in a speech of this beat", 0}, all);
  }
}

// ---- Verbs, rules, units ------------------------------------------------------------------------------------------

void add_verbs(const std::vector<Verb>& verbs, bool several, int rank, std::vector<Completion>& all) {
  for (const Verb& verb : verbs) {
    const std::string_view first = verb.word.substr(0, verb.word.find(' '));
    const std::string_view form = several ? verb_of_several(first) : first;
    add({Kind::verb, std::string(form) + std::string(verb.word.substr(first.size())), "", rank}, all);
  }
}

void add_verbs(const LineSoFar& line, std::vector<Completion>& all) {
  // Of a cue the doer stands just before the verb, of a line at its beginning.
  const bool cue = line.text.find(',') != std::string_view::npos && line.words.size() > 1;
  const std::string_view before = cue ? line.words[line.words.size() - 2] : line.first();
  const bool several = !cue && std::ranges::find(line.words, "and") != line.words.end();
  if (before == "camera") return add_verbs(camera_verbs(), several, 0, all);
  if (before == "light") return add_verbs(lamp_verbs(), several, 0, all);
  add_verbs(people_verbs(), several, 0, all);
  add_verbs(thing_verbs(), several, 1, all);
}

void add_rules(const LineSoFar& line, std::vector<Completion>& all) {
  if (line.first() != "waive" && line.first() != "treat") return;
  for (const RuleEntry& rule : all_rules()) {
    if (rule.waivable || line.first() == "treat")
      add({Kind::rule, std::string(rule.id), std::string(rule.says), 0}, all);
  }
}

void add_expected(const CouldFollow& next, const ReadFiles& read, const LineSoFar& line, std::vector<Completion>& all) {
  if (next.literal) {
    if (is_lower(next.text.front())) add({Kind::word, std::string(next.text), "", 1}, all);
  } else if (next.text == "a name") {
    add_names(read, line, all);
  } else if (next.text == "a verb") {
    add_verbs(line, all);
  } else if (next.text == "a unit") {
    for (const std::string_view unit : unit_words()) add({Kind::unit, std::string(unit), "", 0}, all);
  } else if (next.text == "a [Mark]") {
    add_marks(read, line, all);
  } else if (next.text == "the name of a setting or a rule") {
    add_rules(line, all);
  }
}

}  // namespace

Completions completions_at(const ReadFiles& read, std::uint32_t offset) {
  Completions found;
  found.begin = word_begin(read.text(), offset);
  const LineSoFar line = line_before(read, found.begin);
  for (const CouldFollow& next : could_follow(line.text)) add_expected(next, read, line, found.all);
  std::ranges::sort(found.all, {}, [](const Completion& one) { return std::tuple(one.rank, one.kind, one.text); });
  return found;
}

}  // namespace lensward
