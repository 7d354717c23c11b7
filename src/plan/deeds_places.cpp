// What the lines of deeds say of places, bearings and targets.
#include <algorithm>
#include <utility>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "plan/deeds.h"
#include "plan/floor.h"
#include "plan/measures.h"

namespace lensward {
namespace {

// Words and numbers may differ by what a person's own width makes of a mark.
constexpr double mark_slack = 0.1;
constexpr Limits spacing_limits{"distance from one to the next", Dimension::length, 0.2, 10, "0.9 m apart"};

bool names_person(const Building& building, const Thing& thing) {
  if (thing.kind == Thing::Kind::everyone) return true;
  const std::optional<Named> named = building.names.find(thing.name.text);
  return named && (std::holds_alternative<PersonId>(*named) || std::holds_alternative<GroupId>(*named));
}

std::string point_text(Vec2 at) { return "(" + number(at.x, 2) + ", " + number(at.y, 2) + ") m"; }

// UTF-8: a name may begin with any letter.
std::string initial_of(const std::string& name) {
  std::size_t end = 1;
  while (end < name.size() && (static_cast<unsigned char>(name[end]) & 0xC0U) == 0x80U) ++end;
  return name.substr(0, end);
}

const LabelClause* mark_label(const Clauses& clauses) {
  for (const Clause& clause : clauses) {
    const auto* label = std::get_if<LabelClause>(&clause.body);
    if (label != nullptr && label->kind == LabelClause::Kind::mark) return label;
  }
  return nullptr;
}

const MarkLine* numbers_of(const Performance& performance) {
  const auto found = performance.building.numbers.find(&performance.statement);
  return found == performance.building.numbers.end() ? nullptr : found->second;
}

std::string mark_name(const Performance& performance) {
  if (const LabelClause* label = mark_label(performance.line.clauses)) return label->name.text;
  if (const MarkLine* numbers = numbers_of(performance)) return numbers->name.text;
  const std::vector<Mark>& marks = performance.building.plan.marks;
  int& count = performance.building.marks_of[static_cast<std::size_t>(performance.person.index)];
  for (;;) {
    std::string name = initial_of(performance.name()) + std::to_string(++count);
    const bool taken = std::any_of(marks.begin(), marks.end(), [&](const Mark& mark) { return mark.name == name; });
    if (!taken) return name;
  }
}

void tell_settled(const Performance& performance, const Mark& mark, const std::string& words) {
  const Outline& room = performance.building.plan.stage.room.outline;
  // Numbers beyond the walls are refused, so whoever waits outside a door is left to the words.
  const bool can_be_pinned = room.empty() || encloses(room, mark.at);
  const std::string pin = "to pin it, write under the line: `mark " + mark.name + " at " + point_text(mark.at) + "`";
  report(performance.building, "place.settled", Severity::remark, performance.statement.span,
         "`" + performance.name() + "` settled at " + point_text(mark.at) + " from \"" + words + "\"",
         can_be_pinned ? pin : std::string{})
      .subject.people = {performance.name()};
}

void compare_with_words(const Performance& performance, const SettledPlace& words, Vec2 numbers) {
  const double apart = length(words.at - numbers);
  const bool inside = words.area.empty() ? apart <= mark_slack : holds(words.area, numbers, mark_slack);
  if (inside) return;
  report(performance.building, "words-and-numbers", Severity::warning, performance.statement.span,
         "the mark at " + point_text(numbers) + " lies outside \"" + words.words + "\", " + text_of(Metres{apart}) +
             " from where the words would put `" + performance.name() + "`",
         "change the words, or the numbers: the words give " + point_text(words.at));
}

}  // namespace

PlaceWords place_words(Building& building, const Clauses& clauses, Span span) {
  PlaceWords words;
  words.span = span;
  words.apart = figure_told(building, "apart", words.apart);
  for (const Clause& clause : clauses) {
    if (const auto* at = std::get_if<AtClause>(&clause.body)) {
      words.places.push_back(&at->place);
    } else if (const auto* where = std::get_if<WhereClause>(&clause.body)) {
      words.places.push_back(&where->place);
    } else if (const auto* to = std::get_if<ToClause>(&clause.body)) {
      if (to->place) {
        words.places.push_back(&*to->place);
        words.goal = true;
      }
      if (to->size) words.size = to->size;
    } else if (const auto* shift = std::get_if<ShiftClause>(&clause.body)) {
      if (!shift->place) continue;
      building.made_places.push_back(*shift->place);
      if (!building.made_places.back().measure) building.made_places.back().measure = shift->amount;
      words.places.push_back(&building.made_places.back());
    } else if (const auto* size = std::get_if<SizeClause>(&clause.body)) {
      words.size = size->size;
    } else if (const auto* body = std::get_if<BodyClause>(&clause.body)) {
      words.body = body;
    } else if (const auto* measure = std::get_if<MeasureClause>(&clause.body); measure && measure->word == "apart") {
      if (const auto told = measured(measure->amount, spacing_limits, building.findings)) words.apart = told->preferred;
    }
  }
  return words;
}

bool names_people(const Building& building, const Clauses& clauses) {
  const auto in_place = [&](const Place& place) {
    return std::any_of(place.things.begin(), place.things.end(),
                       [&](const Thing& thing) { return names_person(building, thing); });
  };
  return std::any_of(clauses.begin(), clauses.end(), [&](const Clause& clause) {
    if (const auto* at = std::get_if<AtClause>(&clause.body)) return in_place(at->place);
    if (const auto* where = std::get_if<WhereClause>(&clause.body)) return in_place(where->place);
    if (const auto* to = std::get_if<ToClause>(&clause.body)) return to->place && in_place(*to->place);
    if (const auto* shift = std::get_if<ShiftClause>(&clause.body)) return shift->place && in_place(*shift->place);
    if (const auto* facing = std::get_if<FacingClause>(&clause.body)) return facing->at && in_place(*facing->at);
    const auto* body = std::get_if<BodyClause>(&clause.body);
    return body != nullptr && body->toward && names_person(building, *body->toward);
  });
}

PlaceContext context_for(const Building& building, const std::vector<PersonState>& states, PersonId subject,
                         Moment moment, const std::vector<const Place*>& places) {
  PlaceContext context = place_context(building, states, subject, moment);
  for (const Place* place : places) {
    if (!place->camera) continue;
    const std::optional<Named> named = building.names.find(place->camera->text);
    const auto* camera = named ? std::get_if<CameraId>(&*named) : nullptr;
    if (camera != nullptr) context.camera = camera_at(building.plan, *camera, moment);
  }
  return context;
}

std::optional<Target> aimed_at(const Place& place, const PlaceContext& context, Findings& findings) {
  const bool itself = place.word == Place::Word::on || place.word == Place::Word::toward;
  if (itself && place.things.size() == 1) return target_of(place.things.front(), context, findings);
  return target_of(place, context, findings);
}

std::optional<Target> target_told(const Performance& performance) {
  Building& building = performance.building;
  const std::vector<PersonState> states = states_at(building, performance.begin);
  const PlaceContext context = place_context(building, states, performance.person, performance.begin);
  if (!performance.line.objects.empty()) {
    return target_of(performance.line.objects.front(), context, building.findings);
  }
  const PlaceWords words = place_words(building, performance.line.clauses, performance.statement.span);
  if (words.places.empty()) return std::nullopt;
  return aimed_at(*words.places.front(), context, building.findings);
}

std::optional<Facing> facing_told(const Performance& performance, Vec2 at, Moment moment) {
  Building& building = performance.building;
  const auto* facing = find<FacingClause>(performance.line.clauses);
  const auto* body = find<BodyClause>(performance.line.clauses);
  if (facing == nullptr && body == nullptr) return std::nullopt;
  const std::vector<PersonState> states = states_at(building, moment);
  PlaceContext context = place_context(building, states, performance.person, moment);
  if (facing != nullptr) return facing_of(*facing, context, at, building.findings);
  if (body->camera) {
    const auto camera = resolve<CameraId>(building.names, *body->camera, building.findings);
    if (camera) context.camera = camera_at(building.plan, *camera, moment);
  }
  return facing_of(*body, context, at, building.findings);
}

std::optional<PersonId> addressed_by(const Building& building, PersonId person) {
  const auto& addresses = building.addresses;
  const auto index = static_cast<std::size_t>(person.index);
  if (index < addresses.size() && !addresses[index].empty()) return addresses[index].front();
  for (std::size_t other = 0; other < addresses.size(); ++other) {
    const auto& to = addresses[other];
    if (std::find(to.begin(), to.end(), person) != to.end()) return PersonId{static_cast<int>(other)};
  }
  return std::nullopt;
}

std::optional<Degrees> bearing_to(const Building& building, Vec2 from, const Target& target, Moment moment) {
  const std::optional<Vec3> point = point_of(building.plan, target, moment);
  if (!point || length(floor_of(*point) - from) < 1e-6) return std::nullopt;
  return bearing_of(floor_of(*point) - from);
}

namespace {

bool of_the_picture(const Place& place) {
  using Word = Place::Word;
  return place.word == Word::frame || place.word == Word::foreground || place.word == Word::middle_ground ||
         place.word == Word::deep || place.word == Word::background;
}

// The camera that a place in the picture, or a size, is measured by.
std::optional<CameraId> measuring_camera(const Building& building, const PlaceWords& words, Moment moment) {
  const auto place = std::find_if(words.places.begin(), words.places.end(),
                                  [](const Place* candidate) { return of_the_picture(*candidate); });
  if (place == words.places.end() && !words.size) return std::nullopt;
  if (place == words.places.end() || !(*place)->camera) return on_air(building.plan, moment);
  const std::optional<Named> named = building.names.find((*place)->camera->text);
  const auto* camera = named ? std::get_if<CameraId>(&*named) : nullptr;
  return camera == nullptr ? std::nullopt : std::optional{*camera};
}

// A camera that follows somebody cannot say where they go.
void check_circle(const Performance& performance, const PlaceWords& words, Moment moment, Findings& findings) {
  const Building& building = performance.building;
  const std::optional<CameraId> camera = measuring_camera(building, words, moment);
  if (!camera || !camera->known() || performance.opening) return;
  const CameraTrack& track = building.plan.cameras[static_cast<std::size_t>(camera->index)];
  const Target self{Target::Kind::person, performance.person.index, {}};
  const Segment<Target>* keeps = segment_at(track.keeps, moment);
  const Segment<Target>* rides = segment_at(track.rides, moment);
  const bool kept = keeps != nullptr && keeps->begin <= moment && keeps->to == self;
  const bool ridden = rides != nullptr && rides->begin <= moment && rides->to == self;
  if (!kept && !ridden) return;
  const std::string name = building.plan.stage.cameras[static_cast<std::size_t>(camera->index)].name;
  Finding finding;
  finding.rule = "place.circle";
  finding.where = performance.statement.span;
  finding.message =
      "`" + performance.name() + "` is placed by camera `" + name + "`, which follows `" + performance.name() + "`";
  finding.next_step = "name a place on the floor, or write above it `camera " + name + " stops`";
  finding.at = moment;
  finding.subject = building.subject;
  finding.subject.people = {performance.name()};
  findings.add(std::move(finding));
}

}  // namespace

std::optional<SettledPlace> settle_told(const Performance& performance, Moment moment, std::optional<Vec2> coming_from,
                                        Findings& findings) {
  Building& building = performance.building;
  const std::vector<PersonState> states = states_at(building, moment);
  const PlaceWords words = place_words(building, performance.line.clauses, performance.statement.span);
  PlaceContext context = context_for(building, states, performance.person, moment, words.places);
  context.coming_from = coming_from && performance.together ? performance.together : coming_from;
  check_circle(performance, words, moment, findings);
  std::optional<SettledPlace> settled;
  if (!words.places.empty() || words.size) {
    settled = settle(words, context, performance.index, performance.count, findings);
  }
  const MarkLine* numbers = numbers_of(performance);
  if (numbers == nullptr || performance.count != 1) return settled;
  PlaceWords exact = place_words(building, numbers->clauses, performance.statement.span);
  if (numbers->at) exact.places.insert(exact.places.begin(), &*numbers->at);
  if (exact.places.empty()) return settled;
  // Where numbers leave a choice, such as the side of a thing, the words make it.
  PlaceWords both = exact;
  both.places.insert(both.places.end(), words.places.begin(), words.places.end());
  both.goal = words.goal;
  Findings unheard;
  std::optional<SettledPlace> measured;
  if (settled && !words.size && exact.places.size() > 1) measured = settle(both, context, 0, 1, unheard);
  if (!measured) measured = settle(exact, context, 0, 1, findings);
  if (!measured) return settled;
  if (settled) {
    compare_with_words(performance, *settled, measured->at);
    settled->at = measured->at;
    settled->origin = Origin::said;
    return settled;
  }
  return measured;
}

void add_mark(const Performance& performance, const SettledPlace& place, Moment reached) {
  Mark mark;
  mark.name = mark_name(performance);
  mark.person = performance.person;
  mark.at = place.at;
  mark.reached = reached;
  mark.origin = place.origin;
  mark.said_at = performance.statement.span;
  // Numbers written under the words leave nothing vague.
  if (place.origin == Origin::settled) mark.area = place.area;
  if (place.origin == Origin::settled) tell_settled(performance, mark, place.words);
  performance.building.plan.marks.push_back(std::move(mark));
}

}  // namespace lensward
