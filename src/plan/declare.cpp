#include "plan/declare.h"

#include "plan/declaring.h"
#include "plan/floor.h"

namespace lensward {

void declare(const Script& script, Plan& plan, Names& names, Findings& findings) {
  Declaring declaring{script, plan, names, findings};
  declare_facts(declaring);
  declare_settings(declaring);
  declare_names(declaring);
  declare_people(declaring);
  declare_room(declaring);
  declare_openings(declaring);
  declare_lenses(declaring);
  declare_cameras(declaring);
  take_out_walls_before_cameras(declaring);
  declare_pieces(declaring);
  declare_spots(declaring);
  aim_cameras(declaring);
  declare_lamps(declaring);
  declare_props(declaring);
}

namespace {

void take(Declaring& declaring, std::string what, std::string line, std::string next_step, Span at) {
  Finding finding;
  finding.rule = "taken-for-granted";
  finding.severity = Severity::remark;
  finding.where = at;
  finding.message = what;
  finding.next_step = std::move(next_step);
  declaring.findings.add(std::move(finding));
  declaring.plan.assumptions.push_back({std::move(what), std::move(line), at});
}

}  // namespace

void assume(Declaring& declaring, std::string what, std::string line, Span at) {
  std::string next_step = "to settle it: `" + line + '`';
  take(declaring, std::move(what), std::move(line), std::move(next_step), at);
}

void assume(Declaring& declaring, std::string what, const Pin& pin, Span at) {
  // People are told of in one line together.
  const std::string where = pin.kind == "person" ? "give `" + pin.name + "` a line of its own with "
                                                 : "write on the line of `" + pin.name + "`: ";
  take(declaring, std::move(what), pin.kind + ' ' + pin.name + ", " + pin.clauses,
       "to settle it, " + where + '`' + pin.clauses + '`', at);
}

Finding& report(Declaring& declaring, const char* rule, Span where, std::string message, std::string next_step) {
  Finding finding;
  finding.rule = rule;
  finding.where = where;
  finding.message = std::move(message);
  finding.next_step = std::move(next_step);
  return declaring.findings.add(std::move(finding));
}

std::vector<std::pair<const Clauses*, Span>> sayings_of(const Declared& declared, DeedLine::Subject subject,
                                                        const Declaring& declaring) {
  std::vector<std::pair<const Clauses*, Span>> all{{declared.clauses, declared.line}};
  for (const Statement& statement : declaring.script.statements) {
    const auto* heading = std::get_if<HeadingLine>(&statement.body);
    if (heading != nullptr && heading->kind == HeadingLine::Kind::beat) break;
    const auto* deed = std::get_if<DeedLine>(&statement.body);
    if (deed == nullptr || deed->subject != subject || deed->verb != "is") continue;
    for (const Name& name : deed->who.names) {
      if (name.text == declared.name.text) all.push_back({&deed->clauses, statement.span});
    }
  }
  return all;
}

std::vector<Place> places_in(const Clauses& clauses) {
  std::vector<Place> places;
  for (const Clause& clause : clauses) {
    if (const auto* at = std::get_if<AtClause>(&clause.body)) places.push_back(at->place);
    if (const auto* where = std::get_if<WhereClause>(&clause.body)) places.push_back(where->place);
    const auto* shift = std::get_if<ShiftClause>(&clause.body);
    if (shift == nullptr || !shift->place) continue;
    places.push_back(*shift->place);
    places.back().measure = shift->amount;
  }
  return places;
}

const Amount* measure_in(const Clauses& clauses, std::string_view word) {
  for (const Clause& clause : clauses) {
    const auto* measure = std::get_if<MeasureClause>(&clause.body);
    if (measure != nullptr && measure->word == word) return &measure->amount;
  }
  return nullptr;
}

std::optional<double> measured_in(const Clauses& clauses, std::string_view word, const Limits& limits,
                                  Findings& findings) {
  const Amount* amount = measure_in(clauses, word);
  if (amount == nullptr) return std::nullopt;
  const std::optional<Measured> value = measured(*amount, limits, findings);
  return value ? std::optional{value->preferred} : std::nullopt;
}

const TraitClause* trait_in(const Clauses& clauses, std::string_view word) {
  for (const Clause& clause : clauses) {
    const auto* trait = std::get_if<TraitClause>(&clause.body);
    if (trait != nullptr && trait->word == word) return trait;
  }
  return nullptr;
}

std::optional<Tone> tone_in(const Clauses& clauses, std::string_view word) {
  const TraitClause* trait = trait_in(clauses, word);
  if (trait == nullptr) return std::nullopt;
  for (Tone tone : {Tone::dark, Tone::mid, Tone::light}) {
    if (trait->value == spelling(tone)) return tone;
  }
  return std::nullopt;
}

const Quoted* label_in(const Clauses& clauses, LabelClause::Kind kind) {
  for (const Clause& clause : clauses) {
    const auto* label = std::get_if<LabelClause>(&clause.body);
    if (label != nullptr && label->kind == kind) return &label->quoted;
  }
  return nullptr;
}

CameraId first_camera(const Declaring& declaring) { return CameraId{declaring.plan.stage.cameras.empty() ? -1 : 0}; }

PlaceContext context_of(const Declaring& declaring) {
  static const std::vector<PersonState> nobody;
  return {declaring.plan, declaring.names, nobody, camera_at(declaring.plan, first_camera(declaring), Moment{}),
          PersonId{},     std::nullopt};
}

Vec3 middle_of_room(const Declaring& declaring, Metres height) {
  return raised(middle_of(declaring.plan.stage), height.value);
}

}  // namespace lensward
