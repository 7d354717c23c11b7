#include "plan/build_beat.h"

#include <algorithm>
#include <initializer_list>
#include <utility>

#include "base/quantity_text.h"
#include "plan/amounts.h"
#include "plan/declare.h"
#include "plan/deeds.h"
#include "plan/opening.h"
#include "plan/verb_clauses.h"

namespace lensward {
namespace {

constexpr Milliseconds usual_sound{1000}, eyes_arrive{400};

const LabelClause* named_label(const Clauses& clauses) {
  for (const Clause& clause : clauses) {
    const auto* label = std::get_if<LabelClause>(&clause.body);
    if (label != nullptr && label->kind == LabelClause::Kind::named) return label;
  }
  return nullptr;
}

const VoiceClause* voice_of(const Clauses& clauses, VoiceClause::Kind kind) {
  for (const Clause& clause : clauses) {
    const auto* voice = std::get_if<VoiceClause>(&clause.body);
    if (voice != nullptr && voice->kind == kind) return voice;
  }
  return nullptr;
}

const Clauses* clauses_of(const Statement& statement) {
  return std::visit(
      [](const auto& body) -> const Clauses* {
        if constexpr (requires { body.clauses; }) {
          return &body.clauses;
        } else {
          return nullptr;
        }
      },
      statement.body);
}

class BeatBuilder {
 public:
  BeatBuilder(Building& building, const BeatText& text, Moment top, std::vector<WaitingWaiver>& waiting,
              std::vector<RunsOn>& running)
      : building_(building), text_(text), top_(top), waiting_(waiting), running_(running) {}

  void build() {
    const Settings of_scene = building_.plan.settings;
    begin();
    for (std::size_t i = 0; i < text_.lines.size(); ++i) classify(i);
    BeatClock clock(std::move(timed_), top_, clock_settings(), building_.findings);
    first_speech_ = building_.plan.speeches.size();
    clock.run(asked_, [&](std::size_t index, Moment at) { return perform_line(clock, index, at); });
    finish(clock);
    building_.plan.settings = of_scene;
  }

 private:
  void begin() {
    for (const Statement* statement : text_.lines) {
      const auto* setting = std::get_if<SettingLine>(&statement->body);
      if (setting != nullptr) keep_for_beat(*setting, building_.plan.settings, building_.findings);
    }
    building_.subject.beat = text_.heading->name.text;
    building_.beat_top = top_;
    building_.time_passes = std::any_of(text_.lines.begin(), text_.lines.end(), [](const Statement* statement) {
      return std::holds_alternative<LaterLine>(statement->body);
    });
    join_framings(building_, text_.lines);
    note_addresses(building_, text_.lines);
    beat_.name = text_.heading->name.text;
    beat_.title = text_.heading->title ? text_.heading->title->words : std::string{};
    beat_.begin = top_;
    beat_.heading = text_.span;
  }

  ClockSettings clock_settings() const {
    ClockSettings settings;
    settings.subject = building_.subject;
    const auto told = [&](const char* key, Milliseconds usual) {
      return to_milliseconds(Seconds{figure_told(building_, key, to_seconds(usual).value)});
    };
    settings.turn_gap = told("turn-gap", settings.turn_gap);
    settings.breath = told("breath", settings.breath);
    return settings;
  }

  // ---- Before the clock runs ---------------------------------------------------------------------------------------

  void classify(std::size_t index) {
    const Statement& statement = *text_.lines[index];
    if (std::holds_alternative<BrokenLine>(statement.body)) {
      beat_.judged = false;
    } else if (const auto* lasts = std::get_if<LastsLine>(&statement.body)) {
      read_lasts(*lasts, statement.span);
    } else if (const auto* speech = std::get_if<SpeechLine>(&statement.body)) {
      add_speech(*speech, index);
    } else if (const auto* deed = std::get_if<DeedLine>(&statement.body)) {
      add_deed(*deed, index);
    } else if (const auto* pause = std::get_if<PauseLine>(&statement.body)) {
      TimedLine line = timed_line(statement, pause->clauses);
      line.kind = TimedLine::Kind::pause;
      line.length = time_told(pause->amount, building_.findings).value_or(Milliseconds{});
      add(std::move(line), index);
    } else if (const auto* cut = std::get_if<CutLine>(&statement.body)) {
      TimedLine line = timed_line(statement, cut->clauses);
      line.kind = TimedLine::Kind::equipment;
      line.instant = true;
      line.length = Milliseconds{};
      add(std::move(line), index);
    } else if (const auto* sound = std::get_if<SoundLine>(&statement.body)) {
      add_sound(*sound, index);
    }
  }

