#include "editor/naming.h"

#include <algorithm>
#include <map>

#include "mend/edited_text.h"
#include "source/character.h"
#include "source/spelling_of_names.h"
#include "syntax/opening_words.h"
#include "syntax/parse.h"

namespace lensward {
namespace {

using Role = Mention::Role;

std::string in_ticks(std::string_view name) { return '`' + printable(name) + '`'; }

std::string place_words(const ReadFiles& read, Span span) {
  const std::string line = "line " + std::to_string(read.sources.begin_of(span).line);
  return span.file == read.tree().file ? line : read.sources.file(span.file).name() + ", " + line;
}

// ---- The files that speak of the same things ----------------------------------------------------------------------

bool declares(const ReadFiles& read, int file, const Mention& mention) {
  const std::vector<Mention> all = read.mentions(file);
  return std::ranges::any_of(all, [&](const Mention& one) { return one.declares && one.means_same_as(mention); });
}

std::vector<int> all_files(const ReadFiles& read) {
  std::vector<int> all;
  for (std::size_t i = 0; i < read.gathered.files.size(); ++i) all.push_back(static_cast<int>(i));
  return all;
}

std::vector<int> files_that_share(const ReadFiles& read, const Mention& mention) {
  if (mention.role == Role::scene) return all_files(read);
  if (mention.role != Role::thing) return {read.own};
  for (int shared : files_for(read.gathered, read.own)) {
    const bool own_scene = read.file(shared).kind == FileKind::scene;
    if (own_scene || !declares(read, shared, mention)) continue;
    std::vector<int> users = all_files(read);
    std::erase_if(users, [&](int file) {
      const std::vector<int> used = files_for(read.gathered, file);
      return std::ranges::find(used, shared) == used.end();
    });
    return users;
  }
  return {read.own};
}

// ---- Is the new name to be had? -----------------------------------------------------------------------------------

bool is_name(const std::string& name) {
  SourceSet sources;
  Findings findings;
  const Tree tree = parse(sources, sources.add(SourceFile("", "people " + name)), findings);
  const std::vector<Mention> found = mentions_in(sources, tree);
  return found.size() == 1 && found[0].span.end - found[0].span.begin == name.size();
}

bool within_beat(Role role) { return role == Role::label || role == Role::mark; }

// Whether one name could be taken for the other. Labels and marks stand beside the names of things.
bool compete(const Mention& one, const Mention& other) {
  const bool beside =
      (one.role == Role::thing || within_beat(one.role)) && (other.role == Role::thing || within_beat(other.role));
  if (!beside) return one.role == other.role && one.within == other.within;
  return one.role == Role::thing || other.role == Role::thing || one.within == other.within;
}

std::optional<std::string> taken_by(const ReadFiles& read, const std::vector<int>& files, const Mention& target,
                                    const std::string& name) {
  const std::string looks = looks_of(name);
  for (int file : files) {
    for (const Mention& other : read.mentions(file)) {
      if (other.means_same_as(target) || !compete(other, target) || looks_of(other.name) != looks) continue;
      const std::string there = place_words(read, other.span);
      if (other.name == name) return in_ticks(name) + " is taken: it stands in " + there;
      return in_ticks(name) + " looks like " + in_ticks(other.name) + " in " + there;
    }
  }
  return std::nullopt;
}

// ---- The proof ----------------------------------------------------------------------------------------------------

struct Read {
  SourceSet sources;
  Tree tree;
  std::vector<Mention> mentions;
  std::vector<CalledLines> called;
};

Read read_again(std::string text) {
  Read read;
  Findings findings;
  read.tree = parse(read.sources, read.sources.add(SourceFile("", std::move(text))), findings);
  read.mentions = mentions_in(read.sources, read.tree);
  const Script script = read_script(read.sources, read.tree, findings);
  read.called = OpeningWords(read.sources.file(0).bytes(), script).called();
  return read;
}

bool same_shape(const Tree& one, const Tree& other) {
  const auto lines = [](const TreeLine& a, const TreeLine& b) {
    return a.broken == b.broken && a.node_count == b.node_count;
  };
  const auto nodes = [](const Node& a, const Node& b) { return a.kind == b.kind && a.subtree == b.subtree; };
  const auto leaves = [](const Leaf& a, const Leaf& b) { return a.kind == b.kind; };
  return std::ranges::equal(one.lines, other.lines, lines) && std::ranges::equal(one.nodes, other.nodes, nodes) &&
         std::ranges::equal(one.leaves, other.leaves, leaves);
}

bool same_calls(const CalledLines& one, const CalledLines& other) {
  return one.count == other.count && (one.count == 0 || one.statement == other.statement);
}

// Why the changed text would say something else; nothing when it does not.
std::optional<std::string> otherwise_read(const std::string& old_text, const std::string& new_text,
                                          const Mention& target, const std::string& name) {
  const Read before = read_again(old_text), after = read_again(new_text);
  if (!std::ranges::equal(before.called, after.called, same_calls))
    return "the opening words of a change would no longer fit the line they call";
  const auto follows = [&](Mention one, const Mention& other) {
    if (one.means_same_as(target)) one.name = name;
    if (target.role == Role::beat && one.within == target.name) one.within = name;
    return one.means_same_as(other) && one.declares == other.declares;
  };
  if (!same_shape(before.tree, after.tree) || !std::ranges::equal(before.mentions, after.mentions, follows))
    return "a line would read otherwise than it does now";
  return std::nullopt;
}

std::optional<std::string> refused(const ReadFiles& read, const std::vector<TextEdit>& edits, const Mention& target,
                                   const std::string& name) {
  std::map<std::int32_t, std::vector<TextEdit>> by_file;
  for (const TextEdit& edit : edits) by_file[edit.where.file].push_back(edit);
  for (const auto& [file, changes] : by_file) {
    const std::string old_text(read.sources.file(file).bytes());
    if (auto why = otherwise_read(old_text, edited_text(old_text, changes), target, name)) return why;
  }
  return std::nullopt;
}

}  // namespace

std::optional<Mention> mention_at(const ReadFiles& read, std::uint32_t offset) {
  std::optional<Mention> before;
  for (Mention& mention : read.mentions(read.own)) {
    if (mention.span.begin <= offset && offset < mention.span.end) return mention;
    if (mention.span.end == offset) before = std::move(mention);
  }
  return before;
}

std::vector<Mention> places_of(const ReadFiles& read, const Mention& mention) {
  std::vector<Mention> places;
  for (int file : files_that_share(read, mention)) {
    for (Mention& other : read.mentions(file)) {
      if (other.means_same_as(mention)) places.push_back(std::move(other));
    }
  }
  return places;
}

std::variant<std::vector<TextEdit>, NotRenamed> renamed(const ReadFiles& read, std::uint32_t offset,
                                                        const std::string& name) {
  const std::optional<Mention> target = mention_at(read, offset);
  if (!target) return NotRenamed{"there is no name here to change"};
  if (!is_name(name))
    return NotRenamed{in_ticks(name) +
                      " is no name: a name is one word that begins with a capital, such as `Hall-Door`"};
  if (name == target->name) return std::vector<TextEdit>{};
  if (const auto why = taken_by(read, files_that_share(read, *target), *target, name)) return NotRenamed{*why};
  std::vector<TextEdit> edits;
  for (const Mention& place : places_of(read, *target)) edits.push_back({place.span, name});
  if (const auto why = refused(read, edits, *target, name)) {
    return NotRenamed{in_ticks(target->name) + " stays as it is: with " + in_ticks(name) + ' ' + *why};
  }
  return edits;
}

}  // namespace lensward
