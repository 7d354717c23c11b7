#include "syntax/merge.h"

#include <algorithm>

namespace lensward {
namespace {

bool is_equipment(const DeclarationLine& line) {
  using Kind = DeclarationLine::Kind;
  return line.kind == Kind::camera || line.kind == Kind::lens || line.kind == Kind::light;
}

class Merger {
 public:
  Merger(const SourceSet& sources, const Gathered& gathered, int scene, const std::set<std::string>& also_named)
      : gathered_(gathered), scene_(scene), wanted_(also_named) {
    for (int index : files_for(gathered, scene)) {
      const FileKind kind = file(index).kind;
      if (kind != FileKind::scene && kind != FileKind::set) continue;
      for (const auto& [name, count] : names_in(sources, file(index).tree)) wanted_.insert(name);
    }
  }

  Script merged() {
    want_members_of_groups();
    want_a_camera();
    Script script;
    script.file = file(scene_).script.file;
    for (int index : files_for(gathered_, scene_)) {
      const GatheredFile& part = file(index);
      if (index == scene_) {
        const std::vector<Statement>& own = part.script.statements;
        script.statements.insert(script.statements.end(), own.begin(), own.end());
      } else {
        for (const Statement& statement : part.script.statements) take(statement, part.kind, script);
      }
    }
    return script;
  }

 private:
  const GatheredFile& file(int index) const { return gathered_.files[static_cast<std::size_t>(index)]; }
  bool wanted(const Name& name) const { return wanted_.count(name.text) > 0; }

  template <class Line, class Do>
  void each_brought_in(const Do& see) {
    for (int index : files_for(gathered_, scene_)) {
      const FileKind kind = file(index).kind;
      if (kind != FileKind::company && kind != FileKind::kit) continue;
      for (const Statement& statement : file(index).script.statements) {
        if (const auto* line = std::get_if<Line>(&statement.body)) see(*line);
      }
    }
  }

  // Groups may be of groups; each turn goes one deeper.
  void want_members_of_groups() {
    for (std::size_t before = 0; before != wanted_.size();) {
      before = wanted_.size();
      each_brought_in<DeclarationLine>([&](const DeclarationLine& line) {
        if (line.kind != DeclarationLine::Kind::group || !wanted(line.name)) return;
        const auto* of = find<OfClause>(line.clauses);
        if (of == nullptr) return;
        for (const Name& name : of->names) wanted_.insert(name.text);
      });
    }
  }

  void want_a_camera() {
    const Name* first = nullptr;
    bool any = false;
    each_brought_in<DeclarationLine>([&](const DeclarationLine& line) {
      if (line.kind != DeclarationLine::Kind::camera) return;
      if (first == nullptr) first = &line.name;
      any = any || wanted(line.name);
    });
    const auto& own = file(scene_).script.statements;
    any = any || std::any_of(own.begin(), own.end(), [](const Statement& statement) {
            const auto* line = std::get_if<DeclarationLine>(&statement.body);
            return line != nullptr && line->kind == DeclarationLine::Kind::camera;
          });
    if (!any && first != nullptr) wanted_.insert(first->text);
  }

  void take(const Statement& statement, FileKind kind, Script& script) const {
    if (const auto* people = std::get_if<PeopleLine>(&statement.body)) {
      PeopleLine here = *people;
      std::erase_if(here.names, [&](const Name& name) { return !wanted(name); });
      if (here.names.empty()) return;
      Statement reduced = statement;
      reduced.body = std::move(here);
      script.statements.push_back(std::move(reduced));
      return;
    }
    if (const auto* line = std::get_if<DeclarationLine>(&statement.body)) {
      const bool for_all =
          kind == FileKind::set || !(is_equipment(*line) || line->kind == DeclarationLine::Kind::group);
      if (for_all || wanted(line->name)) script.statements.push_back(statement);
      return;
    }
    const bool counts =
        std::holds_alternative<SettingLine>(statement.body) || std::holds_alternative<ChooseLine>(statement.body) ||
        std::holds_alternative<WaiveLine>(statement.body) || std::holds_alternative<NoteLine>(statement.body) ||
        std::holds_alternative<RoomLine>(statement.body) || std::holds_alternative<MarkLine>(statement.body);
    if (counts) script.statements.push_back(statement);
  }

  const Gathered& gathered_;
  int scene_;
  std::set<std::string> wanted_;
};

}  // namespace

Script merged_script(const SourceSet& sources, const Gathered& gathered, int scene,
                     const std::set<std::string>& also_named) {
  return Merger(sources, gathered, scene, also_named).merged();
}

std::map<std::string, int> names_in(const SourceSet& sources, const Tree& tree) {
  std::map<std::string, int> names;
  const std::string_view bytes = sources.file(tree.file).bytes();
  for (const Leaf& leaf : tree.leaves) {
    if (leaf.kind != Leaf::Kind::name) continue;
    std::string_view name = bytes.substr(leaf.begin, leaf.end - leaf.begin);
    // Marks in speech are not things.
    if (name.starts_with('[')) continue;
    for (const std::string_view owner : {"'s", "’s"}) {
      if (name.ends_with(owner)) name.remove_suffix(owner.size());
    }
    ++names[std::string(name.substr(0, name.find('.')))];
  }
  return names;
}

}  // namespace lensward
