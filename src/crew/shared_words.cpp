#include <fmt/core.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <string_view>
#include <utility>

#include "base/angle.h"
#include "base/listing.h"
#include "base/quantity_text.h"
#include "crew/trades.h"
#include "plan/called.h"
#include "plan/lane.h"
#include "plan/state.h"

namespace lensward {
namespace {

// A word that is being said, or begins within a breath.
constexpr Milliseconds breath{120};
// A cue given on words longer ago than this is better given on the beat.
constexpr Milliseconds remembered{4000};

// Short words come twice in a line; three of them seldom do.
constexpr std::size_t words_of_a_cue = 3;

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

// The word and those that lead to it in the same line.
std::string phrase_of(const Heard& heard) {
  const auto last = static_cast<std::size_t>(heard.word - heard.speech->timed.data());
  const std::size_t first = last + 1 > words_of_a_cue ? last + 1 - words_of_a_cue : 0;
  std::string phrase;
  for (std::size_t i = first; i < last; ++i) phrase += heard.speech->timed[i].text + ' ';
  return phrase + without_stops(heard.word->text);
}

// The first word of a line tells little by itself, while it is being said.
bool is_first(const Heard& heard) { return heard.word == heard.speech->timed.data(); }

std::string first_words_of(const Speech& speech) {
  std::string words;
  const std::size_t count = std::min(words_of_a_cue, speech.timed.size());
  for (std::size_t i = 0; i < count; ++i) words += (i == 0 ? "" : " ") + speech.timed[i].text;
  return count == speech.timed.size() ? without_stops(std::move(words)) : words + " …";
}

// `on “paper you had” (Bertil)`, `0.8 s after “by one” (Bertil)`; empty when nothing was heard lately.
std::string heard_words(const Plan& plan, Moment moment, PersonId player) {
  const Heard heard = heard_by(plan, moment, player);
  if (heard.word == nullptr || moment - heard.word->end > remembered) return "";
  const Milliseconds after = moment - heard.word->end;
  if (is_first(heard) && after <= breath)
    return fmt::format("as {} says “{}”", called(plan, heard.speech->speaker), first_words_of(*heard.speech));
  const std::string said = fmt::format("“{}” ({})", phrase_of(heard), called(plan, heard.speech->speaker));
  return after <= breath ? "on " + said : fmt::format("{} after {}", text_of(after), said);
}

// Names are made of these; bytes of other alphabets count.
bool is_of_a_name(char letter) {
  const auto byte = static_cast<unsigned char>(letter);
  return std::isalnum(byte) != 0 || letter == '-' || letter == '.' || letter == '_' || byte >= 0x80;
}

// Whose whole name begins there, when they are called otherwise.
const Person* person_named_at(const Plan& plan, const std::string& text, std::size_t at) {
  if (at > 0 && is_of_a_name(text[at - 1])) return nullptr;
  for (const Person& person : plan.stage.people) {
    const std::size_t end = at + person.name.size();
    const bool whole = end >= text.size() || !is_of_a_name(text[end]);
    if (!person.called.empty() && person.called != person.name && whole &&
        text.compare(at, person.name.size(), person.name) == 0)
      return &person;
  }
  return nullptr;
}

// Departments by the words that notes are for; the assistant's own are those no other sheet has.
const std::vector<std::string>& departments_of(CrewSheet::For whom) {
  static const std::map<CrewSheet::For, std::vector<std::string>> words{
      {CrewSheet::For::actors, {"actors", "actor", "cast"}},
      {CrewSheet::For::marks, {"floor", "marks"}},
      {CrewSheet::For::camera, {"camera", "focus"}},
      {CrewSheet::For::grip, {"grip", "grips", "dolly"}},
      {CrewSheet::For::light, {"light", "lights", "lighting"}},
      {CrewSheet::For::sound, {"sound", "boom"}},
      {CrewSheet::For::props, {"props", "prop", "art"}},
      {CrewSheet::For::wardrobe, {"wardrobe", "costume"}},
      {CrewSheet::For::script, {"script", "continuity"}},
      {CrewSheet::For::assistant, {}},
  };
  return words.at(whom);
}

bool claimed(const std::string& department) {
  for (int i = 0; i <= static_cast<int>(CrewSheet::For::assistant); ++i)
    if (std::ranges::find(departments_of(static_cast<CrewSheet::For>(i)), department) !=
        departments_of(static_cast<CrewSheet::For>(i)).end())
      return true;
  return false;
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
  const std::string beat = beat_name(plan, moment), heard = heard_words(plan, moment, player);
  if (moment - top > breath) return heard.empty() ? fmt::format("{} into {}", text_of(moment - top), beat) : heard;
  if (index <= 0) return "as the scene begins";
  return (heard.empty() ? "" : heard + ", ") + "as " + beat + " begins";
}

std::string deed_words(const Plan& plan, const BeatLine& line) {
  std::string words;
  bool quoted = false;
  for (std::size_t at = 0; at < line.text.size();) {
    if (line.text[at] == '"') quoted = !quoted;
    const Person* named = quoted ? nullptr : person_named_at(plan, line.text, at);
    if (named == nullptr) {
      words += line.text[at] == '\n' ? ' ' : line.text[at];
      ++at;
    } else {
      words += named->called;
      at += named->name.size();
    }
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
  if (segment == nullptr) return "";
  const Gaze& gaze = segment->to;
  const bool at_them = gaze.manner == Gaze::Manner::at_target;
  if (segment->origin == Origin::assumed) return at_them ? "(" + called(plan, gaze.target) + ")" : "";
  if (at_them) return called(plan, gaze.target);
  const bool from_them = gaze.manner == Gaze::Manner::away && gaze.target.kind != Target::Kind::nothing;
  return spelling(gaze.manner) + (from_them ? " from " + called(plan, gaze.target) : "");
}

std::string hand_words(const Plan& plan, const Target& hand) {
  return hand.kind == Target::Kind::nothing ? "" : called(plan, hand);
}

bool in_background(const Person& person) { return person.name.find('.') != std::string::npos; }

void add(CrewTable table, CrewSheet& sheet) {
  if (!table.rows.empty()) sheet.tables.push_back(std::move(table));
}

void add_notes(const Plan& plan, CrewSheet& sheet) {
  CrewTable table{
      "notes", "Notes", "", {{"at_s", "at", 14}, {"beat", "beat", 36}, {"for", "for", 22}, {"note", "note", 100}}, {}};
  const std::vector<std::string>& own = departments_of(sheet.whom);
  for (const CrewNote& note : plan.notes)
    if (std::ranges::find(own, note.department) != own.end() ||
        (sheet.whom == CrewSheet::For::assistant && !claimed(note.department)))
      table.rows.push_back({OnTheClock{note.at}, beat_name(plan, note.at), note.department, note.text});
  add(std::move(table), sheet);
}

std::string walls_out(const Plan& plan) {
  std::vector<std::string> names;
  for (const Wall& wall : plan.stage.walls)
    if (wall.wild) names.push_back(wall.name);
  return names.empty() ? "" : " Taken out for the camera: " + listed(names) + ".";
}

std::vector<const Mark*> marks_in_order(const Plan& plan) {
  std::vector<const Mark*> marks;
  for (const Mark& mark : plan.marks)
    if (!mark.name.empty()) marks.push_back(&mark);
  std::ranges::stable_sort(marks, {}, [](const Mark* mark) { return mark->reached; });
  return marks;
}

std::vector<Moment> set_up_anew(const Plan& plan, CameraId camera) {
  constexpr double elsewhere = 0.02;
  std::vector<Moment> moments;
  for (const Segment<Vec3>& place : plan.cameras[static_cast<std::size_t>(camera.index)].place) {
    if (place.end != place.begin || place.begin <= Moment{}) continue;
    const Vec3 before = camera_at(plan, camera, place.begin - Milliseconds{1}).at;
    if (length(camera_at(plan, camera, place.begin).at - before) >= elsewhere) moments.push_back(place.begin);
  }
  return moments;
}

namespace {

// Seen in steps, a move begins and ends at a step: an order that begins or ends near by is meant.
LensMove as_ordered(const Plan& plan, CameraId camera, LensMove seen) {
  constexpr Milliseconds gentle{200};
  const auto near = [&](Moment a, Moment b) { return a - b <= gentle && b - a <= gentle; };
  LensMove ordered = seen;
  for (const Segment<Vec3>& place : plan.cameras[static_cast<std::size_t>(camera.index)].place) {
    if (place.end == place.begin) continue;
    if (near(place.begin, seen.begin)) ordered.begin = place.begin;
    if (near(place.end, seen.end)) ordered.end = place.end;
  }
  return ordered;
}

}  // namespace

std::vector<LensMove> lens_moves(const Plan& plan, CameraId camera) {
  constexpr Milliseconds step{40};
  constexpr double still = 2e-4, far_enough = 0.02;
  const std::vector<Moment> jumps = set_up_anew(plan, camera);
  std::vector<LensMove> moves;
  std::vector<double> lengths;
  for (Moment now{}; now < plan.duration(); now += step) {
    const Moment next = std::min(now + step, plan.duration());
    const bool jumps_here = std::ranges::any_of(jumps, [&](Moment jump) { return now < jump && jump <= next; });
    const double gone = length(camera_at(plan, camera, next).at - camera_at(plan, camera, now).at);
    if (jumps_here || gone < still) continue;
    if (moves.empty() || moves.back().end != now) {
      moves.push_back({now, next});
      lengths.push_back(gone);
    } else {
      moves.back().end = next;
      lengths.back() += gone;
    }
  }
  std::vector<LensMove> long_enough;
  for (std::size_t i = 0; i < moves.size(); ++i)
    if (lengths[i] >= far_enough) long_enough.push_back(as_ordered(plan, camera, moves[i]));
  return long_enough;
}

void put_in_time(CrewTable& table) {
  std::ranges::stable_sort(table.rows, {},
                           [](const std::vector<Entry>& row) { return std::get<OnTheClock>(row.front()).moment; });
}

}  // namespace lensward
