// Folds lines into statements, and sees that each stands where it may.
#include <algorithm>
#include <iterator>
#include <utility>

#include "grammar/letters.hpp"
#include "syntax/broken.h"
#include "syntax/check_amounts.h"
#include "syntax/parse.h"
#include "syntax/read_parts.h"
#include "syntax/where_lines_stand.h"

namespace lensward {
namespace {

constexpr std::size_t most_clauses = 64;

// Of the headings, only a scene's takes clauses.
template <class Line>
bool takes_clauses(const Line& line) {
  if constexpr (std::is_same_v<Line, HeadingLine>) return line.kind == Part::scene;
  return true;
}

// The clauses of a statement that has any, else null.
Clauses* clauses_of(LineBody& body) {
  return std::visit(
      [](auto& line) -> Clauses* {
        if constexpr (requires { line.clauses; }) {
          return takes_clauses(line) ? &line.clauses : nullptr;
        } else {
          return nullptr;
        }
      },
      body);
}

class ScriptReader {
 public:
  ScriptReader(const SourceSet& sources, const Tree& tree, Findings& findings)
      : bytes_(sources.file(tree.file).bytes()), tree_(tree), findings_(findings) {
    script_.file = tree.file;
  }

  Script read() {
    for (const TreeLine& line : tree_.lines) read_line(line);
    end_speech();
    return std::move(script_);
  }

 private:
  void read_line(const TreeLine& line) {
    if (line.broken) return add_unread(line);
    if (line.node_count == 0) return;
    const std::vector<NodeView> top = top_nodes(bytes_, tree_.file, tree_.nodes, line.first_node, line.node_count);
    if (in_merge_) return add_broken(top);
    if (has_numbers(line)) {
      if (auto finding = check_amounts(top.back())) {
        findings_.add(std::move(*finding));
        return add_broken(top);
      }
    }
    if (auto finding = check_lengths_of_names(top)) {
      findings_.add(std::move(*finding));
      return add_broken(top);
    }
    const NodeView statement = top.back();
    if (statement.kind() == NodeKind::more) return add_clauses(statement);
    if (statement.kind() == NodeKind::spoken) return add_words(statement);
    if (statement.kind() == NodeKind::instead_of) return add_change(statement);
    add(top, false);
  }

  std::optional<Finding> check_lengths_of_names(const std::vector<NodeView>& top) const {
    for (const NodeView& node : top) {
      if (node.text().size() <= longest_name) continue;
      if (auto finding = check_length_of_name(node)) return finding;
    }
    return std::nullopt;
  }

  std::optional<Finding> check_length_of_name(const NodeView& node) const {
    const bool name = node.kind() == NodeKind::path || node.kind() == NodeKind::bare_name;
    if (name && node.text().size() > longest_name && characters_in(node.text()) > longest_name) {
      return reading_error("parse.too-long", node.span(),
                           "a name may have 64 characters; " + in_ticks(node.text()) + " has " +
                               std::to_string(characters_in(node.text())),
                           "shorten it; `called \"…\"` holds the rest");
    }
    for (const NodeView& child : node.children()) {
      if (child.text().size() <= longest_name) continue;
      if (auto finding = check_length_of_name(child)) return finding;
    }
    return std::nullopt;
  }

