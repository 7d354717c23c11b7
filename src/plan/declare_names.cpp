#include <array>

#include "plan/declaring.h"

namespace lensward {
namespace {

using Kind = DeclarationLine::Kind;

class NamesPass {
 public:
  explicit NamesPass(Declaring& declaring) : declaring_(declaring) {}

  void run() {
    for (const Statement& statement : declaring_.script.statements) {
      if (std::holds_alternative<RoomLine>(statement.body)) add_room(statement.span);
    }
    for (const Statement& statement : declaring_.script.statements) {
      if (const auto* people = std::get_if<PeopleLine>(&statement.body)) {
        for (const Name& name : people->names) add_person(name, &people->clauses, statement.span);
      }
      if (const auto* line = std::get_if<DeclarationLine>(&statement.body)) add(*line, statement.span);
    }
    if (!declaring_.camera_told) add_cameras_of_the_opening();
  }

 private:
  // Adds the named thing to its vector, unless the name is taken.
  template <class Thing>
  void add_to(std::vector<Thing>& things, Thing thing, const Name& name, const Clauses* clauses, Span line) {
    const Id<Thing> id{static_cast<int>(things.size())};
    if (!counted<Thing>(name, line) || !take(name, id)) return;
    thing.name = name.text;
    thing.declared = line;
    things.push_back(std::move(thing));
    declaring_.declared.push_back({id, name, clauses, line});
  }

  // How many of a kind a scene may have; what goes past it is told at the first one too many, and left out.
  template <class Thing>
  bool counted(const Name& name, Span line) {
    if constexpr (std::is_same_v<Thing, Person>) return within(people_, 64, "people", name, line);
    if constexpr (std::is_same_v<Thing, Camera>) return within(cameras_, 32, "cameras", name, line);
    if constexpr (std::is_same_v<Thing, Lamp>) return within(lamps_, 256, "lights", name, line);
    return within(things_, 2000, "pieces, props and other things", name, line);
  }

  bool within(int& count, int most, const char* what, const Name& name, Span line) {
    if (++count <= most) return true;
    if (count == most + 1) {
      report(declaring_, "parse.too-long", name.span.empty() ? line : name.span,
             "a scene may have " + std::to_string(most) + " " + what + "; `" + name.text + "` is one more",
             "leave out what this scene does not need");
    }
    return false;
  }

  bool take(const Name& name, Named what) {
    if (declaring_.names.declare(name, what)) {
      first_.emplace(name.text, name.span);
      return true;
    }
    Finding& finding =
        report(declaring_, "name.taken", name.span, '`' + name.text + "` is declared twice; one name is one thing",
               "call one of them otherwise");
    if (const auto first = first_.find(name.text); first != first_.end() && !first->second.empty()) {
      finding.labels.push_back({first->second, "declared here first"});
    }
    return false;
  }

  void add_person(const Name& name, const Clauses* clauses, Span line) {
    add_to(stage().people, Person{}, name, clauses, line);
  }

  void add_room(Span span) {
    if (!room_) {
      room_ = span;
      return add_four_walls();
    }
    report(declaring_, "name.taken", span, "a second room; a scene plays in one", "keep one of the two")
        .labels.push_back({*room_, "the first is here"});
  }

  // `room` makes walls named for the compass; a `wall South, wild` line then says more of one.
  void add_four_walls() {
    for (const char* side : {"North", "East", "South", "West"}) {
      const Name name{side, {}};
      if (!declaring_.names.declare(name, WallId{static_cast<int>(stage().walls.size())})) return;
      Wall wall;
      wall.name = side;
      stage().walls.push_back(wall);
    }
  }