  void read_lasts(const LastsLine& line, Span span) {
    const std::optional<Milliseconds> length = time_told(line.amount, building_.findings);
    if (!length) return;
    if (line.about || line.amount.form == Amount::Form::about) {
      beat_.about = *length;
      beat_.about_at = span;
      return;
    }
    asked_.length = *length;
    asked_.span = span;
    using Form = AskedLength::Form;
    asked_.form = line.amount.form == Amount::Form::or_more   ? Form::at_least
                  : line.amount.form == Amount::Form::or_less ? Form::at_most
                                                              : Form::exactly;
  }

  TimedLine timed_line(const Statement& statement, const Clauses& clauses) {
    TimedLine line;
    line.when = statement.when;
    line.span = statement.span;
    if (const auto* cue = find<CueClause>(clauses)) line.cue = &cue->cue;
    if (const auto* during = find<WhileClause>(clauses)) line.during = &during->point;
    if (const LabelClause* label = named_label(clauses)) line.label = label->name.text;
    const auto* stay = find<StayClause>(clauses);
    line.runs_on = stay != nullptr && stay->kind == StayClause::Kind::runs_on;
    if (line.when != When::unsaid && (line.cue != nullptr || line.during != nullptr)) {
      report(building_, "time.two-whens", Severity::error, statement.span,
             "`then` or `meanwhile` and a cue both say when this begins", "keep one of them");
      beat_.judged = false;
      line.when = When::unsaid;
    }
    return line;
  }

  void add(TimedLine line, std::size_t index) {
    timed_.push_back(std::move(line));
    line_of_.push_back(index);
  }

  void add_speech(const SpeechLine& speech, std::size_t index) {
    const std::vector<PersonId> speakers = people_named(building_.names, speech.speaker.names, building_.findings);
    if (speakers.empty() && !speech.speaker.everyone) beat_.judged = false;
    TimedLine line = timed_line(*text_.lines[index], speech.clauses);
    line.kind = TimedLine::Kind::speech;
    line.verb = "speaks";
    for (const Name& name : speech.speaker.names) line.doers.push_back(name.text);
    if (!line.doers.empty()) line.speaker = line.doers.front();
    line.cutting_in = voice_of(speech.clauses, VoiceClause::Kind::cutting_in) != nullptr;
    const auto* length = find<LengthClause>(speech.clauses);
    const auto* pace = find<PaceClause>(speech.clauses);
    std::optional<Milliseconds> told;
    if (length != nullptr) told = time_told(length->amount, building_.findings);
    const WordsPerMinute rate =
        speakers.empty() ? WordsPerMinute{150}
                         : building_.plan.stage.people[static_cast<std::size_t>(speakers.front().index)].rate;
    line.spoken = time_speech(speech.parts, rate, pace == nullptr ? Pace::usual : pace->pace, told);
    if (!told && voice_of(speech.clauses, VoiceClause::Kind::trailing_off) != nullptr) trail_off(*line.spoken);
    if (const VoiceClause* voice = voice_of(speech.clauses, VoiceClause::Kind::cut_off)) cut_speech(line, *voice);
    line.length = line.spoken->length;
    add(std::move(line), index);
  }

  void cut_speech(TimedLine& line, const VoiceClause& voice) {
    if (!voice.at) return;
    // The word is looked for in this speech alone.
    const std::vector<TimedLine> alone{line};
    CueFinder finder(alone, building_.subject, building_.findings);
    const std::optional<Anchor> anchor = finder.find(*voice.at, false);
    if (anchor && anchor->edge == Anchor::Edge::word_begin) {
      cut_off(*line.spoken, anchor->word);
    } else {
      beat_.judged = false;
    }
  }