  static std::size_t characters_in(std::string_view text) {
    return static_cast<std::size_t>(
        std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
  }

  bool has_numbers(const TreeLine& line) const {
    const auto first = tree_.nodes.begin() + line.first_node;
    return std::any_of(first, first + line.node_count, [](const Node& node) { return node.kind == NodeKind::number; });
  }

  // A line of its own: nodes are an optional `when` and the statement.
  void add(const std::vector<NodeView>& nodes, bool in_place_of_line) {
    Statement statement{read_body(nodes.back()), When::unsaid, in_place_of_line, nodes.front().span()};
    statement.span.end = nodes.back().span().end;
    if (nodes.front().kind() == NodeKind::when) {
      statement.when = nodes.front().text() == "then" ? When::then : When::meanwhile;
    }
    end_speech();
    add(std::move(statement));
  }

  void add(Statement statement) {
    const auto* header = std::get_if<HeaderLine>(&statement.body);
    if (header != nullptr && script_.statements.empty()) {
      file_ = header->kind;
      part_ = part_of(file_);
    } else if (!may_stand(statement, part_, file_)) {
      tell_wrong_place(statement);
    } else if (const auto* heading = std::get_if<HeadingLine>(&statement.body)) {
      part_ = heading->kind;
    }
    script_.statements.push_back(std::move(statement));
    check_clause_count();
    check_part_count(script_.statements.back());
  }

  // What goes past a limit is told once, and not read, so that nothing is cut without a word.
  void check_part_count(Statement& statement) {
    const auto* heading = std::get_if<HeadingLine>(&statement.body);
    if (heading != nullptr) {
      lines_in_part_ = 0;
      if (heading->kind != Part::beat || ++beats_ <= most_beats) return;
      return refuse_further(statement, beats_ == most_beats + 1, "a scene may have 400 beats; this is one more",
                            "divide the scene: the next one begins with `opening follows …`");
    }
    if (part_ != Part::beat && part_ != Part::way) return;
    if (++lines_in_part_ <= most_lines_in_beat) return;
    refuse_further(statement, lines_in_part_ == most_lines_in_beat + 1, "a beat may have 1,000 lines; this is one more",
                   "begin another beat here");
  }

  void refuse_further(Statement& statement, bool first, const char* message, const char* next_step) {
    if (first) findings_.add(reading_error("parse.too-long", statement.span, message, next_step));
    break_statement(statement);
  }

  void add_change(const NodeView& line) {
    std::vector<NodeView> children = line.children();
    Statement change{read_body(line), When::unsaid, false, line.span()};
    change.span.end = children.front().span().end;
    end_speech();
    add(std::move(change));
    if (broken_last()) return;
    children.erase(children.begin());
    add(children, true);
  }

  void add_clauses(const NodeView& more) {
    end_speech();
    Clauses* clauses = script_.statements.empty() ? nullptr : clauses_of(script_.statements.back().body);
    if (clauses == nullptr) {
      if (broken_last()) return;
      Span plus = more.span();
      plus.end = plus.begin + 1;
      findings_.add(reading_error("parse.stray-more", plus, "there is no line above this `+` that takes clauses",
                                  "join it to its line, or write a line of its own"));
      return add_broken({more});
    }
    std::ranges::move(read_clauses(more), std::back_inserter(*clauses));
    check_clause_count();
  }

  void add_words(const NodeView& spoken) {
    SpeechLine* speech =
        script_.statements.empty() ? nullptr : std::get_if<SpeechLine>(&script_.statements.back().body);
    if (speech == nullptr) {
      if (broken_last()) return;
      findings_.add(reading_error("parse.stray-text", spoken.children().front().span(),
                                  "no speech stands above these words",
                                  "put them below the speech they belong to, or write `NAME: ` before them"));
      return add_broken({spoken});
    }
    for (const NodeView& text : spoken.children()) {
      std::ranges::move(read_speech_parts(text), std::back_inserter(speech->parts));
    }
  }

  // Once no more words can follow, a speech must have some.
  void end_speech() {
    if (script_.statements.empty()) return;
    Statement& last = script_.statements.back();
    const auto* speech = std::get_if<SpeechLine>(&last.body);
    if (speech == nullptr) return;
    const auto spoken = [](const SpeechPart& part) {
      return part.kind == SpeechPart::Kind::words && part.words.find_first_not_of(" \t") != std::string::npos;
    };
    if (std::ranges::any_of(speech->parts, spoken)) return check_words_spoken(last, *speech);
    Span where = last.span;
    if (bytes_[where.end - 1] == ':') where.begin = where.end - 1;
    findings_.add(reading_error("parse.empty-speech", where, "no words follow the colon",
                                "write them in quotation marks, here or on the next line"));
    break_statement(last);
  }

  void check_words_spoken(Statement& statement, const SpeechLine& speech) {
    std::size_t words = 0;
    for (const SpeechPart& part : speech.parts) {
      bool between = true;
      for (const char c : part.words) {
        const bool blank = c == ' ' || c == '\t';
        words += between && !blank ? 1 : 0;
        between = blank;
      }
    }
    if (words <= most_words_spoken) return;
    Span where = statement.span;
    where.end = where.begin + static_cast<std::uint32_t>(first_word(where.begin, where.end).size());
    findings_.add(reading_error("parse.too-long", where,
                                "a speech may have 4,000 words; this one has " + std::to_string(words),
                                "divide it into several speeches"));
    break_statement(statement);
  }

  void tell_wrong_place(Statement& statement) {
    const std::string word = first_word(statement.span.begin, statement.span.end);
    Span where = statement.span;
    where.end = where.begin + static_cast<std::uint32_t>(word.size());
    const bool heading = std::holds_alternative<HeadingLine>(statement.body);
    const std::string here =
        heading ? std::string("in a file of kind `") + spelling(part_of(file_)) + "`" : part_here();
    Finding finding =
        reading_error("parse.wrong-place", where, what_is_misplaced(statement, word) + " cannot stand " + here,
                      where_to_put(statement));
    if (const auto* deed = std::get_if<DeedLine>(&statement.body)) offer_declaration(statement, *deed, finding);
    findings_.add(std::move(finding));
    break_statement(statement);
  }

  std::string what_is_misplaced(const Statement& statement, const std::string& word) const {
    const auto* deed = std::get_if<DeedLine>(&statement.body);
    if (deed != nullptr && part_ == Part::opening && statement.when == When::unsaid) {
      return in_ticks(deed->verb) + " takes time and";
    }
    if (deed != nullptr) return "a deed";
    if (std::holds_alternative<SpeechLine>(statement.body)) return "a speech";
    return in_ticks(word) + " lines";
  }

  std::string part_here() const {
    if (part_ == Part::scene) return "above the opening";
    return std::string(part_ == Part::opening ? "in an `" : "in a `") + spelling(part_) + "`";
  }

  std::string where_to_put(const Statement& statement) const {
    if (std::holds_alternative<HeaderLine>(statement.body)) return "keep one language line, on line 1";
    if (std::holds_alternative<ChangeLine>(statement.body)) return "put it below `way NAME of BEAT`";
    if (std::holds_alternative<HeadingLine>(statement.body)) return "put it in a file of its own";
    const bool declares = std::holds_alternative<DeclarationLine>(statement.body) ||
                          std::holds_alternative<PeopleLine>(statement.body) ||
                          std::holds_alternative<RoomLine>(statement.body);
    if (declares) return "declare it above `opening` and the first beat";
    if (std::holds_alternative<SettingLine>(statement.body)) return "put it above the first heading below the scene";
    return part_ == Part::beat || part_ == Part::way ? "put it above the first beat" : "put it below a `beat`";
  }

  // `camera A is at (3, -1) m` above the opening is how a camera is declared, but for the comma.
  void offer_declaration(const Statement& statement, const DeedLine& deed, Finding& finding) const {
    const bool sets_up = part_ == Part::scene && (deed.verb == "is" || deed.verb == "are");
    if (!sets_up || statement.when != When::unsaid) return;
    finding.next_step = "put it below a line `opening`";
    const bool equipment = deed.subject != DeedLine::Subject::people && deed.who.names.size() == 1;
    if (!equipment || is_declared(deed.who.names.front().text)) return;
    Span gap = deed.verb_span;
    while (gap.begin > statement.span.begin && bytes_[gap.begin - 1] == ' ') --gap.begin;
    const auto text = [this](std::uint32_t begin, std::uint32_t end) {
      return std::string(bytes_.substr(begin, end - begin));
    };
    finding.message = std::string("a ") + (deed.subject == DeedLine::Subject::camera ? "camera" : "lamp") +
                      " is declared above the opening, with a comma for `" + deed.verb + "`";
    finding.next_step =
        "write " + in_ticks(text(statement.span.begin, gap.begin) + ',' + text(deed.verb_span.end, statement.span.end));
    finding.repairs.push_back({Repair::Kind::choice, "put a comma for `" + deed.verb + "`", {{gap, ","}}});
  }

  bool is_declared(const std::string& name) const {
    return std::ranges::any_of(script_.statements, [&name](const Statement& statement) {
      const auto* declaration = std::get_if<DeclarationLine>(&statement.body);
      return declaration != nullptr && declaration->name.text == name;
    });
  }

  void check_clause_count() {
    Statement& last = script_.statements.back();
    const Clauses* clauses = clauses_of(last.body);
    if (clauses == nullptr || clauses->size() <= most_clauses) return;
    findings_.add(reading_error("parse.too-long", (*clauses)[most_clauses].span, "this line has more than 64 clauses",
                                "divide it into several lines"));
    break_statement(last);
  }

  bool broken_last() const {
    return !script_.statements.empty() && std::holds_alternative<BrokenLine>(script_.statements.back().body);
  }

  void break_statement(Statement& statement) const {
    statement.body = BrokenLine{first_word(statement.span.begin, statement.span.end)};
  }

  void add_broken(const std::vector<NodeView>& top) {
    end_speech();
    Statement statement{BrokenLine{}, When::unsaid, false, top.front().span()};
    statement.span.end = top.back().span().end;
    break_statement(statement);
    enter_part(statement);
    script_.statements.push_back(std::move(statement));
  }

  // A line the grammar did not read.
  void add_unread(const TreeLine& line) {
    const char* const begin = bytes_.data() + line.begin;
    const char* end = bytes_.data() + line.end;
    while (end != begin && (end[-1] == '\n' || end[-1] == '\r')) --end;
    const auto first = line.begin + static_cast<std::uint32_t>(grammar::past_blanks(begin, end) - begin);
    const auto last = line.begin + static_cast<std::uint32_t>(end - begin);
    const std::string_view text = bytes_.substr(first, last - first);
    if (text.starts_with("<<<<<<<")) in_merge_ = true;
    if (text.starts_with(">>>>>>>")) in_merge_ = false;
    end_speech();
    Statement statement{BrokenLine{first_word(first, last)}, When::unsaid, false, {tree_.file, first, last}};
    enter_part(statement);
    script_.statements.push_back(std::move(statement));
  }

  // A broken heading still opens its part.
  void enter_part(const Statement& statement) {
    const std::string& word = std::get<BrokenLine>(statement.body).first_word;
    for (const Part part :
         {Part::film, Part::company, Part::kit, Part::set, Part::scene, Part::opening, Part::beat, Part::way}) {
      if (word == spelling(part)) part_ = part;
    }
  }

  std::string first_word(std::uint32_t begin, std::uint32_t end) const {
    std::string_view token = token_at(bytes_, begin, end);
    if (token.starts_with('"')) token = token.substr(0, 1);
    return std::string(token);
  }

  std::string_view bytes_;
  const Tree& tree_;
  Findings& findings_;
  Script script_;
  FileKind file_ = FileKind::scene;
  Part part_ = Part::scene;
  bool in_merge_ = false;
  std::size_t beats_ = 0, lines_in_part_ = 0;
};

}  // namespace

Script read_script(const SourceSet& sources, const Tree& tree, Findings& findings) {
  return ScriptReader(sources, tree, findings).read();
}

}  // namespace lensward
