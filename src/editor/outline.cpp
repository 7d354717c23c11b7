#include "editor/outline.h"

#include <utility>

namespace lensward {
namespace {

using Kind = OutlineEntry::Kind;

Kind kind_of(const DeclarationLine& line) {
  switch (line.kind) {
    case DeclarationLine::Kind::group:
    case DeclarationLine::Kind::crowd:
      return Kind::group;
    case DeclarationLine::Kind::story:
      return Kind::story;
    case DeclarationLine::Kind::camera:
    case DeclarationLine::Kind::lens:
    case DeclarationLine::Kind::light:
      return Kind::equipment;
    default:
      return Kind::thing;
  }
}

Kind kind_of(const HeadingLine& line) {
  switch (line.kind) {
    case HeadingLine::Kind::opening:
      return Kind::opening;
    case HeadingLine::Kind::beat:
      return Kind::beat;
    case HeadingLine::Kind::way:
      return Kind::way;
    default:
      return Kind::file;
  }
}

class Outliner {
 public:
  explicit Outliner(const ReadFiles& read) : read_(read) {}

  std::vector<OutlineEntry> made() {
    for (const Statement& statement : read_.file(read_.own).script.statements) {
      if (const auto* heading = std::get_if<HeadingLine>(&statement.body)) {
        see(*heading, statement.span);
      } else if (const auto* people = std::get_if<PeopleLine>(&statement.body)) {
        for (const Name& name : people->names) add({Kind::person, name.text, "person", name.span, name.span, {}});
      } else if (const auto* declared = std::get_if<DeclarationLine>(&statement.body)) {
        add({kind_of(*declared),
             declared->name.text,
             word_before(declared->name.span, statement.span),
             statement.span,
             declared->name.span,
             {}});
      } else if (std::holds_alternative<RoomLine>(statement.body)) {
        add({Kind::room, "room", "", statement.span, statement.span, {}});
      }
    }
    close_down_to(0, static_cast<std::uint32_t>(read_.text().size()));
    return std::move(top_);
  }

 private:
  // How deep a heading stands: a file's own first, beats in that, ways in beats.
  static std::size_t depth_of(Kind kind) { return kind == Kind::file ? 0 : kind == Kind::way ? 2 : 1; }

  std::string word_before(Span name, Span line) const {
    const std::string_view words = read_.text().substr(line.begin, name.begin - line.begin);
    return std::string(words.substr(0, words.find_first_of(" \t")));
  }

  void see(const HeadingLine& heading, Span span) {
    const Kind kind = kind_of(heading);
    close_down_to(depth_of(kind), span.begin);
    const bool nameless = heading.name.text.empty();
    std::string detail = heading.title ? heading.title->words : "";
    if (kind == Kind::way && heading.of) detail = "of " + heading.of->text + (detail.empty() ? "" : ", " + detail);
    open_.push_back(
        {kind, nameless ? "opening" : heading.name.text, detail, span, nameless ? span : heading.name.span, {}});
  }

  void add(OutlineEntry entry) {
    auto& into = open_.empty() ? top_ : open_.back().parts;
    into.push_back(std::move(entry));
  }

  void close_down_to(std::size_t depth, std::uint32_t end) {
    while (!open_.empty() && depth_of(open_.back().kind) >= depth) {
      OutlineEntry entry = std::move(open_.back());
      open_.pop_back();
      entry.whole.end = end;
      add(std::move(entry));
    }
  }

  const ReadFiles& read_;
  std::vector<OutlineEntry> open_, top_;
};

}  // namespace

std::vector<OutlineEntry> outline_of_file(const ReadFiles& read) { return Outliner(read).made(); }

}  // namespace lensward