  void add_deed(const DeedLine& deed, std::size_t index) {
    const Statement& statement = *text_.lines[index];
    const std::optional<DeedFacts> facts = facts_of(building_, deed);
    if (!facts) {
      beat_.judged = false;
      return;
    }
    TimedLine line = timed_line(statement, deed.clauses);
    line.kind = facts->equipment ? TimedLine::Kind::equipment : TimedLine::Kind::deed;
    line.endless = facts->endless;
    line.instant = facts->instant;
    line.verb = facts->verb;
    if (!clauses_fit(building_, deed, *facts)) beat_.judged = false;
    for (const Name& name : deed.who.names) line.doers.push_back(name.text);
    if (!facts->equipment) line.others = others_of(deed.who);
    line.leans_on_others = names_people(building_, deed.clauses);
    const bool done = building_.done_at_opening.count(&statement) > 0;
    if (done) {
      line.length = Milliseconds{};
      line.instant = true;
      line.endless = false;
    }
    add(std::move(line), index);
  }

  // Everybody of `everyone` and of groups, whether there at that moment or not.
  std::vector<std::string> others_of(const Who& who) {
    std::vector<std::string> others;
    Findings unheard;
    const auto add_people = [&](const std::vector<PersonId>& people) {
      for (const PersonId person : people) others.push_back(name_of(building_, person));
    };
    add_people(people_named(building_.names, who.names, unheard));
    if (!who.everyone) return others;
    for (const Person& person : building_.plan.stage.people) others.push_back(person.name);
    for (const PersonId person : people_named(building_.names, who.but, unheard)) {
      std::erase(others, name_of(building_, person));
    }
    return others;
  }

  void add_sound(const SoundLine& sound, std::size_t index) {
    TimedLine line = timed_line(*text_.lines[index], sound.clauses);
    line.label = sound.name.text;
    line.doers = {sound.name.text};
    const auto* length = find<LengthClause>(sound.clauses);
    if (length != nullptr) line.length = time_told(length->amount, building_.findings);
    if (!line.length && line.during == nullptr) {
      line.length = usual_sound;
      assume(building_, "no length told for a sound, so " + text_of(usual_sound), "for " + text_of(usual_sound),
             text_.lines[index]->span, "time.default-length");
    }
    add(std::move(line), index);
  }

  // ---- While the clock runs ----------------------------------------------------------------------------------------

  Milliseconds perform_line(const BeatClock& clock, std::size_t index, Moment at) {
    const Statement& statement = *text_.lines[line_of_[index]];
    if (const auto* speech = std::get_if<SpeechLine>(&statement.body)) {
      start_speech(clock.lines()[index], *speech, line_of_[index], at);
    } else if (const auto* cut = std::get_if<CutLine>(&statement.body)) {
      const auto camera = resolve<CameraId>(building_.names, cut->camera, building_.findings);
      if (camera) building_.plan.cuts.push_back({at, *camera, statement.span});
      if (!camera) beat_.judged = false;
    } else if (std::holds_alternative<DeedLine>(statement.body)) {
      if (building_.done_at_opening.count(&statement) > 0) return {};
      return perform(building_, statement, at, false);
    }
    return {};
  }

  void cut_what_is_said(Moment at) {
    for (Speech& speech : building_.plan.speeches) {
      if (speech.begin < at && at < speech.end) end_speech(speech, at);
    }
  }

  static void end_speech(Speech& speech, Moment at) {
    speech.end = at;
    std::erase_if(speech.timed, [&](const Word& word) { return word.begin > at; });
    for (Word& word : speech.timed) word.end = std::min(word.end, at);
  }

  void start_speech(const TimedLine& line, const SpeechLine& text, std::size_t index, Moment at) {
    if (line.cutting_in) cut_what_is_said(at);
    const std::vector<PersonId> to = addressees_of(building_, text_.lines, index);
    const bool off = voice_of(text.clauses, VoiceClause::Kind::off) != nullptr;
    for (const PersonId speaker : people_of(building_, text.speaker, at)) {
      Speech speech;
      speech.speaker = speaker;
      for (const PersonId person : to) {
        if (person != speaker) speech.to.push_back(person);
      }
      using Addressee = SpeechLine::Addressee;
      speech.to_everyone =
          text.addressee == Addressee::everyone || (text.addressee == Addressee::unsaid && speech.to.empty());
      speech.begin = at;
      speech.end = at + line.spoken->length;
      const VoiceClause* voice = voice_of(text.clauses, VoiceClause::Kind::loudness);
      if (voice != nullptr) speech.loudness = voice->loudness;
      speech.off = off;
      speech.words = line.spoken->words;
      speech.timed = line.spoken->timed;
      speech.marks = line.spoken->marks;
      for (Word& word : speech.timed) {
        word.begin += at;
        word.end += at;
      }
      for (SpeechMarkTime& mark : speech.marks) mark.at += at;
      speech.label = line.label;
      speech.overlap_told = line.cutting_in || line.cue != nullptr || line.during != nullptr ||
                            voice_of(text.clauses, VoiceClause::Kind::cut_off) != nullptr;
      speech.length_told = find<LengthClause>(text.clauses) != nullptr;
      speech.trailing_off = voice_of(text.clauses, VoiceClause::Kind::trailing_off) != nullptr;
      speech.said_at = line.span;
      if (!off) appear(building_, speaker, at, line.span);
      if (!off && speech.to.size() == 1) look_at(speaker, speech.to.front(), at, line.span);
      building_.plan.speeches.push_back(std::move(speech));
    }
  }