  void add(const DeclarationLine& line, Span span) {
    const Clauses* clauses = &line.clauses;
    switch (line.kind) {
      case Kind::group:
        return add_group(line, {}, span);
      case Kind::crowd:
        return add_crowd(line, span);
      case Kind::story:
        return add_to(stage().stories, Story{}, line.name, clauses, span);
      case Kind::camera:
        declaring_.camera_told = true;
        return add_to(stage().cameras, Camera{}, line.name, clauses, span);
      case Kind::lens:
        return add_to(stage().lenses, Lens{}, line.name, clauses, span);
      case Kind::light:
        return add_to(stage().lamps, Lamp{}, line.name, clauses, span);
      case Kind::prop:
        return add_to(stage().props, Prop{}, line.name, clauses, span);
      case Kind::furniture:
        return add_to(stage().pieces, Piece{}, line.name, clauses, span);
      case Kind::wall:
        return add_wall(line, span);
      case Kind::door:
      case Kind::window: {
        Opening opening;
        opening.kind = line.kind == Kind::door ? Opening::Kind::door : Opening::Kind::window;
        return add_to(stage().openings, opening, line.name, clauses, span);
      }
      case Kind::area:
        return add_to(stage().spots, Spot{}, line.name, clauses, span);
    }
  }

  void add_wall(const DeclarationLine& line, Span span) {
    const std::optional<Named> known = declaring_.names.find(line.name.text);
    const WallId* wall = known ? std::get_if<WallId>(&*known) : nullptr;
    const bool of_the_room = wall != nullptr && find<RouteClause>(line.clauses) == nullptr;
    if (!of_the_room) return add_to(stage().walls, Wall{}, line.name, &line.clauses, span);
    stage().walls[static_cast<std::size_t>(wall->index)].declared = span;
    declaring_.declared.push_back({*wall, line.name, &line.clauses, span});
  }

  // Where no camera has a line of its own, one that the opening sets up is there.
  void add_cameras_of_the_opening() {
    static const Clauses none;
    for (const Statement& statement : declaring_.script.statements) {
      const auto* heading = std::get_if<HeadingLine>(&statement.body);
      if (heading != nullptr && heading->kind == HeadingLine::Kind::beat) return;
      const auto* deed = std::get_if<DeedLine>(&statement.body);
      if (deed == nullptr || deed->subject != DeedLine::Subject::camera || deed->verb != "is") continue;
      for (const Name& name : deed->who.names) {
        if (declaring_.names.find(name.text)) continue;
        declaring_.camera_told = true;
        add_to(stage().cameras, Camera{}, name, &none, statement.span);
      }
    }
  }

  void add_group(const DeclarationLine& line, std::vector<PersonId> people, Span span) {
    const GroupId group = declaring_.names.add_group(std::move(people));
    if (take(line.name, group)) declaring_.declared.push_back({group, line.name, &line.clauses, span});
  }

  // A crowd is so many people, each called by its number, and a group of them.
  void add_crowd(const DeclarationLine& line, Span span) {
    const Limits limits{"size of a crowd", Dimension::people, 1, 60, "4 people"};
    double count = 4;
    for (const Clause& clause : line.clauses) {
      const auto* shift = std::get_if<ShiftClause>(&clause.body);
      if (shift == nullptr || shift->amount.first.unit != "people") continue;
      if (const auto told = measured(shift->amount, limits, declaring_.findings)) count = told->preferred;
    }
    static const Clauses nothing_said;
    std::vector<PersonId> people;
    for (int i = 1; i <= static_cast<int>(count); ++i) {
      const PersonId person{static_cast<int>(stage().people.size())};
      add_person({line.name.text + '.' + std::to_string(i), line.name.span}, &nothing_said, span);
      if (static_cast<int>(stage().people.size()) > person.index) people.push_back(person);
    }
    add_group(line, std::move(people), span);
  }

  Stage& stage() { return declaring_.plan.stage; }

  Declaring& declaring_;
  std::map<std::string, Span> first_;
  int people_ = 0, cameras_ = 0, lamps_ = 0, things_ = 0;
  std::optional<Span> room_;
};

}  // namespace

void declare_names(Declaring& declaring) { NamesPass(declaring).run(); }

}  // namespace lensward
