#include <fmt/core.h>

#include <algorithm>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "crew/trades.h"
#include "plan/called.h"
#include "plan/lane.h"

namespace lensward {
namespace {

// A word that is being said, or begins within a breath.
constexpr Milliseconds breath{120};
// A cue given on words longer ago than this is better given on the beat.
constexpr Milliseconds remembered{4000};

struct Heard {
  const Speech* speech = nullptr;
  const Word* word = nullptr;
};

// The latest word that has begun by the moment.
Heard heard_by(const Plan& plan, Moment moment, PersonId player) {
  Heard heard;
  for (const Speech& speech : plan.speeches) {
    if (speech.speaker == player && speech.begin + breath >= moment) continue;
    for (const Word& word : speech.timed)
      if (word.begin <= moment + breath && (heard.word == nullptr || word.begin >= heard.word->begin))
        heard = {&speech, &word};
  }
  return heard;
}

std::string without_stops(std::string word) {
  const auto stop = [](char letter) { return std::string_view(".,;:!?").find(letter) != std::string_view::npos; };
  while (!word.empty() && stop(word.back())) word.pop_back();
  return word;
}

}  // namespace

const char* spelling(CrewSheet::For whom) {
  switch (whom) {
    case CrewSheet::For::actors:
      return "actors";
    case CrewSheet::For::marks:
      return "marks";
    case CrewSheet::For::camera:
      return "camera";
    case CrewSheet::For::grip:
      return "grip";
    case CrewSheet::For::light:
      return "light";
    case CrewSheet::For::sound:
      return "sound";
    case CrewSheet::For::props:
      return "props";
    case CrewSheet::For::wardrobe:
      return "wardrobe";
    case CrewSheet::For::script:
      return "script";
    case CrewSheet::For::assistant:
      return "assistant";
  }
  return "";
}

std::string beat_name(const Plan& plan, Moment moment) {
  const int beat = beat_at(plan, moment);
  return beat < 0 ? "" : plan.beats[static_cast<std::size_t>(beat)].name;
}

std::string cue_words(const Plan& plan, Moment moment, PersonId player) {
  const int index = beat_at(plan, moment);
  const Moment top = index < 0 ? Moment{} : plan.beats[static_cast<std::size_t>(index)].begin;
  const std::string beat = beat_name(plan, moment);
  if (moment - top <= breath) return "as " + beat + " begins";
  const Heard heard = heard_by(plan, moment, player);
  const bool in_this_beat = heard.word != nullptr && heard.word->end > top;
  if (!in_this_beat || moment - heard.word->end > remembered)
    return fmt::format("{} into {}", text_of(moment - top), beat);
  const std::string said =
      fmt::format("“{}” ({})", without_stops(heard.word->text), called(plan, heard.speech->speaker));
  const Milliseconds after = moment - heard.word->end;
  return after <= breath ? "on " + said : fmt::format("{} after {}", text_of(after), said);
}

std::string deed_words(const Plan& plan, const BeatLine& line) {
  std::string words = line.text;
  std::ranges::replace(words, '\n', ' ');
  for (const Person& person : plan.stage.people) {
    if (person.called.empty() || person.called == person.name) continue;
    for (std::size_t at = words.find(person.name); at != std::string::npos;
         at = words.find(person.name, at + person.called.size()))
      words.replace(at, person.name.size(), person.called);
  }
  return words;
}

std::string mark_at(const Plan& plan, PersonId person, Moment moment) {
  constexpr double near = 0.3;
  const PersonState state = person_at(plan, person, moment);
  if (!state.present) return "away";
  const Mark* found = nullptr;
  for (const Mark& mark : plan.marks)
    if (mark.person == person && mark.reached <= moment && length(mark.at - state.at) <= near) found = &mark;
  return found == nullptr ? "on the way" : found->name;
}

std::string look_words(const Plan& plan, PersonId person, Moment moment) {
  const Segment<Gaze>* segment = segment_at(plan.people[static_cast<std::size_t>(person.index)].eyes, moment);
  if (segment == nullptr || segment->origin == Origin::assumed) return "";
  switch (const Gaze& gaze = segment->to; gaze.manner) {
    case Gaze::Manner::at_target:
      return called(plan, gaze.target);
    case Gaze::Manner::ahead:
      return "ahead";
    case Gaze::Manner::up:
      return "up";
    case Gaze::Manner::down:
      return "down";
    case Gaze::Manner::away:
      return gaze.target.kind == Target::Kind::nothing ? "away" : "away from " + called(plan, gaze.target);
  }
  return "";
}

std::string hand_words(const Plan& plan, const Target& hand) {
  return hand.kind == Target::Kind::nothing ? "" : called(plan, hand);
}

bool in_background(const Person& person) { return person.name.find('.') != std::string::npos; }

Tape::Tape(const Stage& stage) {
  const auto edge = [](const Wall& wall) {
    return Edge{wall.name + " wall", wall.from, left_of(unit(wall.to - wall.from))};
  };
  const auto longest = [&](const auto& counts) {
    const Wall* found = nullptr;
    for (const bool wild : {false, true})
      for (const Wall& wall : stage.walls)
        if (wall.wild == wild && counts(wall) &&
            (found == nullptr ||
             (found->wild == wild && length(wall.to - wall.from) > length(found->to - found->from))))
          found = &wall;
    return found;
  };
  const Wall* one = longest([](const Wall&) { return true; });
  const Wall* other = nullptr;
  if (one != nullptr) {
    const Vec2 along = unit(one->to - one->from);
    other = longest([&](const Wall& wall) { return std::abs(cross(along, unit(wall.to - wall.from))) >= 0.5; });
  }
  first_ = {"the origin, eastward", {0, 0}, {1, 0}};
  second_ = {"the origin, northward", {0, 0}, {0, 1}};
  if (one == nullptr || other == nullptr) return;
  first_ = edge(*one);
  second_ = edge(*other);
}

Field Tape::first(const std::string& key) const { return {key + "_first_m", "from " + first_.name, 25}; }
Field Tape::second(const std::string& key) const { return {key + "_second_m", "from " + second_.name, 25}; }
Metres Tape::from_first(Vec2 at) const { return Metres{dot(at - first_.from, first_.inward)}; }
Metres Tape::from_second(Vec2 at) const { return Metres{dot(at - second_.from, second_.inward)}; }

void add(CrewTable table, CrewSheet& sheet) {
  if (!table.rows.empty()) sheet.tables.push_back(std::move(table));
}

void add_notes(const Plan& plan, const std::vector<std::string>& departments, CrewSheet& sheet) {
  CrewTable table{"notes", "Notes", "", {{"at_s", "at", 14}, {"beat", "beat", 36}, {"note", "note", 122}}, {}};
  for (const CrewNote& note : plan.notes)
    if (std::ranges::find(departments, note.department) != departments.end())
      table.rows.push_back({OnTheClock{note.at}, beat_name(plan, note.at), note.text});
  add(std::move(table), sheet);
}

}  // namespace lensward