  // Who speaks to one person looks at them, unless this beat has told their eyes otherwise.
  void look_at(PersonId speaker, PersonId to, Moment at, Span said_at) {
    PersonTrack& track = building_.plan.people[static_cast<std::size_t>(speaker.index)];
    const Segment<Gaze>* before = segment_at(track.eyes, at);
    const bool told = before != nullptr && before->origin != Origin::assumed && before->begin >= top_ &&
                      before->begin <= at && before->to.manner != Gaze::Manner::ahead;
    if (told) return;
    const Gaze gaze{Gaze::Manner::at_target, {Target::Kind::person, to.index, {}}};
    const Gaze from = before == nullptr ? Gaze{} : before->to;
    if (before != nullptr && from.manner == gaze.manner && from.target == gaze.target) return;
    put(track.eyes, {at, at + eyes_arrive, from, gaze, Origin::assumed, said_at});
  }

  // ---- After it has run --------------------------------------------------------------------------------------------

  void finish(BeatClock& clock) {
    beat_.end = clock.end();
    beat_.silent = clock.silent();
    end_speeches(clock);
    for (std::size_t i = 0; i < clock.lines().size(); ++i) finish_line(clock, i);
    close_business();
    const std::size_t first_intent = building_.plan.intents.size();
    BeatAsked asked{building_, clock, top_, beat_.end};
    for (const Statement* statement : text_.lines) {
      if (read_asking(asked, *statement, waiting_)) page_line(*statement, {true, asked_begin(*statement), beat_.end});
    }
    for (const Statement* statement : text_.lines) {
      const auto* draw = std::get_if<DrawLine>(&statement->body);
      if (draw != nullptr) want_picture(clock, *draw, *statement);
    }
    for (KeptSide& side : building_.plan.kept_sides) {
      if (side.end == side.begin) side.end = beat_.end;
    }
    beat_.judged = beat_.judged && asked.judged;
    end_replaced(building_.plan.intents, first_intent);
    page_lines(clock);
    building_.plan.beats.push_back(std::move(beat_));
  }

  // At its cue, else at the top of the beat.
  void want_picture(BeatClock& clock, const DrawLine& draw, const Statement& statement) {
    const auto* cue = find<CueClause>(draw.clauses);
    const std::optional<Moment> at = cue == nullptr ? std::optional{top_} : clock.moment_of(cue->cue);
    if (at) building_.plan.pictures.push_back({draw.plan, *at, statement.span});
  }

  // A speech that was cut in on ends there.
  void end_speeches(const BeatClock& clock) {
    for (std::size_t i = first_speech_; i < building_.plan.speeches.size(); ++i) {
      Speech& speech = building_.plan.speeches[i];
      for (std::size_t line = 0; line < clock.lines().size(); ++line) {
        const LineTime& time = clock.time_of(line);
        if (clock.lines()[line].span == speech.said_at && time.end < speech.end) end_speech(speech, time.end);
      }
    }
  }

