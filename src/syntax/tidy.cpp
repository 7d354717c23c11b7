#include "syntax/tidy.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "grammar/letters.hpp"
#include "source/character.h"
#include "syntax/broken.h"
#include "syntax/opening_words.h"
#include "syntax/spelling.h"
#include "syntax/tidy_line.h"
#include "syntax/tidy_proof.h"
#include "syntax/where_lines_stand.h"

namespace lensward {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

enum class LineClass { kept, blank, comment, heading, statement };

// What is known of a line before it is written.
struct Outlook {
  LineClass is = LineClass::blank;
  bool above_heading = false;         // a comment, with nothing but comments down to a heading
  bool frozen = false;                // opening words call it and others, and would call fewer
  bool pinned = false;                // opening words call it
  std::optional<std::size_t> change;  // the line is so manieth of a way's changes
  std::size_t first_leaf = 0, past_leaf = 0;
};

bool too_long(std::string_view line) {
  if (line.size() <= longest_line) return false;
  const auto first_bytes = [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; };
  return static_cast<std::size_t>(std::ranges::count_if(line, first_bytes)) > longest_line;
}

class Tidying {
 public:
  explicit Tidying(const ReadFile& file)
      : file_(file),
        names_(one_or_several(file.script)),
        opening_words_(file.bytes, file.script),
        outlooks_(file.tree.lines.size()),
        lines_(file.tree.lines.size()) {
    classify();
    look_for_headings();
    look_for_changes();
  }

  std::vector<LineChange> run() {
    for (std::size_t i = 0; i < lines_.size(); ++i) write(i);
    return std::move(lines_);
  }

 private:
  const std::vector<TreeLine>& lines() const { return file_.tree.lines; }

  NodeKind kind_of(const TreeLine& line) const { return file_.tree.nodes[line.first_node + line.node_count - 1].kind; }

  void classify() {
    const std::vector<bool> keep = lines_to_keep(file_);
    const std::vector<Leaf>& leaves = file_.tree.leaves;
    std::size_t leaf = 0;
    for (std::size_t i = 0; i < lines().size(); ++i) {
      Outlook& outlook = outlooks_[i];
      outlook.first_leaf = leaf;
      bool comment = false;
      for (; leaf < leaves.size() && leaves[leaf].begin < lines()[i].end; ++leaf) {
        comment = comment || leaves[leaf].kind == Leaf::Kind::comment;
      }
      outlook.past_leaf = leaf;
      outlook.is = keep[i]                           ? LineClass::kept
                   : lines()[i].node_count == 0      ? (comment ? LineClass::comment : LineClass::blank)
                   : is_heading(kind_of(lines()[i])) ? LineClass::heading
                                                     : LineClass::statement;
    }
  }

  static bool is_heading(NodeKind kind) {
    return kind == NodeKind::opening || kind == NodeKind::way || kind == NodeKind::scene ||
           kind == NodeKind::other_part;
  }

  void look_for_headings() {
    bool heading_next = false;
    for (auto outlook = outlooks_.rbegin(); outlook != outlooks_.rend(); ++outlook) {
      outlook->above_heading = heading_next && outlook->is == LineClass::comment;
      heading_next = outlook->is == LineClass::heading || outlook->above_heading;
    }
  }

  void look_for_changes() {
    std::size_t changes = 0;
    for (std::size_t i = 0; i < file_.script.statements.size(); ++i) {
      const Statement& statement = file_.script.statements[i];
      Outlook& outlook = outlooks_[line_at(statement.span.begin)];
      outlook.pinned = outlook.pinned || opening_words_.is_called(i);
      if (std::holds_alternative<ChangeLine>(statement.body)) outlook.change = changes++;
      if (opening_words_.is_called_unclearly(i)) outlook.frozen = true;
    }
  }

  std::size_t line_at(std::uint32_t offset) const {
    const auto past = std::ranges::upper_bound(lines(), offset, {}, &TreeLine::begin);
    return static_cast<std::size_t>(past - lines().begin()) - 1;
  }

  void write(std::size_t i) {
    const Outlook& outlook = outlooks_[i];
    if (outlook.is == LineClass::blank) {
      if (!blank_) blank_ = i;
      return;
    }
    write_blank(i);
    lines_[i].after = outlook.is == LineClass::kept ? kept(i) : arranged(i);
    for (std::string& line : lines_[i].after) {
      if (outlook.is != LineClass::kept) line += '\n';
    }
    begun_ = true;
    after_header_ = outlook.is == LineClass::statement && kind_of(lines()[i]) == NodeKind::header;
  }

  // The empty line above line i, when one must or may stand there.
  void write_blank(std::size_t i) {
    const bool heads = (outlooks_[i].is == LineClass::heading && (i == 0 || !outlooks_[i - 1].above_heading)) ||
                       (outlooks_[i].above_heading && (i == 0 || !outlooks_[i - 1].above_heading));
    const bool title = heads && after_header_ && names_the_file(i);
    if (begun_ && !title && (heads || blank_)) {
      if (blank_) {
        lines_[*blank_].after = {"\n"};
      } else {
        lines_[i].before = "\n";
      }
    }
    blank_.reset();
  }

  bool names_the_file(std::size_t i) const {
    while (outlooks_[i].above_heading) ++i;
    const NodeKind kind = kind_of(lines()[i]);
    if (kind == NodeKind::scene) return true;
    return kind == NodeKind::other_part && first_word(i) != "beat";
  }

