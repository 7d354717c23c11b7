// From bytes to lines, and each line to its nodes and leaves. What the grammar refuses becomes one unread leaf.
#include "syntax/parse.h"

#include <utility>

#include "grammar/letters.hpp"
#include "syntax/broken.h"
#include "syntax/node_view.h"
#include "syntax/reading.h"

namespace lensward {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr int major_version = 1;
constexpr int minor_version = 0;

class Parser {
 public:
  Parser(std::string_view bytes, std::int32_t file, Findings& findings)
      : bytes_(bytes), reader_(bytes), findings_(findings) {
    tree_.file = file;
    // A guess from the examples, to spare the vectors most of their growing.
    tree_.leaves.reserve(bytes.size() / 4);
    tree_.nodes.reserve(bytes.size() / 4);
  }

  Tree parse() {
    if (bytes_.size() > longest_file) {
      refuse_file();
      return std::move(tree_);
    }
    std::uint32_t begin = 0;
    while (begin < bytes_.size()) {
      if (tree_.lines.size() == most_lines) {
        refuse_lines_from(begin);
        break;
      }
      begin = read_line_from(begin);
    }
    tell_newer_minor();
    return std::move(tree_);
  }

 private:
  // Returns where the next line begins.
  std::uint32_t read_line_from(std::uint32_t begin) {
    TreeLine line;
    line.begin = begin;
    const std::size_t line_feed = bytes_.find('\n', begin);
    line.end = static_cast<std::uint32_t>(line_feed == std::string_view::npos ? bytes_.size() : line_feed + 1);
    line.first_node = static_cast<std::uint32_t>(tree_.nodes.size());
    std::uint32_t end = line.end;
    if (line_feed != std::string_view::npos) --end;
    if (end < line.end && end > begin && bytes_[end - 1] == '\r') --end;
    if (begin == 0 && bytes_.starts_with(byte_order_mark)) {
      begin = byte_order_mark.size();
      add_leaf(Leaf::Kind::blank, 0, begin);
    }
    line.broken = !read(LineText{bytes_, tree_.file, begin, end}, line);
    add_leaf(Leaf::Kind::line_end, end, line.end);
    line.node_count = static_cast<std::uint32_t>(tree_.nodes.size()) - line.first_node;
    tree_.lines.push_back(line);
    return line.end;
  }

  bool read(const LineText& line, const TreeLine& tree_line) {
    const std::size_t leaves = tree_.leaves.size();
    std::optional<Finding> finding;
    if (!closed_) {
      finding = refuse(line);
      if (!finding) finding = read_with_grammar(line, tree_line);
      if (!finding) return true;
    }
    tree_.nodes.resize(tree_line.first_node);
    tree_.leaves.resize(leaves);
    add_leaf(Leaf::Kind::unread, line.begin, line.end);
    header_seen_ = true;
    if (minor_ > minor_version) {
      ++not_understood_;
    } else if (finding) {
      findings_.add(std::move(*finding));
    }
    return false;
  }

  std::optional<Finding> read_with_grammar(const LineText& line, const TreeLine& tree_line) {
    if (const auto stop = reader_.read(line.begin, line.end, tree_)) return explain(line, *stop);
    const auto end = static_cast<std::uint32_t>(tree_.nodes.size());
    if (end == tree_line.first_node) return std::nullopt;
    const NodeView statement(bytes_, tree_.file, tree_.nodes, end - 1);
    if (!header_seen_) see_header(statement);
    const bool change = statement.kind() == NodeKind::instead_of;
    return check_statement(change ? statement.children().back() : statement);
  }

  // What the grammar lets pass and yet cannot be read.
  std::optional<Finding> check_statement(const NodeView& statement) const {
    switch (statement.kind()) {
      case NodeKind::merge_mark:
        return reading_error("parse.merge-marker", statement.span(),
                             "an unfinished merge: both sides were read, neither is in force",
                             "keep one side and delete the lines with the marks");
      case NodeKind::speech:
      case NodeKind::spoken:
        if (statement.text().find('[') == std::string_view::npos) return std::nullopt;
        return check_marks(statement);
      case NodeKind::deed_line:
        if (statement.text().find(" say") == std::string_view::npos) return std::nullopt;
        return check_verb(statement);
      default:
        return std::nullopt;
    }
  }

