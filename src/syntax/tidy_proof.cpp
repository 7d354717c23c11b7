#include "syntax/tidy_proof.h"

#include <algorithm>
#include <charconv>
#include <utility>

#include "grammar/letters.hpp"
#include "syntax/opening_words.h"
#include "syntax/parse.h"
#include "syntax/read_parts.h"
#include "syntax/spelling.h"
#include "syntax/verb_forms.h"

namespace lensward {
namespace {

std::string_view text_of(const ReadFile& file, const TreeLine& line) {
  std::string_view text = file.bytes.substr(line.begin, line.end - line.begin);
  if (!text.ends_with('\n')) return text;
  text.remove_suffix(1);
  if (text.ends_with('\r')) text.remove_suffix(1);
  return text;
}

// A number by its value, whatever its digits.
std::string value_of(std::string_view number) {
  const std::string plain = spelled_number(number);
  double value = 0;
  const auto read = std::from_chars(plain.data(), plain.data() + plain.size(), value);
  return read.ptr == plain.data() + plain.size() ? std::to_string(value) : plain;
}

std::string meaning_of(const Leaf& leaf, std::string_view written) {
  switch (leaf.kind) {
    case Leaf::Kind::word:
      return std::string(verb_of_one(spelled_word(written)));
    case Leaf::Kind::name:
      return spelled_name(written);
    case Leaf::Kind::number:
      return value_of(written);
    default:
      return std::string(written);
  }
}

// One statement with all that is folded into it.
struct Said {
  std::string head;
  std::vector<std::pair<int, std::string>> clauses;
  std::string words;
  bool in_time = true;

  bool operator==(const Said& other) const {
    return head == other.head && clauses == other.clauses && words == other.words;
  }
};

struct Comment {
  std::size_t after = 0;  // so many statements
  std::string text;

  bool operator==(const Comment&) const = default;
};

class Listing {
 public:
  explicit Listing(const ReadFile& file) : file_(file) {
    const std::vector<bool> keep = lines_to_keep(file);
    for (std::size_t i = 0; i < file.tree.lines.size(); ++i) add(file.tree.lines[i], keep[i]);
    for (Said& one : said_) {
      if (one.in_time) std::ranges::stable_sort(one.clauses, {}, &std::pair<int, std::string>::first);
    }
  }

  const std::vector<Said>& said() const { return said_; }
  const std::vector<Comment>& comments() const { return comments_; }

 private:
  void add(const TreeLine& line, bool keep) {
    const std::size_t first_leaf = leaf_;
    while (leaf_ < file_.tree.leaves.size() && file_.tree.leaves[leaf_].begin < line.end) ++leaf_;
    if (keep) {
      said_.push_back({"kept " + std::string(text_of(file_, line)), {}, {}, true});
      return;
    }
    tokens_.clear();
    for (std::size_t i = first_leaf; i < leaf_; ++i) {
      const Leaf& leaf = file_.tree.leaves[i];
      if (leaf.kind != Leaf::Kind::blank && leaf.kind != Leaf::Kind::line_end) tokens_.push_back(leaf);
    }
    if (line.node_count > 0) {
      add_statement(top_nodes(file_.bytes, file_.tree.file, file_.tree.nodes, line.first_node, line.node_count));
    }
    if (!tokens_.empty() && tokens_.back().kind == Leaf::Kind::comment) {
      std::string text = composed(written(tokens_.back()));
      while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r')) text.pop_back();
      comments_.push_back({said_.size(), std::move(text)});
    }
  }

  void add_statement(const std::vector<NodeView>& top) {
    const NodeView outer = top.back();
    const NodeView statement = outer.kind() == NodeKind::instead_of ? outer.children().back() : outer;
    const bool folds = (statement.kind() == NodeKind::more || statement.kind() == NodeKind::spoken) && !said_.empty() &&
                       !said_.back().head.starts_with("kept ");
    if (!folds) {
      said_.push_back({});
      said_.back().in_time = take_apart(statement, {}).in_time;
      for (const NodeView& node : top) said_.back().head += name_of(node.kind()) + std::string(" ");
    }
    Said& one = said_.back();
    std::uint32_t from = top.front().span().begin;
    for (const NodeView& child : statement.children()) {
      const bool words = child.kind() == NodeKind::text &&
                         (statement.kind() == NodeKind::speech || statement.kind() == NodeKind::spoken);
      if (!words && child.kind() != NodeKind::clause) {
        one.head += structure_of(child);
        continue;
      }
      if (!folds) one.head += meaning_between(from, child.span().begin);
      from = child.span().end;
      if (words) {
        add_words(child, one);
      } else {
        one.clauses.emplace_back(rank_of(child),
                                 structure_of(child) + meaning_between(child.span().begin, child.span().end));
      }
    }
    if (!folds) one.head += meaning_between(from, top.back().span().end);
  }

