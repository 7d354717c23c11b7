#include "plan/intents.h"

#include <algorithm>
#include <array>
#include <utility>

#include "plan/amounts.h"
#include "plan/measures.h"

namespace lensward {
namespace {

using Kind = Intent::Kind;

constexpr Milliseconds hint_lasts{2000}, reveal_lasts{600}, last_image{1000};
constexpr Limits margin_limits{"margin", Dimension::points, 0, 100, "margin 12 points"};

std::optional<Target> named_target(Building& building, const Name& name) {
  const std::optional<Named> named = resolve_any(building.names, name, building.findings);
  if (!named) return std::nullopt;
  if (const auto* person = std::get_if<PersonId>(&*named)) return Target{Target::Kind::person, person->index, {}};
  if (const auto* piece = std::get_if<PieceId>(&*named)) return Target{Target::Kind::piece, piece->index, {}};
  if (const auto* prop = std::get_if<PropId>(&*named)) return Target{Target::Kind::prop, prop->index, {}};
  if (const auto* opening = std::get_if<OpeningId>(&*named)) return Target{Target::Kind::opening, opening->index, {}};
  if (std::holds_alternative<GroupId>(*named)) return std::nullopt;
  report(building, "name.wrong-kind", Severity::error, name.span,
         "`" + name.text + "` is " + kind_of(*named) + "; nobody can look at it", "name a person or a thing");
  return std::nullopt;
}

// Groups stand for their people.
std::vector<Target> named_targets(Building& building, const std::vector<Name>& names) {
  std::vector<Target> targets;
  for (const Name& name : names) {
    const std::optional<Named> named = building.names.find(name.text);
    const auto* group = named ? std::get_if<GroupId>(&*named) : nullptr;
    if (group != nullptr) {
      for (const PersonId person : building.names.members(*group)) {
        targets.push_back({Target::Kind::person, person.index, {}});
      }
    } else if (const auto target = named_target(building, name)) {
      targets.push_back(*target);
    }
  }
  return targets;
}

bool one_each(Kind kind) {
  return kind == Kind::plant || kind == Kind::pay_off || kind == Kind::hide || kind == Kind::hint ||
         kind == Kind::reveal || kind == Kind::play || kind == Kind::button;
}

bool report_misfit(Building& building, const Name& name, const std::string& message, const std::string& next_step) {
  report(building, "name.wrong-kind", Severity::error, name.span, message, next_step);
  return false;
}

// A favour is for one; a share, and a pass, are among different ones.
bool fits_kind(Building& building, Kind kind, const std::vector<Name>& names, const std::vector<Target>& targets) {
  if (kind == Kind::favour && targets.size() > 1) {
    return report_misfit(building, names.front(), "`" + names.front().text + "` is a group; a favour is for one",
                         "name one of them, or `share` the eye among them");
  }
  if (kind != Kind::share && kind != Kind::pass) return true;
  for (std::size_t i = 0; i < targets.size(); ++i) {
    if (std::find(targets.begin(), targets.begin() + static_cast<std::ptrdiff_t>(i), targets[i]) ==
        targets.begin() + static_cast<std::ptrdiff_t>(i)) {
      continue;
    }
    const Name& name = names[std::min(i, names.size() - 1)];
    return report_misfit(building, name, "`" + name.text + "` is named twice",
                         kind == Kind::share ? "name each once" : "write whom the eye goes to");
  }
  return true;
}

void read_strength(BeatAsked& beat, const IntentLine& line, Intent& intent) {
  if (const auto* strength = find<StrengthClause>(line.clauses)) {
    intent.strength = strength->kind == StrengthClause::Kind::just       ? Intent::Strength::just
                      : strength->kind == StrengthClause::Kind::outright ? Intent::Strength::outright
                                                                         : Intent::Strength::in_plain_sight;
  }
  for (const Clause& clause : line.clauses) {
    const auto* measure = std::get_if<MeasureClause>(&clause.body);
    if (measure == nullptr || measure->word != "margin") continue;
    const auto told = measured(measure->amount, margin_limits, beat.building.findings);
    if (told) intent.margin = Points{told->preferred};
  }
  if (const auto* lean = find<LeanClause>(line.clauses)) {
    if (const auto target = named_target(beat.building, lean->name)) intent.ahead_of = {*target};
  }
}

// From its cue or the top of the beat to its `until`, or the end of the beat. False when a cue means nothing.
bool read_stretch(BeatAsked& beat, const Clauses& clauses, Moment& begin, Moment& end, bool* cued = nullptr) {
  begin = beat.top;
  end = beat.end;
  if (const auto* cue = find<CueClause>(clauses)) {
    const std::optional<Moment> moment = beat.clock.moment_of(cue->cue);
    if (!moment) return beat.judged = false;
    begin = *moment;
    if (cued != nullptr) *cued = true;
  }
  if (const auto* during = find<WhileClause>(clauses)) {
    const std::optional<Moment> from = beat.clock.moment_of(during->point, false);
    const std::optional<Moment> to = from ? beat.clock.moment_of(during->point, true) : std::nullopt;
    if (!from || !to) return beat.judged = false;
    begin = *from;
    end = *to;
  }
  if (const auto* until = find<UntilClause>(clauses)) {
    const std::optional<Moment> moment = beat.clock.moment_of(until->point, false);
    if (!moment) return beat.judged = false;
    end = *moment;
  }
  end = std::max(begin, end);
  return true;
}

// The speech that is played on somebody or thrown away, by its words or its label.
std::optional<std::size_t> speech_meant(BeatAsked& beat, const IntentLine& line) {
  if (line.words) return beat.clock.speech_of(*line.words, line.whose);
  if (line.names.empty()) return std::nullopt;
  const Name& label = line.names.front();
  if (const auto found = beat.clock.line_named(label.text)) return found;
  report(beat.building, "time.cue-missing", Severity::error, label.span,
         "no speech of this beat is called `" + label.text + "`",
         "write `named " + label.text + "` before the colon of the speech, or quote its first words");
  return std::nullopt;
}

bool read_speech_stretch(BeatAsked& beat, const IntentLine& line, Intent& intent) {
  const std::optional<std::size_t> speech = speech_meant(beat, line);
  if (!speech || !beat.clock.time_of(*speech).placed) return beat.judged = false;
  intent.begin = beat.clock.time_of(*speech).begin;
  intent.end = beat.clock.time_of(*speech).end;
  return true;
}

void shape_stretch(BeatAsked& beat, const IntentLine& line, Intent& intent) {
  if (intent.kind == Kind::hint) intent.end = intent.begin + hint_lasts;
  if (intent.kind == Kind::reveal) intent.end = intent.begin + reveal_lasts;
  if (intent.kind == Kind::button) intent.begin = std::max(intent.begin, intent.end - last_image);
  if (intent.kind == Kind::settle && line.amount) {
    intent.rests = time_told(*line.amount, beat.building.findings).value_or(Milliseconds{});
  }
}

// Whoever does what the eye is drawn away from.
std::vector<Target> doers_of(BeatAsked& beat, const Clauses& clauses) {
  const auto* during = find<WhileClause>(clauses);
  if (during == nullptr) return {};
  std::vector<Name> names;
  if (const auto line = beat.clock.line_named(during->point.name.text)) {
    for (const std::string& doer : beat.clock.lines()[*line].doers) names.push_back({doer, during->point.span});
  } else {
    names.push_back(during->point.name);
  }
  return named_targets(beat.building, names);
}

void read_intent(BeatAsked& beat, const IntentLine& line, const Statement& statement) {
  Building& building = beat.building;
  Intent intent;
  intent.kind = static_cast<Kind>(line.kind);
  intent.said_at = statement.span;
  intent.words = text_of_line(building, statement.span);
  read_strength(beat, line, intent);
  std::vector<Name> names = line.names;
  const bool of_speech = intent.kind == Kind::play || intent.kind == Kind::throw_away;
  if (of_speech && !line.words && !names.empty()) names.erase(names.begin());
  const std::vector<Target> targets = named_targets(building, names);
  if (!line.ahead_of.empty()) intent.ahead_of = named_targets(building, line.ahead_of);
  if (intent.kind == Kind::draw_the_eye) intent.ahead_of = doers_of(beat, line.clauses);
  const bool timed = of_speech ? read_speech_stretch(beat, line, intent)
                               : read_stretch(beat, line.clauses, intent.begin, intent.end, &intent.cued);
  if (!timed) return;
  shape_stretch(beat, line, intent);
  const bool needs_somebody =
      intent.kind != Kind::favour_nobody && intent.kind != Kind::settle && intent.kind != Kind::throw_away;
  if (needs_somebody && targets.empty()) {
    beat.judged = false;
    return;
  }
  if (!fits_kind(building, intent.kind, names, targets)) {
    beat.judged = false;
    return;
  }
  if (!one_each(intent.kind)) {
    intent.targets = targets;
    building.plan.intents.push_back(std::move(intent));
    return;
  }
  for (const Target& target : targets) {
    intent.targets = {target};
    building.plan.intents.push_back(intent);
  }
}

void read_story(BeatAsked& beat, const StoryLine& line, const Statement& statement) {
  StoryState state;
  const auto story = resolve<StoryId>(beat.building.names, line.story, beat.building.findings);
  if (!story || !read_stretch(beat, line.clauses, state.begin, state.end)) return;
  state.story = *story;
  state.state = static_cast<StoryState::State>(line.state);
  state.said_at = statement.span;
  beat.building.plan.stories.push_back(state);
}

void read_note(BeatAsked& beat, const NoteLine& line, const Statement& statement) {
  Moment begin, end;
  if (!read_stretch(beat, line.clauses, begin, end)) return;
  beat.building.plan.notes.push_back({line.department, line.text.words, begin, statement.span});
}

bool replaces(Kind kind) {
  return kind == Kind::favour || kind == Kind::favour_nobody || kind == Kind::share || kind == Kind::pass;
}

}  // namespace

Waiver read_waiver(Building& building, const WaiveLine& line, Span span) {
  Waiver waiver;
  waiver.rule = line.rule.text;
  for (const PersonId person : people_named(building.names, line.people, building.findings)) {
    waiver.people.push_back(name_of(building, person));
  }
  for (const Clause& clause : line.clauses) {
    const auto* label = std::get_if<LabelClause>(&clause.body);
    if (label != nullptr && label->kind == LabelClause::Kind::because) waiver.because = label->quoted.words;
  }
  waiver.said_at = span;
  return waiver;
}

bool read_asking(BeatAsked& beat, const Statement& statement, std::vector<WaitingWaiver>& waiting) {
  if (const auto* intent = std::get_if<IntentLine>(&statement.body)) {
    read_intent(beat, *intent, statement);
  } else if (const auto* story = std::get_if<StoryLine>(&statement.body)) {
    read_story(beat, *story, statement);
  } else if (const auto* note = std::get_if<NoteLine>(&statement.body)) {
    read_note(beat, *note, statement);
  } else if (const auto* waive = std::get_if<WaiveLine>(&statement.body)) {
    Waiver waiver = read_waiver(beat.building, *waive, statement.span);
    waiver.begin = beat.top;
    waiver.end = beat.end;
    const auto* until = find<UntilClause>(waive->clauses);
    if (until != nullptr && until->point.kind == CuePoint::Kind::deed && until->point.verb.empty()) {
      waiting.push_back({beat.building.plan.waivers.size(), until->point.name.text});
    } else {
      read_stretch(beat, waive->clauses, waiver.begin, waiver.end);
    }
    beat.building.plan.waivers.push_back(std::move(waiver));
  } else {
    return false;
  }
  return true;
}

void end_replaced(std::vector<Intent>& intents, std::size_t first_of_beat) {
  for (std::size_t i = first_of_beat; i < intents.size(); ++i) {
    if (!replaces(intents[i].kind)) continue;
    for (std::size_t j = first_of_beat; j < intents.size(); ++j) {
      const bool next = replaces(intents[j].kind) && intents[j].begin > intents[i].begin;
      if (next) intents[i].end = std::min(intents[i].end, intents[j].begin);
    }
  }
}

void end_carried(Plan& plan) {
  const Moment scene_end = plan.duration();
  for (StoryState& state : plan.stories) {
    state.end = scene_end;
    for (const StoryState& next : plan.stories) {
      if (next.story == state.story && next.begin > state.begin) state.end = std::min(state.end, next.begin);
    }
  }
  for (Intent& hide : plan.intents) {
    if (hide.kind != Kind::hide || hide.strength == Intent::Strength::in_plain_sight) continue;
    hide.end = scene_end;
    for (const Intent& reveal : plan.intents) {
      const bool ends_it = reveal.kind == Kind::reveal && reveal.targets == hide.targets && reveal.begin >= hide.begin;
      if (ends_it) hide.end = std::min(hide.end, reveal.begin);
    }
  }
}

static_assert(static_cast<int>(Kind::button) == static_cast<int>(IntentLine::Kind::button));
static_assert(static_cast<int>(Kind::draw_the_eye) == static_cast<int>(IntentLine::Kind::draw_the_eye));
static_assert(static_cast<int>(StoryState::State::closes) == static_cast<int>(StoryLine::State::closes));

}  // namespace lensward
