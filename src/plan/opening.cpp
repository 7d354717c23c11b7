#include "plan/opening.h"

#include <algorithm>
#include <initializer_list>
#include <utility>

#include "base/quantity_text.h"
#include "plan/deeds.h"
#include "plan/follow.h"
#include "plan/state.h"

namespace lensward {
namespace {

enum class First { nothing, placing, away, enters, other };

struct Appearance {
  First first = First::nothing;
  int beat = -1;  // -1: the opening
  const Statement* line = nullptr;
};

bool begins_with(const std::string& verb, std::initializer_list<std::string_view> words) {
  const std::string first = verb.substr(0, verb.find(' '));
  return std::find(words.begin(), words.end(), first) != words.end();
}

First first_of(const DeedLine& line) {
  if (line.verb == "is away" || line.verb == "are away" || line.verb == "is out") return First::away;
  if (begins_with(line.verb, {"is", "are", "stands", "stand", "waits", "wait", "sits", "sit", "lies", "lie", "perches",
                              "perch", "leans", "lean", "kneels", "kneel", "crouches", "crouch"})) {
    return First::placing;
  }
  return begins_with(line.verb, {"enters", "enter", "comes", "come"}) ? First::enters : First::other;
}

class SceneStart {
 public:
  SceneStart(Building& building, const SceneText& text) : building_(building), text_(text) {}

  void build() {
    find_appearances();
    set_presence();
    if (building_.before != nullptr) carry_over(*building_.before, building_);
    place_crowds();
    cut_at_top();
    perform_lamps();
    place_people();
    place_the_rest();
    turn_again();
    face_each_other();
    perform_the_rest();
    focus_somewhere();
  }

 private:
  void find_appearances() {
    appearances_.resize(building_.plan.people.size());
    note(text_.opening, -1);
    for (std::size_t i = 0; i < text_.beats.size(); ++i) note(text_.beats[i].lines, static_cast<int>(i));
  }

  void note(const std::vector<const Statement*>& lines, int beat) {
    for (const Statement* statement : lines) {
      const auto* deed = std::get_if<DeedLine>(&statement->body);
      const auto* speech = std::get_if<SpeechLine>(&statement->body);
      if (deed == nullptr && speech == nullptr) continue;
      const Who& who = deed != nullptr ? deed->who : speech->speaker;
      for (const PersonId person : known_people(who)) {
        Appearance& appearance = appearances_[static_cast<std::size_t>(person.index)];
        if (appearance.first != First::nothing) continue;
        appearance = {deed != nullptr ? first_of(*deed) : First::other, beat, statement};
      }
    }
  }

  // Names that are not of people are somebody else's finding.
  std::vector<PersonId> known_people(const Who& who) const {
    std::vector<PersonId> people;
    for (const Name& name : who.names) {
      const std::optional<Named> named = building_.names.find(name.text);
      if (!named) continue;
      if (const auto* person = std::get_if<PersonId>(&*named)) people.push_back(*person);
      if (const auto* group = std::get_if<GroupId>(&*named)) {
        for (const PersonId member : building_.names.members(*group)) people.push_back(member);
      }
    }
    return people;
  }

  static bool there_at_first(const Appearance& appearance) {
    if (appearance.first == First::placing) return true;
    return appearance.first == First::other && appearance.beat <= 0;
  }

  void set_presence() {
    const std::set<int> placed_at_declaration = crowd_people();
    const std::set<std::string> stayed = building_.before ? people_at_end(*building_.before) : std::set<std::string>{};
    for (std::size_t i = 0; i < appearances_.size(); ++i) {
      const Appearance& appearance = appearances_[i];
      const bool unsaid = appearance.first == First::nothing || appearance.first == First::other;
      const bool stays = unsaid && stayed.count(building_.plan.stage.people[i].name) > 0;
      const bool present = stays || there_at_first(appearance);
      const Span said_at = appearance.line != nullptr ? appearance.line->span : Span{};
      building_.plan.people[i].present = {{{}, {}, present, present, Origin::assumed, said_at}};
      const bool told = appearance.first == First::away || (appearance.first == First::enters);
      const bool placed = placed_at_declaration.count(static_cast<int>(i)) > 0;
      if (!present && !told && !placed) tell_missing(i, appearance);
    }
  }