  std::optional<Finding> check_marks(const NodeView& speech) const {
    for (const NodeView& text : speech.children()) {
      if (text.kind() != NodeKind::text || text.text().find('[') == std::string_view::npos) continue;
      const std::uint32_t mark = text.text().front() == '"' ? 1 : text.text().starts_with("«") ? 2 : 3;
      const std::uint32_t end = text.span().end - mark;
      std::vector<Node> nodes;
      const auto at = read_speech(bytes_, text.span().begin + mark, end, nodes);
      if (!at) continue;
      const std::size_t close = bytes_.substr(0, end).find(']', *at);
      const std::uint32_t past = close == std::string_view::npos ? *at + 1 : static_cast<std::uint32_t>(close) + 1;
      return reading_error("parse.unfinished-mark", {tree_.file, *at, past},
                           in_ticks(bytes_.substr(*at, past - *at)) + " is neither a mark nor a pause",
                           "write a name, as in `[Turn]`, or a time, as in `[pause 0.8 s]`");
    }
    return std::nullopt;
  }

  std::optional<Finding> check_verb(const NodeView& deed) const {
    const NodeView verb = deed.the(NodeKind::verb);
    if (verb.text() != "says" && verb.text() != "say") return std::nullopt;
    return reading_error("parse.no-colon", verb.span(),
                         "there is no " + in_ticks(verb.text()) + " in front of a speech",
                         "write `NAME to NAME: \"…\"`");
  }

  void see_header(const NodeView& first) {
    header_seen_ = true;
    if (first.kind() != NodeKind::header) {
      Span where = first.span();
      where.end = where.begin + static_cast<std::uint32_t>(token_at(bytes_, where.begin, where.end).size());
      findings_.add(reading_error("parse.header-missing", where, "no language line stands above the first line",
                                  "put `staging 1.0 scene` on line 1"));
      return;
    }
    const NodeView version = first.the(NodeKind::version);
    header_ = version.span();
    // More digits than any version has read as newer.
    const auto part = [](std::string_view digits) {
      return digits.size() > 6 ? 999999 : std::stoi(std::string(digits));
    };
    const std::size_t dot = version.text().find('.');
    minor_ = part(version.text().substr(dot + 1));
    if (part(version.text().substr(0, dot)) <= major_version) return;
    closed_ = true;
    findings_.add(reading_error(
        "parse.newer-language", version.span(),
        "this file speaks staging " + std::string(version.text()) + "; this program reads 1.0, and guesses nothing",
        "use a newer lensward, or write `staging 1.0`"));
  }

  void tell_newer_minor() {
    if (not_understood_ == 0) return;
    Finding finding =
        reading_error("parse.newer-minor", header_,
                      in_ticks("staging " + std::string(bytes_.substr(header_.begin, header_.end - header_.begin))) +
                          " is newer than this program (1.0): " + std::to_string(not_understood_) +
                          (not_understood_ == 1 ? " line was not understood and its beat is not judged"
                                                : " lines were not understood and their beats are not judged"),
                      "use a newer lensward to check them");
    finding.severity = Severity::warning;
    findings_.add(std::move(finding));
  }

  void refuse_file() {
    const auto end = static_cast<std::uint32_t>(bytes_.size());
    tree_.lines.push_back({true, 0, end, 0, 0});
    add_leaf(Leaf::Kind::unread, 0, end);
    findings_.add(reading_error(
        "parse.too-long", {tree_.file, 0, 0},
        "this file holds " + std::to_string(bytes_.size()) + " bytes; a file may hold " + std::to_string(longest_file),
        "divide it: one scene a file, with the set and the people in files it uses"));
  }

  void refuse_lines_from(std::uint32_t begin) {
    const auto end = static_cast<std::uint32_t>(bytes_.size());
    tree_.lines.push_back({true, begin, end, static_cast<std::uint32_t>(tree_.nodes.size()), 0});
    add_leaf(Leaf::Kind::unread, begin, end);
    findings_.add(reading_error("parse.too-long", {tree_.file, begin, begin},
                                "a file may hold 20,000 lines; from here on nothing is read",
                                "divide it: one scene a file, with the set and the people in files it uses"));
  }

  void add_leaf(Leaf::Kind kind, std::uint32_t begin, std::uint32_t end) {
    if (begin < end) tree_.leaves.push_back({kind, begin, end});
  }

  std::string_view bytes_;
  LineReader reader_;
  Findings& findings_;
  Tree tree_;
  bool header_seen_ = false;
  bool closed_ = false;  // a newer major version: nothing below the header is read
  int minor_ = 0;
  int not_understood_ = 0;
  Span header_;
};

}  // namespace

Tree parse(const SourceSet& sources, std::int32_t file, Findings& findings) {
  return Parser(sources.file(file).bytes(), file, findings).parse();
}

std::string print(const SourceSet& sources, const Tree& tree) {
  const std::string_view bytes = sources.file(tree.file).bytes();
  std::string text;
  for (const Leaf& leaf : tree.leaves) text += bytes.substr(leaf.begin, leaf.end - leaf.begin);
  return text;
}

}  // namespace lensward
