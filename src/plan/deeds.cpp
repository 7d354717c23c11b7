#include "plan/deeds.h"

#include <algorithm>
#include <array>

#include "plan/amounts.h"
#include "syntax/everyday_words.h"
#include "syntax/habits.h"
#include "syntax/near_miss.h"
#include "syntax/verb_forms.h"

namespace lensward {
namespace {

using Time = Verb::Time;

using Doer = DeedFacts::Doer;

const Verb* find_verb(const std::vector<Verb>& verbs, std::string_view word) {
  const auto found = std::find_if(verbs.begin(), verbs.end(), [&](const Verb& verb) { return verb.word == word; });
  return found == verbs.end() ? nullptr : &*found;
}

// The verb in the third person: look, cross, are and do become looks, crosses, is and does.
const Verb* find_either_number(const std::vector<Verb>& verbs, const std::string& verb) {
  if (const Verb* found = find_verb(verbs, verb)) return found;
  const std::size_t blank = std::min(verb.find(' '), verb.size());
  return find_verb(verbs, std::string(verb_of_one(verb.substr(0, blank))) + verb.substr(blank));
}

// With its particle when the table knows the two together, else without.
const Verb* find_written(const std::vector<Verb>& verbs, const std::string& verb) {
  if (const Verb* found = find_either_number(verbs, verb)) return found;
  return find_either_number(verbs, verb.substr(0, std::min(verb.find(' '), verb.size())));
}

Doer doer_of(const Building& building, const DeedLine& line) {
  if (line.subject == DeedLine::Subject::camera) return Doer::camera;
  if (line.subject == DeedLine::Subject::light) return Doer::lamp;
  if (line.who.everyone || line.who.names.empty()) return Doer::people;
  const std::optional<Named> named = building.names.find(line.who.names.front().text);
  if (!named) return Doer::people;
  if (std::holds_alternative<CameraId>(*named)) return Doer::camera;
  if (std::holds_alternative<LampId>(*named)) return Doer::lamp;
  const bool people = std::holds_alternative<PersonId>(*named) || std::holds_alternative<GroupId>(*named);
  return people ? Doer::people : Doer::thing;
}

const std::vector<Verb>& verbs_of(Doer doer) {
  switch (doer) {
    case Doer::camera:
      return camera_verbs();
    case Doer::lamp:
      return lamp_verbs();
    case Doer::thing:
      return thing_verbs();
    case Doer::people:
      break;
  }
  return people_verbs();
}

// From the verb to the comma or the end of the line; the verb alone when quotation marks would have to stand in others.
Span deed_words(const Building& building, const DeedLine& line) {
  const std::string_view bytes = building.sources.file(line.verb_span.file).bytes();
  Span span = line.verb_span;
  int brackets = 0;
  for (std::uint32_t at = span.begin; at < bytes.size(); ++at) {
    const char c = bytes[at];
    if (c == '"') return line.verb_span;
    brackets += c == '(' ? 1 : c == ')' ? -1 : 0;
    if (c == '\n' || (c == ',' && brackets == 0) || bytes.substr(at, 2) == "--") break;
    const bool blank = c == ' ' || c == '\t' || c == '\r';
    if (!blank) span.end = std::max(span.end, at + 1);
  }
  return span;
}

struct Advice {
  std::string next_step;
  Span where = {};
  std::string instead;  // what to write there; empty: the writer has to choose
};

Advice as_business(const Building& building, const DeedLine& line) {
  const Span where = deed_words(building, line);
  std::string does = "does \"" + text_of_line(building, where) + '"';
  return {"say it as business: `" + does + '`', where, std::move(does)};
}

// `Oda to Jun: "…"`, with the names the line has.
std::string as_speech(const DeedLine& line) {
  const std::string who = line.who.names.empty() ? "NAME" : line.who.names.front().text;
  const auto* const to = find<ToClause>(line.clauses);
  const bool named = to != nullptr && to->place && to->place->things.size() == 1;
  const std::string whom = named ? to->place->things.front().name.text : std::string{};
  return who + " to " + (whom.empty() ? "NAME" : whom) + ": \"…\"";
}

bool says_where(const DeedLine& line) {
  return find<ToClause>(line.clauses) != nullptr || find<ShiftClause>(line.clauses) != nullptr ||
         find<WhereClause>(line.clauses) != nullptr || !line.objects.empty();
}

// Who moves a thing does not walk it: a prop is carried, furniture pushed.
std::string going_with(const Building& building, const DeedLine& line, const std::string& verb) {
  if (line.objects.empty() || verb.ends_with(" to")) return verb;
  const std::optional<Named> named = building.names.find(line.objects.front().name.text);
  const bool prop = named && std::holds_alternative<PropId>(*named);
  const std::string_view one = prop ? "carries" : "pushes";
  return std::string(verb == verb_of_several(verb) ? verb_of_several(one) : one);
}

Advice as_everyday(const Building& building, const DeedLine& line, const EverydayVerb& verb) {
  using Kind = EverydayVerb::Kind;
  if (verb.kind == Kind::business) return as_business(building, line);
  if (verb.kind == Kind::speech) return {"write what is said, after a colon: `" + as_speech(line) + '`', {}, {}};
  if (verb.kind == Kind::going && !says_where(line)) {
    const std::string to = verb.instead.ends_with(" to") ? "" : " to";
    return {"say where to, as in `" + verb.instead + to + " centre`", {}, {}};
  }
  const std::string instead = verb.kind == Kind::going ? going_with(building, line, verb.instead) : verb.instead;
  Span said = line.verb_span;
  if (verb.said != line.verb) said.end = said.begin + static_cast<std::uint32_t>(verb.said.size());
  Span behind = deed_words(building, line);
  behind.begin = said.end;
  const std::string rest = text_of_line(building, behind);
  return {"write `" + instead + (rest.empty() ? "" : " ") + rest + '`', said, instead};
}

VerbsOf everyday_verbs_of(Doer doer) {
  return doer == Doer::camera ? VerbsOf::cameras : doer == Doer::lamp ? VerbsOf::lights : VerbsOf::people;
}

Advice advice_for(const Building& building, const DeedLine& line, Doer doer) {
  if (doer != Doer::thing) {
    if (const auto verb = everyday_verb(everyday_verbs_of(doer), line.verb)) return as_everyday(building, line, *verb);
  }
  std::vector<std::string_view> known;
  for (const Verb& verb : verbs_of(doer)) known.push_back(verb.word);
  if (const auto meant = nearest(line.verb, known)) {
    const std::string next = "did you mean `" + std::string(*meant) + '`';
    const char* const otherwise = doer == Doer::people ? "; else say it as `does \"…\"`" : "";
    return {next + otherwise, line.verb_span, std::string(*meant)};
  }
  return doer == Doer::people ? as_business(building, line) : Advice{};
}

LineText text_around(const Building& building, Span span) {
  const std::string_view bytes = building.sources.file(span.file).bytes();
  const std::size_t begin = bytes.rfind('\n', span.begin) + 1;
  const std::size_t end = std::min(bytes.find_first_of("\r\n", span.begin), bytes.size());
  return {bytes, span.file, static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end)};
}

void report_unknown(Building& building, const DeedLine& line, Doer doer) {
  if (const auto habit = read_as_a_deed(text_around(building, line.verb_span))) {
    building.findings.add(*habit);
    return;
  }
  constexpr std::array<const char*, 4> of{"people", "cameras", "lights", "things"};
  const Advice advice = advice_for(building, line, doer);
  Finding& finding = report(building, "name.unknown-verb", Severity::error, line.verb_span,
                            std::string("no verb of ") + of[static_cast<std::size_t>(doer)] + " is `" + line.verb + "`",
                            advice.next_step);
  if (advice.instead.empty()) return;
  finding.repairs.push_back({Repair::Kind::choice, "write `" + advice.instead + '`', {{advice.where, advice.instead}}});
}

double pace_of(const Clauses& clauses) {
  const auto* pace = find<PaceClause>(clauses);
  if (pace == nullptr) return 1;
  if (pace->pace == Pace::slowly) return 1.6;
  return pace->pace == Pace::briskly ? 0.7 : 1.0;
}

Performance performance_of(Building& building, const Statement& statement, const DeedLine& line, Moment begin) {
  Performance performance{building, statement, line, begin, {}, pace_of(line.clauses), false, false, false, {}, {}, {}};
  if (const auto* length = find<LengthClause>(line.clauses)) {
    performance.told = time_told(length->amount, building.findings);
  }
  const auto* pace = find<PaceClause>(line.clauses);
  performance.hurrying = pace != nullptr && pace->pace == Pace::hurrying;
  const auto* stay = find<StayClause>(line.clauses);
  performance.runs_on = stay != nullptr && stay->kind == StayClause::Kind::runs_on;
  return performance;
}

std::vector<CameraId> cameras_of(Building& building, const Who& who, Moment moment) {
  std::vector<CameraId> cameras;
  for (const Name& name : who.names) {
    if (const auto camera = resolve<CameraId>(building.names, name, building.findings)) cameras.push_back(*camera);
  }
  if (who.names.empty()) {
    const CameraId camera = on_air(building.plan, moment);
    if (camera.known()) cameras.push_back(camera);
  }
  return cameras;
}

Target thing_named(const Named& named) {
  if (const auto* piece = std::get_if<PieceId>(&named)) return {Target::Kind::piece, piece->index, {}};
  if (const auto* prop = std::get_if<PropId>(&named)) return {Target::Kind::prop, prop->index, {}};
  if (const auto* opening = std::get_if<OpeningId>(&named)) return {Target::Kind::opening, opening->index, {}};
  return {};
}

bool says_where_they_come_from(const Verb& verb) {
  return verb.perform == deed_is || verb.perform == deed_is_away || verb.perform == deed_enters;
}

// Nothing for one alone, or when none of them stands anywhere yet.
std::optional<Vec2> middle_of(const Building& building, const std::vector<PersonId>& people, Moment moment) {
  Vec2 sum;
  int placed = 0;
  for (const PersonId person : people) {
    if (building.plan.people[static_cast<std::size_t>(person.index)].feet.empty()) continue;
    sum = sum + person_at(building.plan, person, moment).at;
    ++placed;
  }
  return people.size() < 2 || placed == 0 ? std::nullopt : std::optional{sum * (1.0 / placed)};
}

bool has_length(const DeedLine& line) { return find<LengthClause>(line.clauses) != nullptr; }

}  // namespace