  void tell_missing(std::size_t index, const Appearance& appearance) {
    const Person& person = building_.plan.stage.people[index];
    const std::string until = appearance.line == nullptr ? "has no line in the scene, so is away all through"
                                                         : "has no line before beat `" + beat_name(appearance.beat) +
                                                               "`, so is away until then";
    report(building_, "missing-person", Severity::remark, person.declared, "`" + person.name + "` " + until,
           "say in the opening where they are: `" + person.name + " is …` or `" + person.name + " is away`")
        .subject.people = {person.name};
  }

  std::string beat_name(int beat) const { return text_.beats[static_cast<std::size_t>(beat)].heading->name.text; }

  // A crowd stands where it is declared, until it moves.
  void place_crowds() {
    for (const Statement* statement : text_.above) {
      const auto* crowd = std::get_if<DeclarationLine>(&statement->body);
      if (crowd == nullptr || crowd->kind != DeclarationLine::Kind::crowd) continue;
      const PlaceWords words = place_words(building_, crowd->clauses, statement->span);
      const std::optional<Named> named = building_.names.find(crowd->name.text);
      const auto* group = named ? std::get_if<GroupId>(&*named) : nullptr;
      if (words.places.empty() || group == nullptr) continue;
      const std::vector<PersonId>& members = building_.names.members(*group);
      for (std::size_t i = 0; i < members.size(); ++i) {
        place_one_of(members[i], words, static_cast<int>(i), static_cast<int>(members.size()));
      }
    }
  }

  void place_one_of(PersonId person, const PlaceWords& words, int index, int count) {
    const std::vector<PersonState> states = states_at(building_, Moment{});
    const PlaceContext context = place_context(building_, states, person, Moment{});
    const auto settled = settle(words, context, index, count, building_.findings);
    if (!settled) return;
    PersonTrack& track = building_.plan.people[static_cast<std::size_t>(person.index)];
    track.present = {{{}, {}, true, true, settled->origin, words.span}};
    track.feet = {{{}, {}, Walk{}, Walk{{settled->at}}, settled->origin, words.span}};
    const Facing facing = default_facing(building_, person, settled->at, Moment{});
    track.body = {{{}, {}, facing, facing, Origin::assumed, words.span}};
  }

  std::set<int> crowd_people() const {
    std::set<int> people;
    for (const Statement* statement : text_.above) {
      const auto* crowd = std::get_if<DeclarationLine>(&statement->body);
      if (crowd == nullptr || crowd->kind != DeclarationLine::Kind::crowd) continue;
      const std::optional<Named> named = building_.names.find(crowd->name.text);
      const auto* group = named ? std::get_if<GroupId>(&*named) : nullptr;
      if (group == nullptr || place_words(building_, crowd->clauses, {}).places.empty()) continue;
      for (const PersonId person : building_.names.members(*group)) people.insert(person.index);
    }
    return people;
  }

  void cut_at_top() {
    for (const Statement* statement : text_.opening) {
      const auto* cut = std::get_if<CutLine>(&statement->body);
      if (cut == nullptr) continue;
      const auto camera = resolve<CameraId>(building_.names, cut->camera, building_.findings);
      if (camera) building_.plan.cuts.push_back({Moment{}, *camera, statement->span});
    }
  }

  const DeedLine* deed_at(const Statement* statement) const { return std::get_if<DeedLine>(&statement->body); }

  bool is_of(const DeedLine& line, DeedLine::Subject subject) const {
    if (line.subject != DeedLine::Subject::people) return line.subject == subject;
    if (line.who.names.empty()) return subject == DeedLine::Subject::people;
    const std::optional<Named> named = building_.names.find(line.who.names.front().text);
    if (named && std::holds_alternative<CameraId>(*named)) return subject == DeedLine::Subject::camera;
    if (named && std::holds_alternative<LampId>(*named)) return subject == DeedLine::Subject::light;
    return subject == DeedLine::Subject::people;
  }

  void perform_at_top(const Statement& statement, const DeedLine& line) {
    if (facts_of(building_, line)) perform(building_, statement, Moment{}, true);
    building_.done_at_opening.insert(&statement);
  }

  void perform_lamps() {
    for (const Statement* statement : text_.opening) {
      const DeedLine* line = deed_at(statement);
      if (line != nullptr && is_of(*line, DeedLine::Subject::light)) perform_at_top(*statement, *line);
    }
  }

