#include <algorithm>

#include "base/listing.h"
#include "crew/trades.h"
#include "lens/boom.h"
#include "optics/pinhole.h"
#include "plan/called.h"
#include "plan/state.h"

namespace lensward {
namespace {

std::string remark_on(const Plan& plan, const Speech& speech, const std::optional<Boom>& boom) {
  std::vector<std::string> remarks;
  if (!person_at(plan, speech.speaker, speech.begin).present || speech.off)
    remarks.emplace_back("out of the room");
  else if (!boom)
    remarks.emplace_back("no place for a boom: wire");
  else if (boom->distance > wire_beyond)
    remarks.emplace_back("wire");
  else if (boom->distance > wire_ready_beyond)
    remarks.emplace_back("have a wire ready");
  for (const Speech& other : plan.speeches)
    if (const std::string overlaps = "overlaps " + called(plan, other.speaker);
        &other != &speech && other.begin < speech.end && other.end > speech.begin &&
        std::ranges::find(remarks, overlaps) == remarks.end())
      remarks.push_back(overlaps);
  return listed(remarks);
}

std::string first_words(const Speech& speech) {
  constexpr int most = 5;
  std::size_t end = 0;
  for (int i = 0; i < most && end != std::string::npos; ++i) end = speech.words.find(' ', end + 1);
  return "“" + speech.words.substr(0, end) + (end == std::string::npos ? "”" : " …”");
}

CrewTable lines(const Plan& plan) {
  CrewTable table{
      "lines",
      "Every line",
      "Boom: from the mouth to the nearest place outside the picture, inside the room, clear of furniture and "
      "out of every hard lamp's way to a face, at the line's hardest moment. Shadows of the pole are not reckoned.",
      {{"at_s", "at", 12},
       {"lasts_s", "lasts", 12},
       {"person", "who", 22},
       {"manner", "manner", 17},
       {"words", "begins", 52},
       {"boom_m", "boom", 14},
       {"boom_from", "from", 19},
       {"remark", "", 34}},
      {}};
  for (const Speech& speech : plan.speeches) {
    const bool here = !plan.cameras.empty() && !speech.off && person_at(plan, speech.speaker, speech.begin).present;
    const std::optional<Boom> boom = here ? boom_for(plan, speech) : std::nullopt;
    table.rows.push_back({OnTheClock{speech.begin}, speech.end - speech.begin, called(plan, speech.speaker),
                          std::string(speech.loudness == Loudness::plain ? "" : spelling(speech.loudness)),
                          first_words(speech), boom ? Entry{boom->distance} : Entry{},
                          std::string(boom ? spelling(boom->from) : ""),
                          plan.cameras.empty() ? std::string() : remark_on(plan, speech, boom)});
  }
  return table;
}

bool in_picture(const Plan& plan, Vec2 feet, Moment moment) {
  if (plan.cameras.empty()) return false;
  const auto seen = project(pinhole_of(camera_at(plan, on_air(plan, moment), moment)), {feet.x, feet.y, 0});
  return seen && seen->at.u > 0 && seen->at.u < 1 && seen->at.v > 0 && seen->at.v < 1;
}

// Somebody who walks while somebody speaks.
struct Steps {
  Moment begin, end;
  PersonId walker;
  const Speech* under;
};

std::vector<Steps> steps_of(const Plan& plan) {
  std::vector<Steps> all;
  for (const Speech& speech : plan.speeches) {
    for (std::size_t i = 0; i < plan.people.size(); ++i) {
      for (const Segment<Walk>& walk : plan.people[i].feet) {
        const Moment begin = std::max(walk.begin, speech.begin), end = std::min(walk.end, speech.end);
        if (walk.to.path.size() > 1 && begin < end) all.push_back({begin, end, PersonId{static_cast<int>(i)}, &speech});
      }
    }
  }
  std::ranges::stable_sort(all, {}, [](const Steps& steps) { return steps.begin.count; });
  return all;
}

CrewTable steps(const Plan& plan) {
  CrewTable table{"steps",
                  "Steps under a line",
                  "Feet: in the picture or out of it half way through. Out of it they can go on carpet.",
                  {{"at_s", "at", 14},
                   {"lasts_s", "lasts", 14},
                   {"person", "who walks", 30},
                   {"speaker", "while who speaks", 30},
                   {"words", "begins", 60},
                   {"feet", "feet", 26}},
                  {}};
  for (const Steps& one : steps_of(plan)) {
    const Moment half_way{(one.begin.count + one.end.count) / 2};
    const Vec2 feet = person_at(plan, one.walker, half_way).at;
    table.rows.push_back({OnTheClock{one.begin}, one.end - one.begin, called(plan, one.walker),
                          called(plan, one.under->speaker), first_words(*one.under),
                          std::string(in_picture(plan, feet, half_way) ? "in the picture" : "out of it")});
  }
  return table;
}

CrewTable sounds(const Plan& plan) {
  CrewTable table{"sounds",
                  "Sounds",
                  "",
                  {{"at_s", "at", 14}, {"sound", "sound", 60}, {"lasts_s", "lasts", 20}, {"cue", "cue", 80}},
                  {}};
  for (const Sound& sound : plan.sounds)
    table.rows.push_back({OnTheClock{sound.begin}, sound.name, sound.end - sound.begin, cue_words(plan, sound.begin)});
  return table;
}

}  // namespace

CrewSheet sound_sheet(const Plan& plan) {
  CrewSheet sheet{CrewSheet::For::sound, "Sound", {}, {}, {}};
  add(lines(plan), sheet);
  add(steps(plan), sheet);
  add(sounds(plan), sheet);
  add_notes(plan, sheet);
  return sheet;
}

}  // namespace lensward