Milliseconds Performance::length(Seconds usual) const { return told ? *told : to_milliseconds(usual * pace); }

std::optional<DeedFacts> facts_of(Building& building, const DeedLine& line) {
  const Doer doer = doer_of(building, line);
  const Verb* verb = find_written(verbs_of(doer), line.verb);
  if (verb == nullptr) {
    report_unknown(building, line, doer);
    return std::nullopt;
  }
  const bool at_a_place = line.verb.ends_with(" on") || line.verb.ends_with(" in");
  if (const auto small =
          at_a_place ? small_piece(text_around(building, line.verb_span), line.verb_span.end) : std::nullopt) {
    building.findings.add(*small);
    return std::nullopt;
  }
  DeedFacts facts;
  facts.equipment = doer == Doer::camera || doer == Doer::lamp;
  facts.endless = verb->time == Time::endless && !has_length(line);
  facts.instant = verb->time == Time::instant && !has_length(line);
  facts.verb = verb->word;
  facts.doer = doer;
  return facts;
}

Milliseconds perform(Building& building, const Statement& statement, Moment begin, bool opening) {
  const auto& line = std::get<DeedLine>(statement.body);
  const Doer doer = doer_of(building, line);
  const Verb* verb = find_written(verbs_of(doer), line.verb);
  Performance performance = performance_of(building, statement, line, begin);
  performance.opening = opening;
  Milliseconds longest;
  const auto add = [&] { longest = std::max(longest, verb->perform(performance, *verb)); };
  if (doer == Doer::thing) {
    for (const Name& name : line.who.names) {
      const std::optional<Named> named = resolve_any(building.names, name, building.findings);
      if (!named) continue;
      performance.thing = thing_named(*named);
      add();
    }
  } else if (doer == Doer::camera) {
    for (const CameraId camera : cameras_of(building, line.who, begin)) {
      performance.camera = camera;
      add();
    }
  } else if (doer == Doer::lamp) {
    for (const Name& name : line.who.names) {
      const std::optional<LampId> lamp = resolve<LampId>(building.names, name, building.findings);
      if (!lamp) continue;
      performance.lamp = *lamp;
      add();
    }
  } else {
    const std::vector<PersonId> people = people_of(building, line.who, begin);
    performance.count = static_cast<int>(people.size());
    performance.together = middle_of(building, people, begin);
    for (const PersonId person : people) {
      performance.person = person;
      if (!opening && !says_where_they_come_from(*verb)) appear(building, person, begin, statement.span);
      add();
      ++performance.index;
    }
  }
  return performance.told && verb->time != Time::endless ? *performance.told : longest;
}