  // Those placed by others come after those others, whatever order they are written in.
  void place_people() {
    std::vector<const Statement*> placings;
    for (const Statement* statement : text_.opening) {
      const DeedLine* line = deed_at(statement);
      if (line == nullptr || !is_of(*line, DeedLine::Subject::people)) continue;
      if (first_of(*line) == First::placing || first_of(*line) == First::away) placings.push_back(statement);
    }
    for (const Appearance& appearance : appearances_) {
      const bool in_a_beat = appearance.first == First::placing && appearance.beat >= 0;
      const bool known = std::find(placings.begin(), placings.end(), appearance.line) != placings.end();
      if (in_a_beat && !known) placings.push_back(appearance.line);
    }
    std::stable_sort(placings.begin(), placings.end(),
                     [](const Statement* a, const Statement* b) { return a->span.begin < b->span.begin; });
    for (const bool leaning : {false, true}) {
      for (const Statement* statement : placings) {
        const DeedLine& line = *deed_at(statement);
        if (names_people(building_, line.clauses) != leaning) continue;
        perform_at_top(*statement, line);
        if (leaning) leaning_.push_back(statement);
      }
    }
  }

  // Two who are turned to one another cannot both come after the other: whoever came first was turned to nowhere. What
  // is wrong with the line has been told.
  void turn_again() {
    Findings told = std::exchange(building_.findings, Findings{});
    for (const Statement* statement : leaning_) {
      const DeedLine& line = *deed_at(statement);
      for (const PersonId person : people_of(building_, line.who, Moment{})) {
        Lane<Facing>& body = building_.plan.people[static_cast<std::size_t>(person.index)].body;
        if (body.empty() || body.back().origin != Origin::said || body.back().end > Moment{}) continue;
        const Performance again{.building = building_,
                                .statement = *statement,
                                .line = line,
                                .begin = {},
                                .told = {},
                                .opening = true,
                                .person = person};
        const Vec2 at = person_at(building_.plan, person, Moment{}).at;
        if (const auto facing = facing_told(again, at, Moment{})) body.back().from = body.back().to = *facing;
      }
    }
    building_.findings = std::move(told);
  }

  void place_the_rest() {
    std::vector<PersonId> placeless;
    for (std::size_t i = 0; i < building_.plan.people.size(); ++i) {
      const bool present = building_.plan.people[i].present.back().to;
      if (present && building_.plan.people[i].feet.empty()) placeless.push_back(PersonId{static_cast<int>(i)});
    }
    for (std::size_t i = 0; i < placeless.size(); ++i) {
      place_in_middle(building_, placeless[i], Moment{}, static_cast<int>(i), static_cast<int>(placeless.size()));
    }
  }

  // Only now does everybody stand somewhere, so those who face nobody told are turned again.
  void face_each_other() {
    for (std::size_t i = 0; i < building_.plan.people.size(); ++i) {
      PersonTrack& track = building_.plan.people[i];
      if (track.feet.empty() || track.body.empty() || track.body.back().origin != Origin::assumed) continue;
      const PersonId person{static_cast<int>(i)};
      const Facing facing = default_facing(building_, person, person_at(building_.plan, person, Moment{}).at, Moment{});
      track.body.back().from = track.body.back().to = facing;
    }
  }

  void perform_the_rest() {
    for (const Statement* statement : text_.opening) {
      const DeedLine* line = deed_at(statement);
      if (line == nullptr || building_.done_at_opening.count(statement) > 0) continue;
      const bool camera_is = is_of(*line, DeedLine::Subject::camera) && line->verb == "is";
      // A set-up that names nobody stands since it was declared.
      const auto* aims = find<AimsClause>(line->clauses);
      const bool on_people = find<FocusClause>(line->clauses) != nullptr || aims != nullptr;
      if (!camera_is || on_people) perform_at_top(*statement, *line);
    }
  }

  std::optional<PersonId> first_speaker() const {
    for (const BeatText& beat : text_.beats) {
      for (const Statement* statement : beat.lines) {
        const auto* speech = std::get_if<SpeechLine>(&statement->body);
        if (speech == nullptr) continue;
        for (const PersonId person : known_people(speech->speaker)) {
          if (person_at(building_.plan, person, Moment{}).present) return person;
        }
      }
    }
    return std::nullopt;
  }

