// A scene's declarations read from text, and its lines settled one by one, for the tests of places.
#pragma once

#include <deque>
#include <string>
#include <vector>

#include "base/angle.h"
#include "plan/declare.h"
#include "plan/places.h"
#include "syntax/parse.h"

namespace lensward {

struct DeclaredScene {
  SourceSet sources;
  Findings findings;
  Script script;
  Plan plan;
  Names names;
  std::vector<PersonState> people;
  std::deque<Place> kept;

  explicit DeclaredScene(const std::string& lines) {
    script = read("staging 1.0 scene\nscene Test\n" + lines + '\n');
    declare(script, plan, names, findings);
    people.resize(plan.stage.people.size());
  }

  Script read(const std::string& text) {
    const std::int32_t file = sources.add(SourceFile("test.staging", text));
    return read_script(sources, parse(sources, file, findings), findings);
  }

  PersonId person(const std::string& name) const { return std::get<PersonId>(*names.find(name)); }
  const Piece& piece(const std::string& name) const {
    return plan.stage.pieces[static_cast<std::size_t>(std::get<PieceId>(*names.find(name)).index)];
  }

  void stand(const std::string& name, Vec2 at, double facing = 180) {
    PersonState& state = people[static_cast<std::size_t>(person(name).index)];
    state.present = true;
    state.at = at;
    state.facing = Degrees{facing};
  }

  CameraState camera() const { return camera_at(plan, CameraId{0}, Moment{}); }

  PlaceContext context(PersonId subject, std::optional<Vec2> coming_from = {}) const {
    return {plan, names, people, camera(), subject, coming_from};
  }

  // The first deed of a line, as `Oda walks to the Table, medium shot`.
  DeedLine deed(const std::string& line) {
    const Script read_line = read("staging 1.0 scene\nscene Line\nbeat One\n" + line + '\n');
    for (const Statement& statement : read_line.statements) {
      if (const auto* found = std::get_if<DeedLine>(&statement.body)) return *found;
    }
    return {};
  }

  PlaceWords words(const DeedLine& line) {
    PlaceWords words;
    const auto keep = [&](const Place& place) {
      kept.push_back(place);
      words.places.push_back(&kept.back());
    };
    for (const Clause& clause : line.clauses) {
      if (const auto* at = std::get_if<AtClause>(&clause.body)) keep(at->place);
      if (const auto* where = std::get_if<WhereClause>(&clause.body)) keep(where->place);
      if (const auto* to = std::get_if<ToClause>(&clause.body); to != nullptr && to->place) {
        keep(*to->place);
        words.goal = true;
      }
      if (const auto* shift = std::get_if<ShiftClause>(&clause.body); shift != nullptr && shift->place) {
        keep(*shift->place);
        kept.back().measure = shift->amount;
      }
      if (const auto* size = std::get_if<SizeClause>(&clause.body)) words.size = size->size;
      if (const auto* body = std::get_if<BodyClause>(&clause.body)) {
        bodies.push_back(*body);
        words.body = &bodies.back();
      }
    }
    words.span = line.verb_span;
    return words;
  }

  std::optional<SettledPlace> settled(const std::string& line, std::optional<Vec2> coming_from = {}, int index = 0) {
    const DeedLine found = deed(line);
    const int count = static_cast<int>(found.who.names.size());
    if (count == 0) return std::nullopt;
    const PersonId subject = person(found.who.names[static_cast<std::size_t>(index)].text);
    return settle(words(found), context(subject, coming_from), index, count, findings);
  }

  const Finding* finding(const std::string& rule) const {
    for (const Finding& one : findings.all()) {
      if (one.rule == rule) return &one;
    }
    return nullptr;
  }

  std::deque<BodyClause> bodies;
};

}  // namespace lensward