  void finish_line(BeatClock& clock, std::size_t index) {
    const LineTime& time = clock.time_of(index);
    const TimedLine& line = clock.lines()[index];
    if (!time.placed) {
      beat_.judged = false;
      return;
    }
    if (line.runs_on) running_.push_back({time.end, line.span});
    const Clauses* clauses = clauses_of(*text_.lines[line_of_[index]]);
    const UntilClause* until = clauses == nullptr ? nullptr : find<UntilClause>(*clauses);
    if (until != nullptr) {
      const std::optional<Moment> end = clock.moment_of(until->point, false);
      if (end) end_deed(line.span, time.begin, *end);
      if (!end) beat_.judged = false;
    } else if (line.during != nullptr) {
      end_deed(line.span, time.begin, time.end);
    }
    const Statement& statement = *text_.lines[line_of_[index]];
    if (const auto* sound = std::get_if<SoundLine>(&statement.body)) {
      building_.plan.sounds.push_back({sound->name.text, time.begin, time.end, statement.span});
    }
  }

  // A walk that has to be done by then is hurried, and what it needs is kept beside it.
  void end_walk(PersonId person, PersonTrack& track, Span said_at, Moment begin, Moment end) {
    for (Segment<Walk>& walk : track.feet) {
      if (walk.said_at != said_at || walk.begin < begin || walk.to.path.size() < 2) continue;
      building_.plan.moves_by_cue.push_back({person, walk.begin, end, walk.end - walk.begin, said_at});
      if (end < walk.end && end > walk.begin) walk.end = end;
    }
  }

  // What `until` and `while` end: walks, business, where eyes rest, and what cameras keep.
  void end_deed(Span said_at, Moment begin, Moment end) {
    end_of_cameras(building_, said_at, begin, end);
    for (std::size_t i = 0; i < building_.plan.people.size(); ++i) {
      PersonTrack& track = building_.plan.people[i];
      end_walk(PersonId{static_cast<int>(i)}, track, said_at, begin, end);
      for (Business& business : track.hands) {
        if (business.said_at == said_at && business.begin >= begin) business.end = std::max(business.begin, end);
      }
      const auto look = std::find_if(track.eyes.begin(), track.eyes.end(), [&](const Segment<Gaze>& segment) {
        return segment.said_at == said_at && segment.begin >= begin;
      });
      if (look == track.eyes.end()) continue;
      const Gaze from = look->to;
      const Segment<Gaze>* at_end = segment_at(track.eyes, end);
      if (at_end == &*look) put(track.eyes, {end, end + eyes_arrive, from, Gaze{}, Origin::assumed, said_at});
    }
    std::erase_if(building_.open_business, [&](const OpenBusiness& open) {
      return building_.plan.people[static_cast<std::size_t>(open.person.index)].hands[open.index].said_at == said_at;
    });
  }

  void close_business() {
    for (const OpenBusiness& open : building_.open_business) {
      if (open.runs_on) continue;
      Business& deed = building_.plan.people[static_cast<std::size_t>(open.person.index)].hands[open.index];
      deed.end = std::max(deed.begin, beat_.end);
    }
    std::erase_if(building_.open_business, [](const OpenBusiness& open) { return !open.runs_on; });
  }

  Moment asked_begin(const Statement& statement) const {
    for (const Intent& intent : building_.plan.intents) {
      if (intent.said_at == statement.span) return intent.begin;
    }
    for (const StoryState& state : building_.plan.stories) {
      if (state.said_at == statement.span) return state.begin;
    }
    return top_;
  }

  void page_lines(const BeatClock& clock) {
    for (std::size_t i = 0; i < clock.lines().size(); ++i) page_line(*text_.lines[line_of_[i]], clock.time_of(i));
    std::stable_sort(beat_.lines.begin(), beat_.lines.end(),
                     [](const BeatLine& a, const BeatLine& b) { return a.said_at.begin < b.said_at.begin; });
  }

  void page_line(const Statement& statement, const LineTime& time) {
    BeatLine line;
    line.kind = kind_of_line(statement);
    line.text = text_of_line(building_, whole_span(statement));
    line.begin = time.placed ? time.begin : top_;
    line.end = time.placed ? time.end : top_;
    line.said_at = statement.span;
    for (std::size_t i = first_speech_; i < building_.plan.speeches.size(); ++i) {
      if (building_.plan.speeches[i].said_at == statement.span && line.speech < 0) line.speech = static_cast<int>(i);
    }
    Findings unheard;
    if (const auto* deed = std::get_if<DeedLine>(&statement.body)) {
      line.length_told = find<LengthClause>(deed->clauses) != nullptr;
      line.verb = deed->verb;
      if (deed->subject == DeedLine::Subject::people && line.kind != BeatLine::Kind::camera) {
        line.people = doers_of(deed->who, line.begin);
      }
    } else if (const auto* speech = std::get_if<SpeechLine>(&statement.body)) {
      line.people = people_named(building_.names, speech->speaker.names, unheard);
    }
    beat_.lines.push_back(std::move(line));
  }

