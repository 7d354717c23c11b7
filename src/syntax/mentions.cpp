#include "syntax/mentions.h"

#include <algorithm>
#include <set>
#include <utility>

#include "grammar/letters.hpp"
#include "syntax/node_view.h"
#include "syntax/reading.h"
#include "syntax/spelling.h"

namespace lensward {
namespace {

using Role = Mention::Role;

// Walks the lines of a file and notes each name under the rule it stands in.
class Finder {
 public:
  Finder(std::string_view bytes, const Tree& tree) : bytes_(bytes), tree_(tree) {}

  std::vector<Mention> found() {
    for (const TreeLine& line : tree_.lines) {
      for (const NodeView& statement : top_nodes(bytes_, tree_.file, tree_.nodes, line.first_node, line.node_count))
        see_statement(statement);
    }
    tell_labels_from_things();
    std::ranges::sort(mentions_, {}, &Mention::span);
    return std::move(mentions_);
  }

 private:
  void note(Role role, Span span, bool declares, std::string kind = {}) {
    Mention mention;
    mention.role = role;
    mention.declares = declares;
    mention.name = spelled_name(bytes_.substr(span.begin, span.end - span.begin));
    if (role != Role::beat && role != Role::scene) mention.within = part_;
    mention.kind = std::move(kind);
    mention.span = span;
    mentions_.push_back(std::move(mention));
  }

  // A name, an owner or a path: what counts is its first name.
  Span bare(Span span) const {
    const std::string_view text = bytes_.substr(span.begin, span.end - span.begin);
    std::size_t length = std::min(text.find('.'), text.size());
    for (const std::string_view owner : {"'s", "’s"}) {
      if (text.ends_with(owner)) length = std::min(length, text.size() - owner.size());
    }
    return {span.file, span.begin, span.begin + static_cast<std::uint32_t>(length)};
  }

  std::string text_at(const NodeView& node) const { return spelled_name(node.text()); }

  void see_statement(const NodeView& statement) {
    switch (statement.kind()) {
      case NodeKind::other_part:
        return see_heading(statement);
      case NodeKind::opening:
        part_ = "opening";
        for (const NodeView& of : statement.children(NodeKind::path)) note(Role::scene, of.span(), false);
        return;
      case NodeKind::scene:
        note(Role::scene, statement.the(NodeKind::bare_name).span(), true, "scene");
        return see_children(statement, NodeKind::bare_name);
      case NodeKind::way:
      case NodeKind::choose:
        return see_way(statement);
      case NodeKind::people:
        return see_people(statement);
      case NodeKind::declare:
        note(Role::thing, statement.the(NodeKind::bare_name).span(), true, std::string(statement.only().text()));
        return see_children(statement, NodeKind::bare_name);
      case NodeKind::mark_line:
        note(part_.empty() ? Role::thing : Role::mark, statement.the(NodeKind::bare_name).span(), true, "mark");
        return see_children(statement, NodeKind::bare_name);
      case NodeKind::sound:
        note(Role::label, statement.the(NodeKind::bare_name).span(), true, "sound");
        return see_children(statement, NodeKind::bare_name);
      case NodeKind::extra:
        return see_children(statement, NodeKind::bare_name);
      case NodeKind::speech:
      case NodeKind::spoken:
        see(statement);
        return see_marks_in(statement);
      case NodeKind::instead_of:
        see_opening_words(statement.the(NodeKind::old_words).span());
        return see_statement(statement.children().back());
      case NodeKind::without:
        return see_opening_words(statement.the(NodeKind::old_words).span());
      default:
        return see(statement);
    }
  }

  void see_heading(const NodeView& heading) {
    const NodeView name = heading.the(NodeKind::bare_name);
    if (heading.the(NodeKind::heading_word).text() != "beat") return;
    part_ = text_at(name);
    note(Role::beat, name.span(), true, "beat");
  }