const std::vector<Verb>& people_verbs() {
  static const std::vector<Verb> verbs{
      {"is", Time::instant, 0, deed_is},
      {"is on", Time::instant, 0, deed_is},
      {"is out", Time::instant, 0, deed_is_away},
      {"is away", Time::instant, 0, deed_is_away},
      {"stands", Time::takes, 1.2, deed_stands},
      {"stands up", Time::takes, 1.2, deed_rises},
      {"waits", Time::takes, 1.2, deed_stands},
      {"sits", Time::takes, 1.2, deed_settles_down},
      {"sits down", Time::takes, 1.2, deed_settles_down},
      {"lies", Time::takes, 1.2, deed_settles_down},
      {"lies down", Time::takes, 1.2, deed_settles_down},
      {"perches", Time::takes, 1.2, deed_settles_down},
      {"leans", Time::takes, 1, deed_settles_down},
      {"kneels", Time::takes, 1, deed_settles_down},
      {"crouches", Time::takes, 1, deed_settles_down},
      {"rises", Time::takes, 1.2, deed_rises},
      {"walks", Time::takes, 1.2, deed_walks},
      {"crosses", Time::takes, 1.2, deed_walks},
      {"steps", Time::takes, 1, deed_walks},
      {"strolls", Time::takes, 0.8, deed_walks},
      {"hurries", Time::takes, 1.8, deed_walks},
      {"runs", Time::takes, 3, deed_walks},
      {"creeps", Time::takes, 0.4, deed_walks},
      {"crawls", Time::takes, 0.5, deed_walks},
      {"backs", Time::takes, 0.7, deed_walks},
      {"follows", Time::endless, 1.2, deed_follows},
      {"keeps", Time::endless, 0, deed_keeps},
      {"enters", Time::takes, 1.5, deed_enters},
      {"comes in", Time::takes, 1.5, deed_enters},
      {"exits", Time::takes, 1.2, deed_exits},
      {"leaves", Time::takes, 1.2, deed_exits},
      {"turns", Time::takes, 0.4, deed_turns},
      {"turns away", Time::takes, 0.4, deed_turns_away},
      {"faces", Time::endless, 0.4, deed_faces},
      {"cheats", Time::takes, 0.5, deed_cheats},
      {"opens up", Time::takes, 0.5, deed_cheats},
      {"looks", Time::endless, 0.4, deed_looks},
      {"looks up", Time::endless, 0.4, deed_looks},
      {"looks down", Time::endless, 0.4, deed_looks},
      {"looks away", Time::endless, 0.4, deed_looks},
      {"glances", Time::takes, 1, deed_glances},
      {"glances up", Time::takes, 1, deed_glances},
      {"glances down", Time::takes, 1, deed_glances},
      {"glances away", Time::takes, 1, deed_glances},
      {"watches", Time::endless, 0.4, deed_watches},
      {"opens", Time::takes, 1.5, deed_opens},
      {"closes", Time::takes, 1.5, deed_opens},
      {"takes", Time::takes, 1, deed_takes},
      {"picks up", Time::takes, 1, deed_takes},
      {"puts", Time::takes, 1.2, deed_puts},
      {"puts down", Time::takes, 1.2, deed_puts},
      {"drops", Time::takes, 0.8, deed_puts},
      {"lifts", Time::takes, 0.8, deed_takes},
      {"touches", Time::takes, 0.8, deed_touches},
      {"pulls", Time::takes, 0.8, deed_pulls},
      {"pushes", Time::takes, 0.8, deed_pulls},
      {"pours", Time::takes, 0.8, deed_touches},
      {"gives", Time::takes, 1.2, deed_gives},
      {"hands", Time::takes, 1.2, deed_gives},
      {"carries", Time::endless, 0, deed_carries},
      {"wears", Time::endless, 0, deed_wears},
      {"holds", Time::endless, 0, deed_holds},
      {"points", Time::takes, 1, deed_with_hands},
      {"aims", Time::takes, 0.6, deed_aims},
      {"sweeps", Time::takes, 2, deed_aims},
      {"does", Time::endless, 0, deed_does},
      {"stops", Time::instant, 0, deed_stops},
      {"falls", Time::takes, 0.5, deed_settles_down},
  };
  return verbs;
}

}  // namespace lensward
