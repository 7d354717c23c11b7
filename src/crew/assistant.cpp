#include <algorithm>

#include "base/listing.h"
#include "base/quantity_text.h"
#include "crew/trades.h"
#include "plan/called.h"
#include "plan/lane.h"

namespace lensward {
namespace {

std::vector<LensMove> moves_of_all(const Plan& plan) {
  std::vector<LensMove> all;
  for (std::size_t i = 0; i < plan.cameras.size(); ++i)
    for (const LensMove& move : lens_moves(plan, CameraId{static_cast<int>(i)})) all.push_back(move);
  return all;
}

// Somebody is there in some part of the beat.
bool is_in(const Plan& plan, PersonId person, const Beat& beat) {
  const Lane<bool>& present = plan.people[static_cast<std::size_t>(person.index)].present;
  if (person_at(plan, person, beat.begin).present) return true;
  return std::ranges::any_of(present, [&](const Segment<bool>& segment) {
    return segment.to && segment.begin >= beat.begin && segment.begin < beat.end;
  });
}

CrewTable facts(const Plan& plan) {
  CrewTable table{"facts", "The scene", "", {{"what", "what", 46}, {"fact", "fact", 130}}, {}};
  const auto add_fact = [&](const char* what, const std::string& fact) {
    if (!fact.empty()) table.rows.push_back({std::string(what), fact});
  };
  const SceneFacts& filed = plan.facts;
  add_fact("number", filed.number);
  add_fact("place", filed.interior && filed.exterior ? "interior and exterior"
                    : filed.interior                 ? "interior"
                    : filed.exterior                 ? "exterior"
                                                     : "");
  add_fact("hour", filed.hour);
  add_fact("pages", filed.pages);
  add_fact("running time, reckoned", clock_text(plan.duration()));
  add_fact("running time, asked for", filed.asked_length ? clock_text(*filed.asked_length) : "not told");
  add_fact("set-ups",
           std::to_string(plan.stage.cameras.size()) + (plan.cuts.size() > 1 ? ", with cuts" : ", one held take"));
  const auto background = std::ranges::count_if(plan.stage.people, in_background);
  add_fact("background people", background == 0 ? "none" : std::to_string(background));
  const std::vector<LensMove> moves = moves_of_all(plan);
  std::vector<std::string> moving;
  for (const Beat& beat : plan.beats)
    if (std::ranges::any_of(moves, [&](const LensMove& one) { return one.begin < beat.end && one.end > beat.begin; }))
      moving.push_back(beat.name);
  add_fact("the camera moves in", moving.empty() ? "no beat" : listed(moving));
  return table;
}

// First and last moments present; nothing of who never comes.
std::optional<std::pair<Moment, Moment>> stay_of(const PersonTrack& track, Moment end) {
  std::optional<std::pair<Moment, Moment>> stay;
  for (std::size_t i = 0; i < track.present.size(); ++i) {
    if (!track.present[i].to) continue;
    const Moment until = i + 1 < track.present.size() ? track.present[i + 1].begin : end;
    stay = {stay ? stay->first : std::max(track.present[i].begin, Moment{}), until};
  }
  return stay;
}

CrewTable cast(const Plan& plan) {
  CrewTable table{"cast",
                  "Cast",
                  "",
                  {{"number", "no.", 14},
                   {"person", "who", 56},
                   {"in_s", "in from", 22},
                   {"out_s", "to", 22},
                   {"lines", "lines", 16},
                   {"background", "", 30}},
                  {}};
  for (std::size_t i = 0; i < plan.stage.people.size(); ++i) {
    const PersonId id{static_cast<int>(i)};
    const auto stay = stay_of(plan.people[i], plan.duration());
    const auto spoken = std::ranges::count(plan.speeches, id, &Speech::speaker);
    table.rows.push_back({ordinal(plan, id), called(plan, id), stay ? Entry{OnTheClock{stay->first}} : Entry{},
                          stay ? Entry{OnTheClock{stay->second}} : Entry{}, Count{static_cast<int>(spoken)},
                          std::string(in_background(plan.stage.people[i]) ? "background" : "")});
  }
  return table;
}

CrewTable beats(const Plan& plan) {
  CrewTable table{"beats",
                  "The beats and their clock",
                  "",
                  {{"number", "no.", 8},
                   {"beat", "beat", 28},
                   {"begins_s", "begins", 14},
                   {"lasts_s", "lasts", 14},
                   {"people", "who is in it", 60},
                   {"title", "title", 44}},
                  {}};
  for (std::size_t i = 0; i < plan.beats.size(); ++i) {
    const Beat& beat = plan.beats[i];
    std::vector<std::string> names;
    for (std::size_t p = 0; p < plan.people.size(); ++p) {
      if (is_in(plan, PersonId{static_cast<int>(p)}, beat))
        names.push_back(called(plan, PersonId{static_cast<int>(p)}));
    }
    table.rows.push_back({Count{static_cast<int>(i) + 1}, beat.name, OnTheClock{beat.begin}, beat.end - beat.begin,
                          listed(names), beat.title});
  }
  return table;
}

std::string place_words(const Plan& plan, PersonId person, Moment moment) {
  const std::string mark = mark_at(plan, person, moment);
  return mark == "away" ? mark : mark + ", " + spelling(person_at(plan, person, moment).posture);
}

std::string open_words(const Lane<Share>& open, Moment moment) {
  return stepped(open, moment, Share{0}).value > 0.05 ? "open" : "shut";
}

// Only what has to be put back for another take.
CrewTable resets(const Plan& plan) {
  CrewTable table{"resets",
                  "To put back for another take",
                  "What ends elsewhere than it began.",
                  {{"thing", "who or what", 50}, {"reset", "back to", 63}, {"ends", "ends", 63}},
                  {}};
  const auto back = [&](const std::string& what, const std::string& began, const std::string& ends) {
    if (began != ends) table.rows.push_back({what, began, ends});
  };
  for (std::size_t i = 0; i < plan.stage.people.size(); ++i) {
    const PersonId person{static_cast<int>(i)};
    back(called(plan, person), place_words(plan, person, {}), place_words(plan, person, plan.duration()));
  }
  for (std::size_t i = 0; i < plan.props.size(); ++i) {
    const PropId prop{static_cast<int>(i)};
    back(plan.stage.props[i].name, prop_place(plan, prop, {}), prop_place(plan, prop, plan.duration()));
  }
  for (std::size_t i = 0; i < plan.openings.size(); ++i)
    back(plan.stage.openings[i].name, open_words(plan.openings[i].open, {}),
         open_words(plan.openings[i].open, plan.duration()));
  for (std::size_t i = 0; i < plan.pieces.size(); ++i) {
    back(plan.stage.pieces[i].name, open_words(plan.pieces[i].open, {}),
         open_words(plan.pieces[i].open, plan.duration()));
    if (stepped(plan.pieces[i].fallen, plan.duration(), false))
      table.rows.push_back({plan.stage.pieces[i].name, std::string("set up again"), std::string("fallen")});
  }
  for (std::size_t i = 0; i < plan.lamps.size(); ++i) {
    const LampId lamp{static_cast<int>(i)};
    const Share first = lamp_at(plan, lamp, {}).level, last = lamp_at(plan, lamp, plan.duration()).level;
    back(plan.stage.lamps[i].name, "level " + text_of(first), "level " + text_of(last));
  }
  return table;
}

}  // namespace

CrewSheet assistant_sheet(const Plan& plan) {
  CrewSheet sheet{CrewSheet::For::assistant, "Assistant director", {}, {}, {}};
  add(facts(plan), sheet);
  add(cast(plan), sheet);
  add(beats(plan), sheet);
  add(resets(plan), sheet);
  add_notes(plan, sheet);
  return sheet;
}

}  // namespace lensward