  void add_words(const NodeView& text, Said& one) const {
    for (const SpeechPart& part : read_speech_parts(text)) {
      if (part.kind == SpeechPart::Kind::words) {
        one.words += part.words;
      } else if (part.kind == SpeechPart::Kind::mark) {
        one.words += "[" + spelled_name(part.mark.text) + "]";
      } else {
        one.words += file_.bytes.substr(part.span.begin, part.span.end - part.span.begin);
      }
    }
    // A text that is broken at a space leaves the space out.
    one.words += ' ';
  }

  // Commas and the colon around clauses hold no meaning of their own; opening words are compared by what they call.
  std::string meaning_between(std::uint32_t begin, std::uint32_t end) const {
    std::string meaning;
    for (const Leaf& leaf : tokens_) {
      if (leaf.begin < begin || leaf.end > end || leaf.kind == Leaf::Kind::comment) continue;
      const std::string_view text = written(leaf);
      if (text == "," || text == ":") continue;
      const bool opening = leaf.kind == Leaf::Kind::quoted && is_opening_words(leaf);
      meaning += '\x1f' + (opening ? std::string("…") : meaning_of(leaf, text));
    }
    return meaning;
  }

  bool is_opening_words(const Leaf& leaf) const {
    return std::ranges::any_of(tokens_, [&](const Leaf& first) {
      const std::string_view word = written(first);
      return first.end <= leaf.begin && (word == "without" || word == "instead");
    });
  }

  // The kinds of the node and all below it.
  static std::string structure_of(const NodeView& node) {
    std::string structure = name_of(node.kind());
    structure += '(';
    for (const NodeView& child : node.children()) structure += structure_of(child);
    return structure + ')';
  }

  std::string_view written(const Leaf& leaf) const { return file_.bytes.substr(leaf.begin, leaf.end - leaf.begin); }

  const ReadFile& file_;
  std::size_t leaf_ = 0;
  std::vector<Leaf> tokens_;
  std::vector<Said> said_;
  std::vector<Comment> comments_;
};

std::string difference_in_calls(const ReadFile& before, const ReadFile& after) {
  const OpeningWords old_words(before.bytes, before.script);
  const OpeningWords new_words(after.bytes, after.script);
  const auto same = [](const CalledLines& a, const CalledLines& b) {
    return a.count == 0 || (a.count == b.count && (a.count != 1 || a.statement == b.statement));
  };
  if (!std::ranges::equal(old_words.called(), new_words.called(), same)) {
    return "the opening words of a way would call other lines";
  }
  return {};
}

}  // namespace

ReadFile read_file(const SourceSet& sources, std::int32_t file) {
  ReadFile read{sources.file(file).bytes(), {}, {}, {}};
  read.tree = parse(sources, file, read.findings);
  read.script = read_script(sources, read.tree, read.findings);
  return read;
}

std::vector<bool> lines_to_keep(const ReadFile& file) {
  const std::vector<TreeLine>& lines = file.tree.lines;
  std::vector<bool> keep(lines.size());
  bool in_merge = false;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    std::string_view text = text_of(file, lines[i]);
    text.remove_prefix(
        static_cast<std::size_t>(grammar::past_blanks(text.data(), text.data() + text.size()) - text.data()));
    if (lines[i].broken && text.starts_with("<<<<<<<")) in_merge = true;
    keep[i] = in_merge || lines[i].broken;
    if (lines[i].broken && text.starts_with(">>>>>>>")) in_merge = false;
  }
  for (const Statement& statement : file.script.statements) {
    if (!std::holds_alternative<BrokenLine>(statement.body)) continue;
    const auto past = std::ranges::upper_bound(lines, statement.span.begin, {}, &TreeLine::begin);
    if (past != lines.begin()) keep[static_cast<std::size_t>(past - lines.begin()) - 1] = true;
  }
  return keep;
}

std::string difference(const ReadFile& before, const ReadFile& after) {
  if (!std::ranges::equal(before.findings.all(), after.findings.all(), {}, &Finding::rule, &Finding::rule)) {
    return "other findings of reading would be made";
  }
  const Listing old_lines(before);
  const Listing new_lines(after);
  const auto [old_one, new_one] = std::ranges::mismatch(old_lines.said(), new_lines.said());
  if (old_one != old_lines.said().end() || new_one != new_lines.said().end()) {
    return "statement " + std::to_string(old_one - old_lines.said().begin() + 1) + " would not be the same";
  }
  if (old_lines.comments() != new_lines.comments()) return "a comment would not be the same";
  return difference_in_calls(before, after);
}

}  // namespace lensward
