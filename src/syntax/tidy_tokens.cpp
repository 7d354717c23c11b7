// Tokens as the style spells them.
#include <algorithm>
#include <initializer_list>

#include "syntax/read_parts.h"
#include "syntax/reading.h"
#include "syntax/spelling.h"
#include "syntax/tidy_line.h"
#include "syntax/verb_forms.h"

namespace lensward {
namespace {

// Quoted words stay as they are; a [Mark] among those of a speech is a name.
std::string spelled_quoted(std::string_view bytes, const TidyToken& token) {
  std::string written(bytes.substr(token.begin, token.end - token.begin));
  if (written.find('[') == std::string::npos) return written;
  const std::uint32_t mark = written.front() == '"' ? 1 : written.starts_with("«") ? 2 : 3;
  std::vector<Node> nodes;
  if (read_speech(bytes, token.begin + mark, token.end - mark, nodes)) return written;
  std::string spelled;
  std::uint32_t from = token.begin;
  for (const Node& node : nodes) {
    if (node.kind != NodeKind::mark_name) continue;
    spelled += bytes.substr(from, node.begin - from);
    spelled += spelled_name(bytes.substr(node.begin, node.end - node.begin));
    from = node.end;
  }
  return spelled + std::string(bytes.substr(from, token.end - from));
}

std::size_t names_in(const NodeView& subject) {
  const auto list = subject.kind() == NodeKind::names ? subject : subject.child(NodeKind::names);
  return list ? list->children(NodeKind::path).size() : 0;
}

class Speller {
 public:
  Speller(const Tree& tree, const TreeLine& line, std::string_view bytes, const OneOrSeveral& names)
      : tree_(tree), line_(line), bytes_(bytes), names_(names) {}

  std::vector<TidyToken> tokens(std::span<const Leaf> leaves) const {
    std::vector<TidyToken> tokens;
    for (const Leaf& leaf : leaves) {
      if (leaf.kind == Leaf::Kind::blank || leaf.kind == Leaf::Kind::line_end) continue;
      tokens.push_back({leaf.kind, leaf.begin, leaf.end, {}});
      tokens.back().spelled = spelled(tokens.back());
    }
    if (line_.node_count == 0) return tokens;
    const NodeView statement = top();
    if (statement.kind() == NodeKind::speech || statement.kind() == NodeKind::spoken) spell_marks(statement, tokens);
    if (statement.kind() == NodeKind::deed_line) agree(statement, tokens);
    return tokens;
  }

 private:
  NodeView top() const {
    const auto last = static_cast<std::uint32_t>(line_.first_node + line_.node_count - 1);
    const NodeView statement(bytes_, tree_.file, tree_.nodes, last);
    return statement.kind() == NodeKind::instead_of ? statement.children().back() : statement;
  }

  // A node of one of these kinds that begins at the token: a word of the writer's, or a version.
  bool begins(std::uint32_t at, std::initializer_list<NodeKind> kinds) const {
    const auto first = tree_.nodes.begin() + line_.first_node;
    return std::any_of(first, first + line_.node_count, [&](const Node& node) {
      return node.begin == at && std::ranges::find(kinds, node.kind) != kinds.end();
    });
  }

  std::string spelled(const TidyToken& token) const {
    const std::string_view written = bytes_.substr(token.begin, token.end - token.begin);
    switch (token.kind) {
      case Leaf::Kind::word: {
        const std::string_view one = spelled_word(written);
        if (one == written) break;
        if (begins(token.begin, {NodeKind::key, NodeKind::a_plain_word, NodeKind::verb})) break;
        return std::string(one);
      }
      case Leaf::Kind::name:
        return spelled_name(written);
      case Leaf::Kind::number:
        if (begins(token.begin, {NodeKind::version})) break;
        return spelled_number(written);
      case Leaf::Kind::comment: {
        const std::string comment = composed(written);
        std::string_view kept = comment;
        while (kept.ends_with(' ') || kept.ends_with('\t') || kept.ends_with('\r')) kept.remove_suffix(1);
        return std::string(kept);
      }
      default:
        break;
    }
    return std::string(written);
  }

  void spell_marks(const NodeView& speech, std::vector<TidyToken>& tokens) const {
    const std::vector<NodeView> texts = speech.children(NodeKind::text);
    for (TidyToken& token : tokens) {
      const auto is_it = [&](const NodeView& text) { return text.span().begin == token.begin; };
      if (std::ranges::any_of(texts, is_it)) token.spelled = spelled_quoted(bytes_, token);
    }
  }

  // The verb agrees with its subject, where the file tells whether that is one or several.
  void agree(const NodeView& deed, std::vector<TidyToken>& tokens) const {
    const NodeView verb = deed.the(NodeKind::verb);
    for (TidyToken& token : tokens) {
      if (token.begin != verb.span().begin) continue;
      const auto several = is_several(deed.the(NodeKind::subject).only());
      if (!several) return;
      token.spelled = *several ? verb_of_several(token.spelled) : verb_of_one(token.spelled);
      return;
    }
  }

  std::optional<bool> is_several(const NodeView& subject) const {
    if (subject.kind() == NodeKind::everyone) return false;
    const std::size_t count = names_in(subject);
    if (count > 1) return true;
    if (subject.kind() == NodeKind::of_cameras) return false;
    if (subject.kind() != NodeKind::names) return std::nullopt;
    const auto known = names_.find(spelled_name(subject.the(NodeKind::path).text()));
    return known == names_.end() ? std::nullopt : std::optional(known->second);
  }

  const Tree& tree_;
  const TreeLine& line_;
  std::string_view bytes_;
  const OneOrSeveral& names_;
};

bool blank_between(const TidyToken& left, const TidyToken& right) {
  if (left.kind == Leaf::Kind::punctuation && left.spelled == "(") return false;
  return right.spelled != "," && right.spelled != ":" && right.spelled != ")" && right.spelled != "%";
}

}  // namespace

OneOrSeveral one_or_several(const Script& script) {
  OneOrSeveral names;
  for (const Statement& statement : script.statements) {
    if (const auto* people = std::get_if<PeopleLine>(&statement.body)) {
      for (const Name& name : people->names) names[spelled_name(name.text)] = false;
    }
    const auto* declared = std::get_if<DeclarationLine>(&statement.body);
    using Kind = DeclarationLine::Kind;
    if (declared != nullptr && (declared->kind == Kind::group || declared->kind == Kind::crowd)) {
      names[spelled_name(declared->name.text)] = true;
    }
  }
  return names;
}

std::vector<TidyToken> tidy_tokens(const Tree& tree, const TreeLine& line, std::span<const Leaf> leaves,
                                   std::string_view bytes, const OneOrSeveral& names) {
  return Speller(tree, line, bytes, names).tokens(leaves);
}

std::string joined(std::span<const TidyToken> tokens) {
  std::string text;
  for (std::size_t i = 0; i < tokens.size(); ++i) {
    if (i > 0 && blank_between(tokens[i - 1], tokens[i])) text += ' ';
    text += tokens[i].spelled;
  }
  return text;
}

}  // namespace lensward