  // Those named, and of `everyone` those who are there then.
  std::vector<PersonId> doers_of(const Who& who, Moment moment) const {
    Findings unheard;
    std::vector<PersonId> doers = people_named(building_.names, who.names, unheard);
    if (!who.everyone) return doers;
    const std::vector<PersonId> left_out = people_named(building_.names, who.but, unheard);
    for (std::size_t i = 0; i < building_.plan.people.size(); ++i) {
      const PersonId person{static_cast<int>(i)};
      const bool out = std::find(left_out.begin(), left_out.end(), person) != left_out.end();
      if (!out && person_at(building_.plan, person, moment).present) doers.push_back(person);
    }
    return doers;
  }

  // The statement's own line, with the `+` lines and lines of speech that belong to it.
  Span whole_span(const Statement& statement) const {
    Span span = statement.span;
    const auto reach = [&](Span part) { span.end = std::max(span.end, part.end); };
    if (const Clauses* clauses = clauses_of(statement)) {
      for (const Clause& clause : *clauses) reach(clause.span);
    }
    if (const auto* speech = std::get_if<SpeechLine>(&statement.body)) {
      for (const SpeechPart& part : speech->parts) reach(part.span);
    }
    if (span.end == statement.span.end) return span;
    // A quotation mark may close behind the last words.
    const std::string_view bytes = building_.sources.file(span.file).bytes();
    span.end = static_cast<std::uint32_t>(std::min(bytes.find('\n', span.end), bytes.size()));
    return span;
  }

  static bool verb_of(const DeedLine& deed, std::initializer_list<std::string_view> verbs) {
    const std::string_view verb = std::string_view(deed.verb).substr(0, deed.verb.find(' '));
    return std::any_of(verbs.begin(), verbs.end(), [&](std::string_view known) {
      return verb == known || verb == known.substr(0, known.size() - 1);
    });
  }

  BeatLine::Kind kind_of_line(const Statement& statement) const {
    using Kind = BeatLine::Kind;
    if (std::holds_alternative<SpeechLine>(statement.body)) return Kind::speech;
    if (std::holds_alternative<PauseLine>(statement.body)) return Kind::pause;
    if (std::holds_alternative<CutLine>(statement.body)) return Kind::camera;
    if (std::holds_alternative<SoundLine>(statement.body)) return Kind::sound;
    if (std::holds_alternative<IntentLine>(statement.body)) return Kind::intent;
    if (std::holds_alternative<StoryLine>(statement.body)) return Kind::story;
    const auto* deed = std::get_if<DeedLine>(&statement.body);
    if (deed == nullptr) return Kind::other;
    if (deed->subject == DeedLine::Subject::camera) return Kind::camera;
    if (deed->subject == DeedLine::Subject::light) return Kind::light;
    const std::optional<Named> named =
        deed->who.names.empty() ? std::nullopt : building_.names.find(deed->who.names.front().text);
    if (named && std::holds_alternative<CameraId>(*named)) return Kind::camera;
    if (named && std::holds_alternative<LampId>(*named)) return Kind::light;
    if (verb_of(*deed, {"looks", "glances", "watches"})) return Kind::look;
    const bool hands =
        verb_of(*deed, {"takes", "puts", "gives", "hands", "lifts", "touches", "pours", "opens", "closes", "points",
                        "does", "carries", "drops", "pulls", "pushes", "picks", "aims", "wears", "sweeps"});
    return hands ? Kind::hands : Kind::move;
  }

  Building& building_;
  const BeatText& text_;
  Moment top_;
  std::vector<WaitingWaiver>& waiting_;
  std::vector<RunsOn>& running_;
  Beat beat_;
  AskedLength asked_;
  std::vector<TimedLine> timed_;
  std::vector<std::size_t> line_of_;  // of a timed line, which line of the beat it is
  std::size_t first_speech_ = 0;
};

}  // namespace

void build_beat(Building& building, const BeatText& text, Moment top, std::vector<WaitingWaiver>& waiting,
                std::vector<RunsOn>& running) {
  BeatBuilder(building, text, top, waiting, running).build();
}

}  // namespace lensward
