// Place words -> an area of the floor with one settled mark (docs/language.md, "Places").
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "findings/finding.h"
#include "plan/names.h"
#include "plan/plan.h"
#include "syntax/script.h"

namespace lensward {

// What a place phrase may depend on, and nothing else: the set, the people named in the line, the lens, the subject.
struct PlaceContext {
  const Plan& plan;
  const Names& names;
  // State of every person at the moment the line binds; by PersonId.
  const std::vector<PersonState>& people;
  CameraState camera;               // the one named, else on air
  PersonId subject;                 // who is placed; unknown for furniture, lamps and cameras
  std::optional<Vec2> coming_from;  // where the subject stands now; nothing on a first placing
};

struct SettledPlace {
  Vec2 at;
  Origin origin = Origin::said;  // said: exact; bound: an exact relation; settled: the mark of a vague area
  std::vector<Vec2> area;        // outline, counter-clockwise; empty when exact
  std::optional<Degrees> faces;  // the bearing to face on arrival (`at the Range`); else nothing
  PieceId piece;                 // what it is at, on or by, when it is one piece
  bool on_piece = false;         // sat or lain on
  std::optional<Degrees> body;   // bearing of the chest, when a composition asks for one
  std::string words;             // the phrase as written, for "settled" remarks
};

// Everything a line says of where to: place phrases (from `at`, `to`, where clauses), a size and a body position.
struct PlaceWords {
  std::vector<const Place*> places;
  std::optional<ShotSize> size;
  const BodyClause* body = nullptr;
  Span span;
  double apart = 0.9;  // m, from each to the next when several stand somewhere
  bool goal = false;   // said with `to`: ends where `by` a thing would, at arm's length from a person
};

// Nothing when the words cannot be met; a `place.` finding says why. `index` of `count` spreads several subjects of one
// line along the area in the order written.
std::optional<SettledPlace> settle(const PlaceWords& words, const PlaceContext& context, int index, int count,
                                   Findings& findings);

// A point in space a target or place phrase names: for `looks at`, `aims at`, `points at`.
std::optional<Target> target_of(const Place& place, const PlaceContext& context, Findings& findings);
std::optional<Target> target_of(const Thing& thing, const PlaceContext& context, Findings& findings);

// The bearing a `facing …` or body clause asks for, standing at `at`.
std::optional<Facing> facing_of(const FacingClause& clause, const PlaceContext& context, Vec2 at, Findings& findings);
std::optional<Facing> facing_of(const BodyClause& clause, const PlaceContext& context, Vec2 at, Findings& findings);

// The way on the floor from one point to another round the furniture, with a body's clearance; a straight line when
// there is nothing between. Always holds both ends; `blocked` is set when no way was found and the straight one stands.
struct Way {
  std::vector<Vec2> path;
  bool blocked = false;
};
Way way_between(const Stage& stage, Vec2 from, Vec2 to, Metres clearance);

}  // namespace lensward
