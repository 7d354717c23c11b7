#include "plan/verb_clauses.h"

#include <algorithm>
#include <array>

namespace lensward {
namespace {

using Doer = DeedFacts::Doer;

// Kinds of clauses, and what else a verb may need.
enum Part : unsigned {
  to = 1U << 0U,
  at = 1U << 1U,
  where = 1U << 2U,
  shift = 1U << 3U,
  route = 1U << 4U,
  facing = 1U << 5U,
  body = 1U << 6U,
  size = 1U << 7U,
  own_hands = 1U << 8U,
  scale = 1U << 9U,
  posture = 1U << 10U,
  measure = 1U << 11U,
  optics = 1U << 12U,
  lighting = 1U << 13U,
  trait = 1U << 14U,
  lean = 1U << 15U,
  voice = 1U << 16U,
  strength = 1U << 17U,
  dims = 1U << 18U,
  of_whom = 1U << 19U,
  piece = 1U << 20U,
  filing = 1U << 21U,
  object = 1U << 22U,
  quoted = 1U << 23U,
  particle = 1U << 24U,
  spacing = 1U << 26U,  // within, apart: of whoever is placed
  with_whom = 1U << 27U,
  hands = own_hands | with_whom,
  always = 1U << 25U,  // cue, until, while, length, label, stay, pace
};

struct Fit {
  const char* verb;
  unsigned needs;  // one of these; 0: nothing
  unsigned may;
  const char* example;
};

constexpr unsigned anywhere = to | where | shift | route;
constexpr unsigned walking = at | facing | body | size | hands;

constexpr std::array people_fits{
    Fit{"is", 0, at | where | shift | facing | body | posture | size | hands | measure | trait | lean, ""},
    Fit{"stands", 0, at | where | shift | facing | body | size | particle, ""},
    Fit{"waits", 0, at | where | shift | facing | body | size, ""},
    Fit{"sits", at | where | shift | particle, facing | body | size, "sits on the Chair"},
    Fit{"lies", at | where | shift | particle, facing | body | size, "lies on the Bed"},
    Fit{"perches", at | where | shift, facing | body | size, "perches on the Table"},
    Fit{"leans", 0, at | where | shift | facing | body | size, ""},
    Fit{"kneels", 0, at | where | shift | facing | body | size, ""},
    Fit{"crouches", 0, at | where | shift | facing | body | size, ""},
    Fit{"rises", 0, facing | body, ""},
    Fit{"walks", anywhere | particle, walking, "walks to the Table"},
    Fit{"crosses", anywhere | particle, walking, "crosses to the Table"},
    Fit{"steps", anywhere | particle, walking, "steps to the Table"},
    Fit{"strolls", anywhere | particle, walking, "strolls to the Table"},
    Fit{"hurries", anywhere | particle, walking, "hurries to the Table"},
    Fit{"runs", anywhere | particle, walking, "runs to the Table"},
    Fit{"creeps", anywhere | particle, walking, "creeps to the Table"},
    Fit{"crawls", anywhere | particle, walking, "crawls to the Table"},
    Fit{"backs", anywhere | particle, walking, "backs to the Table"},
    Fit{"follows", object, where | shift | route | at, "follows Oda"},
    Fit{"keeps", where | at | shift | facing, 0, "keeps facing Oda"},
    Fit{"enters", 0, where | to | route | at | facing | body | size | hands, ""},
    Fit{"comes in", 0, where | to | route | at | facing | body | size | hands, ""},
    Fit{"exits", 0, where | to | route | hands, ""},
    Fit{"leaves", 0, where | to | route | hands, ""},
    Fit{"turns", to | where | at | shift | facing | body | particle, 0, "turns to Oda"},
    Fit{"faces", object, 0, "faces Oda"},
    Fit{"cheats", shift, 0, "cheats 15 deg toward lens"},
    Fit{"opens up", 0, 0, ""},
    Fit{"looks", at | where | to | particle, 0, "looks at Oda"},
    Fit{"glances", at | where | to | particle, 0, "glances at Oda"},
    Fit{"watches", object, 0, "watches Oda"},
    Fit{"opens", object, hands | scale, "opens the Door"},
    Fit{"closes", object, hands | scale, "closes the Door"},
    Fit{"takes", object | shift, route | hands | scale, "takes the Letter"},
    Fit{"picks up", object | shift, route | hands | scale, "picks up the Letter"},
    Fit{"puts", object, at | where | to | hands | scale | particle, "puts the Letter on the Table"},
    Fit{"lifts", object, to | at | where | route | hands | scale | shift, "lifts the Cloth"},
    Fit{"drops", object, to | at | where | route | hands | scale, "drops the Letter"},
    Fit{"touches", object, to | at | where | route | hands | scale, "touches the Table"},
    Fit{"pulls", object, to | at | where | route | hands | scale | shift, "pulls the Curtain"},
    Fit{"pushes", object, to | at | where | route | hands | scale | shift, "pushes the Chair"},
    Fit{"pours", object, to | at | where | route | hands | scale, "pours the Wine"},
    Fit{"gives", object, to | hands | scale, "gives the Letter to Runa"},
    Fit{"hands", object, to | hands | scale, "hands the Letter to Runa"},
    Fit{"carries", object, hands | to | where | route, "carries the Letter"},
    Fit{"wears", object, hands | to | where | route, "wears the Coat"},
    Fit{"holds", 0, object | hands | at | where, ""},
    Fit{"points", at, hands | scale, "points at Oda"},
    Fit{"aims", at, object | hands, "aims the Torch at Oda"},
    Fit{"sweeps", route, object | hands, "sweeps the Torch from Oda to Jun"},
    Fit{"does", quoted, hands | scale, "does \"dries a cup\""},
    Fit{"stops", 0, object, ""},
    Fit{"falls", 0, to | at | where, ""},
};

constexpr std::array camera_fits{
    Fit{"is", 0, at | where | shift | facing | size | hands | measure | optics | lighting | trait, ""},
    Fit{"follows", object, where | shift | route | at, "follows Oda"},
    Fit{"follows focus", where, 0, "follows focus on Oda"},
    Fit{"looks", at | where | particle, 0, "looks at Oda"},
    Fit{"aims", at, 0, "aims at Oda"},
    Fit{"sweeps", route, 0, "sweeps from Oda to Jun"},
    Fit{"frames", object, at | where | size | body | optics | measure, "frames Oda"},
    Fit{"keeps", object | where, at | where | route | size, "keeps Oda at frame left third"},
    Fit{"moves", to | route, route | measure, "moves to (2, 1) m"},
    Fit{"pushes in", to | shift, route, "pushes in 0.4 m"},
    Fit{"pulls back", to | shift, route, "pulls back 0.4 m"},
    Fit{"tracks", anywhere | with_whom, route, "tracks 1 m toward frame left"},
    Fit{"arcs", anywhere, route, "arcs 30 deg, round the Table"},
    Fit{"booms", to | shift, 0, "booms to 1.8 m"},
    Fit{"booms up", to | shift, 0, "booms up 20 cm"},
    Fit{"booms down", to | shift, 0, "booms down 20 cm"},
    Fit{"pans", to | shift | where | particle, 0, "pans to Oda"},
    Fit{"tilts", to | shift | where | particle, 0, "tilts to Oda"},
    Fit{"tilts up", to | shift | where | particle, 0, "tilts up 5 deg"},
    Fit{"tilts down", to | shift | where | particle, 0, "tilts down 5 deg"},
    Fit{"zooms", to | particle, 0, "zooms to 50 mm"},
    Fit{"zooms in", 0, to, ""},
    Fit{"zooms out", 0, to, ""},
    Fit{"focuses", where | to, 0, "focuses on Oda"},
    Fit{"racks focus", to, 0, "racks focus to Oda"},
    Fit{"pulls focus", to, 0, "pulls focus to Oda"},
    Fit{"splits focus", where, 0, "splits focus between Oda and Jun"},
    Fit{"holds", 0, object | at, ""},
    Fit{"holds focus", 0, object | at, ""},
    Fit{"stops", 0, 0, ""},
};

constexpr std::array lamp_fits{
    Fit{"is", 0, at | where | shift | measure | lighting | trait, ""},
    Fit{"aims", at, 0, "aims at Oda"},
    Fit{"sweeps", route, 0, "sweeps from Oda to Jun"},
    Fit{"moves", to | route, route | measure, "moves to (2, 1) m"},
    Fit{"comes on", 0, measure, ""},
    Fit{"goes out", 0, 0, ""},
    Fit{"dims", to | shift, 0, "dims 1 stop"},
    Fit{"brightens", to | shift, 0, "brightens 1 stop"},
    Fit{"fades", to, 0, "fades to 40%"},
    Fit{"flickers", 0, 0, ""},
    Fit{"stops", 0, 0, ""},
};

constexpr std::array thing_fits{
    Fit{"is", 0, at | where | shift | facing | measure | trait, ""},
    Fit{"opens", 0, hands | scale, ""},
    Fit{"closes", 0, hands | scale, ""},
    Fit{"falls", 0, to | at | where, ""},
    Fit{"stops", 0, 0, ""},
};

template <std::size_t count>
const Fit* find_fit(const std::array<Fit, count>& fits, std::string_view verb) {
  const auto found = std::find_if(fits.begin(), fits.end(), [&](const Fit& fit) { return verb == fit.verb; });
  return found == fits.end() ? nullptr : &*found;
}

const Fit* fit_of(Doer doer, std::string_view verb) {
  switch (doer) {
    case Doer::camera:
      return find_fit(camera_fits, verb);
    case Doer::lamp:
      return find_fit(lamp_fits, verb);
    case Doer::thing:
      return find_fit(thing_fits, verb);
    case Doer::people:
      break;
  }
  return find_fit(people_fits, verb);
}

template <class... Kinds>
bool is_one_of(const ClauseBody& clause) {
  return (std::holds_alternative<Kinds>(clause) || ...);
}

unsigned part_of_body(const ClauseBody& clause) {
  if (is_one_of<CueClause, UntilClause, WhileClause, LengthClause, LabelClause, StayClause, PaceClause>(clause))
    return always;
  if (is_one_of<ToClause>(clause)) return to;
  if (is_one_of<AtClause>(clause)) return at;
  if (is_one_of<WhereClause, RigClause>(clause)) return where;
  if (is_one_of<ShiftClause>(clause)) return shift;
  if (is_one_of<RouteClause>(clause)) return route;
  if (is_one_of<FacingClause>(clause)) return facing;
  if (is_one_of<BodyClause>(clause)) return body;
  if (is_one_of<SizeClause>(clause)) return size;
  if (const auto* with = std::get_if<HandsClause>(&clause))
    return with->kind == HandsClause::Kind::with ? with_whom : own_hands;
  if (is_one_of<ScaleClause>(clause)) return scale;
  if (is_one_of<PostureClause>(clause)) return posture;
  if (const auto* told = std::get_if<MeasureClause>(&clause)) {
    return told->word == "within" || told->word == "apart" ? spacing : measure;
  }
  if (is_one_of<LensClause, StopClause, FocusClause>(clause)) return optics;
  if (is_one_of<AimsClause, GivesClause, FrontClause, HangsClause>(clause)) return lighting;
  if (is_one_of<TraitClause>(clause)) return trait;
  if (is_one_of<LeanClause>(clause)) return lean;
  if (is_one_of<VoiceClause>(clause)) return voice;
  if (is_one_of<StrengthClause>(clause)) return strength;
  if (is_one_of<DimsClause>(clause)) return dims;
  if (is_one_of<OfClause>(clause)) return of_whom;
  if (is_one_of<PieceClause>(clause)) return piece;
  return filing;
}

// The particle a verb was written with, when the table has the verb without it.
bool has_particle(const DeedLine& line, std::string_view verb) {
  const auto blanks = [](std::string_view words) { return std::count(words.begin(), words.end(), ' '); };
  return blanks(line.verb) > blanks(verb);
}

unsigned parts_of(const DeedLine& line, std::string_view verb) {
  unsigned parts = 0;
  if (!line.objects.empty()) parts |= object;
  if (line.quoted) parts |= quoted;
  if (has_particle(line, verb)) parts |= particle;
  for (const Clause& clause : line.clauses) parts |= part_of_body(clause.body);
  return parts;
}

// `sits down`, `looks away`: rows of the verb table for which the table of clauses has the verb alone.
std::string_view without_particle(std::string_view verb) {
  return verb.substr(0, std::min(verb.find(' '), verb.size()));
}

void report_misfit(Building& building, const DeedLine& line, std::string_view verb, const Clause& clause) {
  const std::string words = text_of_line(building, clause.span);
  Finding& finding =
      report(building, "name.clause-misfit", Severity::error, clause.span,
             "`" + std::string(verb) + "` takes no `" + words + "`", "take it out, or use a verb that takes it");
  const std::string_view bytes = building.sources.file(clause.span.file).bytes();
  Span out = clause.span;
  // With the comma before it, when there is one.
  std::uint32_t before = out.begin;
  while (before > line.verb_span.end && (bytes[before - 1] == ' ' || bytes[before - 1] == '\t')) --before;
  if (before > line.verb_span.end && bytes[before - 1] == ',') --before;
  out.begin = before;
  finding.repairs.push_back({Repair::Kind::choice, "take `" + words + "` out", {{out, ""}}});
}

}  // namespace

bool clauses_fit(Building& building, const DeedLine& line, const DeedFacts& facts) {
  std::string_view verb = facts.verb;
  const Fit* fit = fit_of(facts.doer, verb);
  if (fit == nullptr) {
    verb = without_particle(verb);
    fit = fit_of(facts.doer, verb);
  }
  if (fit == nullptr) return true;
  const unsigned parts = parts_of(line, verb);
  if (fit->needs != 0 && (parts & fit->needs) == 0) {
    report(building, "name.clause-missing", Severity::error, line.verb_span,
           "`" + line.verb + "` does not say " + ((fit->needs & object) != 0 ? "what or whom" : "where, or how far"),
           std::string("write it as in `") + fit->example + "`");
    return false;
  }
  const bool gives = verb == "gives" || verb == "hands";
  if (gives && (parts & to) == 0) {
    report(building, "name.clause-missing", Severity::error, line.verb_span, "`" + line.verb + "` does not say to whom",
           std::string("write it as in `") + fit->example + "`");
    return false;
  }
  unsigned taken = fit->needs | fit->may | always;
  const bool places = facts.doer == Doer::people && (taken & (to | where)) != 0 && (taken & (facing | body)) != 0;
  if (places) taken |= spacing;
  for (const Clause& clause : line.clauses) {
    if ((part_of_body(clause.body) & taken) == 0) report_misfit(building, line, verb, clause);
  }
  return true;
}

}  // namespace lensward
