#include <algorithm>

#include "base/listing.h"
#include "base/quantity_text.h"
#include "plan/declaring.h"

namespace lensward {
namespace {

const Limits statures{"height of a person", Dimension::length, 0.4, 2.6, "height 1.7 m"};
const Limits eye_heights{"height of the eyes", Dimension::length, 0.3, 2.5, "eyes 1.6 m"};
const Limits steps{"length of a step", Dimension::length, 0.1, 1.5, "step 70 cm"};
const Limits rates{"rate of speech", Dimension::rate, 20, 600, "speaks 150 words/min"};
const Limits skin_tones{"tone of the face", Dimension::stops, -5, 5, "face +0.5 stops"};

void read_person(const Declared& declared, Declaring& declaring, Person& person) {
  const Clauses& clauses = *declared.clauses;
  Findings& findings = declaring.findings;
  if (const auto height = measured_in(clauses, "height", statures, findings)) {
    person.stature = Metres{*height};
    person.stature_origin = Origin::said;
  }
  if (const auto eyes = measured_in(clauses, "eyes", eye_heights, findings)) person.eyes = Metres{*eyes};
  if (const auto step = measured_in(clauses, "step", steps, findings)) person.step = Metres{*step};
  if (const auto rate = measured_in(clauses, "speaks", rates, findings)) person.rate = WordsPerMinute{*rate};
  if (const auto skin = measured_in(clauses, "face", skin_tones, findings)) person.skin = Stops{*skin};
  if (const auto dress = tone_in(clauses, "dressed")) person.dress = *dress;
  if (const TraitClause* tape = trait_in(clauses, "tape")) person.tape = tape->value;
  if (const Quoted* called = label_in(clauses, LabelClause::Kind::called)) person.called = called->words;
  for (const Clause& clause : clauses) {
    const auto* filing = std::get_if<FilingClause>(&clause.body);
    if (filing != nullptr && filing->kind == FilingClause::Kind::number) person.cast_number = filing->text;
  }
}

void tell_statures(Declaring& declaring) {
  std::vector<std::string> names, quoted;
  Span first;
  for (const Person& person : declaring.plan.stage.people) {
    if (person.stature_origin != Origin::assumed) continue;
    if (names.empty()) first = person.declared;
    // The people of a crowd go by its name.
    const std::string name = person.name.substr(0, person.name.find('.'));
    if (!names.empty() && names.back() == name) continue;
    names.push_back(name);
    quoted.push_back('`' + name + '`');
  }
  if (names.empty()) return;
  const std::string height = text_of(Person{}.stature);
  assume(declaring,
         "no height told for " + listed(quoted) + (names.size() > 1 ? ", so each is " : ", so ") + height + " tall",
         Pin{"person", names.front(), "height " + height}, first);
}

void tell_no_people(Declaring& declaring) {
  const bool scene = std::any_of(declaring.script.statements.begin(), declaring.script.statements.end(),
                                 [](const Statement& statement) {
                                   const auto* heading = std::get_if<HeadingLine>(&statement.body);
                                   return heading != nullptr && heading->kind == HeadingLine::Kind::scene;
                                 });
  if (!scene || !declaring.plan.stage.people.empty()) return;
  Finding& finding = report(declaring, "missing-person", declaring.plan.facts.heading,
                            "the scene `" + declaring.plan.facts.name + "` has no people",
                            "`people Oda, Tobias` above the first beat says who plays it");
  finding.severity = Severity::remark;
}

}  // namespace

void declare_people(Declaring& declaring) {
  Stage& stage = declaring.plan.stage;
  const auto rate = declaring.plan.settings.figures.find("speech-rate");
  for (Person& person : stage.people) {
    person.called = person.name;
    if (rate != declaring.plan.settings.figures.end()) person.rate = WordsPerMinute{rate->second};
  }
  for (const Declared& declared : declaring.declared) {
    if (const auto* person = std::get_if<PersonId>(&declared.what)) {
      read_person(declared, declaring, stage.people[static_cast<std::size_t>(person->index)]);
    }
  }
  // Groups may name people declared below them, and stories may name groups.
  for (const Declared& declared : declaring.declared) {
    const OfClause* of = find<OfClause>(*declared.clauses);
    if (of == nullptr || of->camera) continue;
    if (const auto* group = std::get_if<GroupId>(&declared.what)) {
      declaring.names.set_members(*group, people_named(declaring.names, of->names, declaring.findings));
    }
  }
  for (const Declared& declared : declaring.declared) {
    const OfClause* of = find<OfClause>(*declared.clauses);
    const auto* story = std::get_if<StoryId>(&declared.what);
    if (of == nullptr || of->camera || story == nullptr) continue;
    stage.stories[static_cast<std::size_t>(story->index)].people =
        people_named(declaring.names, of->names, declaring.findings);
  }
  declaring.plan.people.resize(stage.people.size());
  tell_no_people(declaring);
  tell_statures(declaring);
}

}  // namespace lensward