  void see_way(const NodeView& line) {
    const NodeView name = line.the(NodeKind::bare_name), of = line.the(NodeKind::path);
    const bool heading = line.kind() == NodeKind::way;
    note(Role::way, name.span(), heading, heading ? "way" : "");
    mentions_.back().within = text_at(of);
    note(Role::beat, of.span(), false);
    if (heading) part_ = text_at(of);
  }

  void see_people(const NodeView& line) {
    for (const NodeView& name : line.the(NodeKind::names).children(NodeKind::path))
      note(Role::thing, bare(name.span()), true, "person");
    see_children(line, NodeKind::names);
  }

  void see_children(const NodeView& node, NodeKind but) {
    for (const NodeView& child : node.children()) {
      if (child.kind() != but) see(child);
    }
  }

  void see(const NodeView& node) {
    switch (node.kind()) {
      case NodeKind::path:
      case NodeKind::owner:
      case NodeKind::bare_name:
        return note(Role::thing, bare(node.span()), false);
      case NodeKind::anchor:
        return note(Role::speech_mark, {node.span().file, node.span().begin + 1, node.span().end - 1}, false);
      case NodeKind::named: {
        const bool mark = node.text().starts_with("mark");
        return note(mark ? Role::mark : Role::label, node.the(NodeKind::bare_name).span(), true,
                    mark ? "mark" : "named");
      }
      case NodeKind::filed_extra:
        return;
      default:
        for (const NodeView& child : node.children()) see(child);
    }
  }

  // Between the quotation marks of a speech.
  void see_marks_in(const NodeView& speech) {
    for (const NodeView& text : speech.children(NodeKind::text)) {
      if (text.text().find('[') == std::string_view::npos) continue;
      const std::uint32_t mark = text.text().front() == '"' ? 1 : text.text().starts_with("«") ? 2 : 3;
      std::vector<Node> nodes;
      read_speech(bytes_, text.span().begin + mark, text.span().end - mark, nodes);
      for (const Node& node : nodes) {
        if (node.kind == NodeKind::mark_name)
          note(Role::speech_mark, {tree_.file, node.begin, node.end}, true, "speech");
      }
    }
  }

  // The opening words of a change repeat those of another line, byte for byte. Spoken words stay as they are.
  void see_opening_words(Span words) {
    const char* const base = bytes_.data();
    const char* const end = base + words.end;
    bool spoken = false;
    for (const char* at = base + words.begin; at < end;) {
      if (*at == '"') spoken = !spoken;
      const bool begins = grammar::is_upper(*at) || grammar::wide_size(at, end) > 0;
      const char* const first = at;
      do {
        at += std::max<std::size_t>(grammar::code_point(at, end).size, 1);
      } while (at < end && grammar::word_more_at(at, end));
      if (!begins || spoken) continue;
      note(Role::thing, bare({tree_.file, offset(first), offset(at)}), false);
      mentions_.back().quoted = true;
    }
  }

  std::uint32_t offset(const char* at) const { return static_cast<std::uint32_t>(at - bytes_.data()); }

  // A cue names a deed's label as it would a person. Labels and marks of a beat are never names of things.
  void tell_labels_from_things() {
    std::set<std::pair<std::string, std::string>> labels, marks;
    for (const Mention& mention : mentions_) {
      if (mention.role == Role::label) labels.emplace(mention.within, mention.name);
      if (mention.role == Role::mark) marks.emplace(mention.within, mention.name);
    }
    for (Mention& mention : mentions_) {
      if (mention.role != Role::thing) continue;
      const std::pair<std::string, std::string> key{mention.within, mention.name};
      if (labels.contains(key)) {
        mention.role = Role::label;
      } else if (marks.contains(key)) {
        mention.role = Role::mark;
      } else {
        mention.within.clear();
      }
    }
  }

  std::string_view bytes_;
  const Tree& tree_;
  std::string part_;  // the beat that the lines stand in
  std::vector<Mention> mentions_;
};

}  // namespace

std::vector<Mention> mentions_in(const SourceSet& sources, const Tree& tree) {
  return Finder(sources.file(tree.file).bytes(), tree).found();
}

}  // namespace lensward