  std::string_view text_of(std::size_t i) const {
    std::string_view text = file_.bytes.substr(lines()[i].begin, lines()[i].end - lines()[i].begin);
    if (i == 0 && text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
    if (!text.ends_with('\n')) return text;
    text.remove_suffix(1);
    if (text.ends_with('\r')) text.remove_suffix(1);
    return text;
  }

  std::string_view first_word(std::size_t i) const {
    std::string_view text = text_of(i);
    text.remove_prefix(
        static_cast<std::size_t>(grammar::past_blanks(text.data(), text.data() + text.size()) - text.data()));
    std::size_t length = 0;
    while (length < text.size() && grammar::is_lower(text[length])) ++length;
    return text.substr(0, length);
  }

  // A CR at the end of the text would be taken for half of a line end.
  std::vector<std::string> kept(std::size_t i) {
    enter_part(i);
    const std::string_view text = text_of(i);
    return {std::string(text) + (text.ends_with('\r') ? "\r\n" : "\n")};
  }

  void enter_part(std::size_t i) {
    const std::string_view word = first_word(i);
    if (word == "opening" || word == "beat" || word == "way") {
      indent_ = "  ";
    } else if (word == "film" || word == "company" || word == "kit" || word == "set" || word == "scene") {
      indent_ = "";
    }
  }

  std::span<const Leaf> leaves_of(std::size_t i) const {
    const Outlook& outlook = outlooks_[i];
    return std::span(file_.tree.leaves).subspan(outlook.first_leaf, outlook.past_leaf - outlook.first_leaf);
  }

  std::vector<TidyToken> tokens_of(std::size_t i) const {
    return tidy_tokens(file_.tree, lines()[i], leaves_of(i), file_.bytes, names_);
  }

  std::vector<std::string> arranged(std::size_t i) {
    const Outlook& outlook = outlooks_[i];
    std::vector<TidyToken> tokens = tokens_of(i);
    if (outlook.is == LineClass::comment) {
      return {(outlook.above_heading ? "" : std::string(indent_)) + tokens.back().spelled};
    }
    if (outlook.is == LineClass::heading) enter_part(i);
    if (outlook.change) respell_opening_words(*outlook.change, tokens);
    const NodeView top =
        top_nodes(file_.bytes, file_.tree.file, file_.tree.nodes, lines()[i].first_node, lines()[i].node_count).back();
    const NodeView statement = top.kind() == NodeKind::instead_of ? top.children().back() : top;
    TidyLine line = take_apart(statement, tokens);
    const bool folds = statement.kind() == NodeKind::more || statement.kind() == NodeKind::spoken;
    if (!folds) in_time_ = line.in_time;
    if (in_time_ && !outlook.pinned) order_clauses(line);
    const std::string_view indent = outlook.is == LineClass::heading ? std::string_view() : indent_;
    std::vector<std::string> written = put_together(line, indent, !outlook.pinned);
    if (outlook.frozen || std::ranges::any_of(written, too_long)) return {std::string(text_of(i))};
    return written;
  }

  // Opening words that call a line by its first words follow that line's new spelling.
  void respell_opening_words(std::size_t change, std::vector<TidyToken>& tokens) const {
    const auto begins = [&](const TidyToken& token) { return token.kind == Leaf::Kind::quoted; };
    const auto old_words = std::ranges::find_if(tokens, begins);
    if (old_words == tokens.end()) return;
    std::string& words = old_words->spelled;
    words.erase(words.find_last_not_of(" \t") + 1);
    const CalledLines& called = opening_words_.called()[change];
    if (called.count == 0 || opening_words_.is_called_unclearly(called.statement)) return;
    if (called.by_text) {
      words = prefix_of(file_.script.statements[called.statement].span.begin, words.size());
    } else if (grammar::name_more_at(words.data(), words.data() + words.size())) {
      words = spelled_name(words);
    }
  }

  // The first `length` bytes of a statement as they are spelt now.
  std::string prefix_of(std::uint32_t begin, std::size_t length) const {
    const auto end = begin + static_cast<std::uint32_t>(length);
    std::vector<TidyToken> tokens = tokens_of(line_at(begin));
    std::erase_if(tokens, [&](const TidyToken& token) { return token.begin < begin || token.begin >= end; });
    if (!tokens.empty() && tokens.back().end > end) {
      TidyToken& last = tokens.back();
      const std::string_view part = file_.bytes.substr(last.begin, end - last.begin);
      if (last.spelled.starts_with(part)) last.spelled = part;
    }
    return joined(tokens);
  }

  const ReadFile& file_;
  const OneOrSeveral names_;
  const OpeningWords opening_words_;
  std::vector<Outlook> outlooks_;
  std::vector<LineChange> lines_;
  std::optional<std::size_t> blank_;  // the first of the empty lines just passed
  bool begun_ = false;
  bool after_header_ = false;
  bool in_time_ = false;
  std::string_view indent_;
};

std::string joined_lines(std::vector<LineChange>& lines) {
  std::string text;
  for (LineChange& line : lines) {
    text += line.before;
    for (const std::string& after : line.after) text += after;
  }
  // A mark that was not the first would become the file's own.
  if (text.starts_with(byte_order_mark)) {
    text.insert(0, byte_order_mark);
    const auto first = std::ranges::find_if(lines, [](const LineChange& line) { return !line.after.empty(); });
    first->after[0].insert(0, byte_order_mark);
  }
  return text;
}

}  // namespace

Tidied tidy(const SourceSet& sources, std::int32_t file) {
  ReadFile before = read_file(sources, file);
  Tidied tidied;
  if (before.bytes.size() <= longest_file) {
    tidied.lines = Tidying(before).run();
    tidied.text = joined_lines(tidied.lines);
    SourceSet again;
    again.add(SourceFile(sources.file(file).name(), tidied.text));
    tidied.refusal = difference(before, read_file(again, 0));
  } else {
    tidied.text = before.bytes;
  }
  if (!tidied.refusal.empty()) tidied.text = before.bytes;
  tidied.findings = std::move(before.findings);
  return tidied;
}

}  // namespace lensward
