#include <algorithm>

#include "base/listing.h"
#include "base/quantity_text.h"
#include "crew/trades.h"
#include "plan/called.h"
#include "plan/lane.h"

namespace lensward {
namespace {

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
  if (filed.asked_length) add_fact("running time, asked for", clock_text(*filed.asked_length));
  add_fact("set-ups",
           std::to_string(plan.stage.cameras.size()) + (plan.cuts.size() > 1 ? ", with cuts" : ", one held take"));
  const auto moves = std::ranges::count_if(plan.beats, [&](const Beat& beat) {
    return std::ranges::any_of(beat.lines, [](const BeatLine& line) { return line.kind == BeatLine::Kind::camera; });
  });
  add_fact("beats in which the camera has orders", std::to_string(moves) + " of " + std::to_string(plan.beats.size()));
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
                  {{"number", "no.", 10},
                   {"beat", "beat", 40},
                   {"begins_s", "begins", 18},
                   {"lasts_s", "lasts", 16},
                   {"people", "who is in it", 84}},
                  {}};
  for (std::size_t i = 0; i < plan.beats.size(); ++i) {
    const Beat& beat = plan.beats[i];
    std::vector<std::string> names;
    for (std::size_t p = 0; p < plan.people.size(); ++p) {
      const auto there = [&](Moment moment) { return person_at(plan, PersonId{static_cast<int>(p)}, moment).present; };
      if (there(beat.begin) || there(beat.end - Milliseconds{1}))
        names.push_back(called(plan, PersonId{static_cast<int>(p)}));
    }
    table.rows.push_back(
        {Count{static_cast<int>(i) + 1}, beat.name, OnTheClock{beat.begin}, beat.end - beat.begin, listed(names)});
  }
  return table;
}

// Only what has to be put back for another take.
CrewTable resets(const Plan& plan) {
  CrewTable table{"resets",
                  "To put back for another take",
                  "What ends elsewhere than it began.",
                  {{"thing", "thing", 60}, {"reset", "back to", 116}},
                  {}};
  for (std::size_t i = 0; i < plan.props.size(); ++i) {
    const PropId prop{static_cast<int>(i)};
    const std::string began = prop_place(plan, prop, {});
    if (began != prop_place(plan, prop, plan.duration())) table.rows.push_back({plan.stage.props[i].name, began});
  }
  for (std::size_t i = 0; i < plan.pieces.size(); ++i)
    if (stepped(plan.pieces[i].fallen, plan.duration(), false))
      table.rows.push_back({plan.stage.pieces[i].name, std::string("set up again")});
  for (std::size_t i = 0; i < plan.lamps.size(); ++i) {
    const LampId lamp{static_cast<int>(i)};
    const Share first = lamp_at(plan, lamp, {}).level, last = lamp_at(plan, lamp, plan.duration()).level;
    if (first != last) table.rows.push_back({plan.stage.lamps[i].name, "level " + text_of(first)});
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
  add_notes(plan, {"assistant", "production"}, sheet);
  return sheet;
}

}  // namespace lensward