  // A camera nobody focuses is focused for the one who speaks first.
  void focus_somewhere() {
    const std::optional<PersonId> speaker = first_speaker();
    if (!speaker) return;
    const auto eyes = sharp_point_of(building_.plan, {Target::Kind::person, speaker->index, {}}, Moment{});
    for (std::size_t i = 0; i < building_.plan.cameras.size(); ++i) {
      CameraTrack& track = building_.plan.cameras[i];
      const bool told = std::any_of(track.focus.begin(), track.focus.end(),
                                    [](const auto& segment) { return segment.origin != Origin::assumed; });
      if (told || !track.focus_on.empty()) continue;
      const CameraState state = camera_at(building_.plan, CameraId{static_cast<int>(i)}, Moment{});
      const double depth = std::max(dot(eyes.value_or(state.at) - state.at, axes_of(pinhole_of(state)).forward), 0.3);
      track.focus = {{{}, {}, Metres{depth}, Metres{depth}, Origin::assumed, Span{}}};
      const Camera& camera = building_.plan.stage.cameras[i];
      const std::string& name = name_of(building_, *speaker);
      assume(building_,
             "no focus told for camera `" + camera.name + "`, so " + text_of(Metres{depth}) + ", where `" + name +
                 "` is who speaks first",
             "camera " + camera.name + " focuses on " + name, camera.declared);
    }
  }

  Building& building_;
  const SceneText& text_;
  std::vector<Appearance> appearances_;
  std::vector<const Statement*> leaning_;  // placings by others, or turned to others
};

const LabelClause* label_of(const Clauses& clauses, LabelClause::Kind kind) {
  for (const Clause& clause : clauses) {
    const auto* label = std::get_if<LabelClause>(&clause.body);
    if (label != nullptr && label->kind == kind) return label;
  }
  return nullptr;
}

std::string camera_named(const DeedLine& line) { return line.who.names.empty() ? "" : line.who.names.front().text; }

}  // namespace

void build_opening(Building& building, const SceneText& text) {
  join_framings(building, text.opening);
  join_marks(building, text.opening);
  for (const BeatText& beat : text.beats) join_marks(building, beat.lines);
  if (!text.beats.empty()) note_addresses(building, text.beats.front().lines);
  SceneStart(building, text).build();
}

void join_framings(Building& building, const std::vector<const Statement*>& lines) {
  std::map<std::string, const Statement*> framings;
  for (const Statement* statement : lines) {
    const auto* deed = std::get_if<DeedLine>(&statement->body);
    if (deed == nullptr || deed->verb != "frames") continue;
    const Statement*& framing = framings[camera_named(*deed)];
    if (!deed->also) {
      framing = statement;
    } else if (framing != nullptr) {
      building.joined[framing].push_back(statement);
      building.joined_lines.insert(statement);
    }
  }
}

void join_marks(Building& building, const std::vector<const Statement*>& lines) {
  std::map<std::string, const Statement*> labelled;
  const Statement* above = nullptr;
  for (const Statement* statement : lines) {
    if (const auto* deed = std::get_if<DeedLine>(&statement->body)) {
      if (deed->subject == DeedLine::Subject::people) above = statement;
      const LabelClause* label = label_of(deed->clauses, LabelClause::Kind::mark);
      if (label != nullptr) labelled[label->name.text] = statement;
    }
    const auto* mark = std::get_if<MarkLine>(&statement->body);
    if (mark == nullptr) continue;
    const auto named = labelled.find(mark->name.text);
    const Statement* placing = named != labelled.end() ? named->second : above;
    if (placing != nullptr) building.numbers[placing] = mark;
  }
}

std::vector<PersonId> addressees_of(Building& building, const std::vector<const Statement*>& lines, std::size_t index) {
  const auto& speech = std::get<SpeechLine>(lines[index]->body);
  if (speech.addressee == SpeechLine::Addressee::named) {
    return people_named(building.names, speech.to, building.findings);
  }
  if (speech.addressee != SpeechLine::Addressee::unsaid) return {};
  const std::vector<PersonId> own = people_named(building.names, speech.speaker.names, building.findings);
  for (std::size_t i = index; i-- > 0;) {
    const auto* before = std::get_if<SpeechLine>(&lines[i]->body);
    if (before == nullptr || before->speaker.everyone) continue;
    const std::vector<PersonId> spoke = people_named(building.names, before->speaker.names, building.findings);
    if (!spoke.empty() && !own.empty() && spoke.front() != own.front()) return spoke;
  }
  return {};
}

void note_addresses(Building& building, const std::vector<const Statement*>& lines) {
  building.addresses.assign(building.plan.people.size(), {});
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto* speech = std::get_if<SpeechLine>(&lines[i]->body);
    if (speech == nullptr || speech->speaker.everyone) continue;
    const std::vector<PersonId> to = addressees_of(building, lines, i);
    for (const PersonId person : people_named(building.names, speech->speaker.names, building.findings)) {
      auto& addressed = building.addresses[static_cast<std::size_t>(person.index)];
      for (const PersonId other : to) {
        if (other != person) addressed.push_back(other);
      }
    }
  }
}

}  // namespace lensward
