#include "lens/light.h"

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include "base/listing.h"
#include "base/quantity_text.h"
#include "crew/trades.h"
#include "optics/light.h"
#include "plan/called.h"
#include "plan/floor.h"
#include "plan/lane.h"

namespace lensward {
namespace {

const char* kind_words(Lamp::Kind kind) {
  switch (kind) {
    case Lamp::Kind::practical:
      return "practical";
    case Lamp::Kind::soft:
      return "soft";
    case Lamp::Kind::hard:
      return "hard";
  }
  return "";
}

bool changes_level(const LampTrack& track) {
  return std::ranges::any_of(track.level, [](const Segment<Share>& level) { return level.from != level.to; });
}

std::string watts(Watts power) { return number(power.value, 0); }

std::string percent(Share share) { return number(share.value * 100, 0); }

CrewTable lamps(const Plan& plan) {
  const Tape tape(plan.stage);
  CrewTable table{"lamps",
                  "Lamps, as the scene opens",
                  "To the middle of each, square to the walls. What it gives is told at a metre, at full.",
                  {{"lamp", "lamp", 24},
                   {"kind", "kind", 16},
                   tape.first("lamp"),
                   tape.second("lamp"),
                   {"height_m", "above floor", 18},
                   {"lux_at_1_m", "gives", 16},
                   {"beam_deg", "beam", 11},
                   {"kelvin", "kelvin", 11},
                   {"level_percent", "level %", 13},
                   {"draws_w", "draws W", 13},
                   {"circuit", "circuit", 13},
                   {"known", "place", 26}},
                  {}};
  for (Field& wall : Tape::names_of_walls()) table.fields.push_back(std::move(wall));
  if (std::ranges::none_of(plan.lamps, changes_level)) table.how += " Nothing changes its level in the scene.";
  for (std::size_t i = 0; i < plan.stage.lamps.size(); ++i) {
    const Lamp& lamp = plan.stage.lamps[i];
    const Vec3 at = lamp_at(plan, LampId{static_cast<int>(i)}, {}).at;
    table.rows.push_back({lamp.name, std::string(kind_words(lamp.kind)), tape.from_first(floor_of(at)),
                          tape.from_second(floor_of(at)), Metres{at.z}, Lux{lamp.intensity.value},
                          lamp.beam ? Entry{*lamp.beam} : Entry{},
                          lamp.colour ? Entry{number(lamp.colour->value, 0)} : Entry{},
                          percent(lamp_at(plan, LampId{static_cast<int>(i)}, {}).level),
                          lamp.draws ? Entry{watts(*lamp.draws)} : Entry{},
                          lamp.circuit > 0 ? Entry{std::to_string(lamp.circuit)} : Entry{},
                          std::string(is_supplied(plan, lamp) ? "assumed: light that is there" : "as written")});
    for (Entry& wall : tape.walls()) table.rows.back().push_back(std::move(wall));
  }
  return table;
}

// What the lamps of each circuit draw together; of lamps whose power is told.
CrewTable loads(const Plan& plan) {
  CrewTable table{
      "loads",
      "Load by circuit",
      "A sum of what the text tells, with every lamp at full, and nothing more: what a circuit may carry is for "
      "the head electrician and local codes to say.",
      {{"circuit", "circuit", 30}, {"draws_w", "draws W", 30}, {"lamps", "lamps", 120}},
      {}};
  struct Load {
    Watts together;
    std::vector<std::string> lamps;
  };
  std::map<int, Load> by_circuit;
  for (const Lamp& lamp : plan.stage.lamps) {
    if (!lamp.draws) continue;
    Load& load = by_circuit[lamp.circuit];
    load.together += *lamp.draws;
    load.lamps.push_back(lamp.name);
  }
  for (const auto& [circuit, load] : by_circuit)
    table.rows.push_back(
        {circuit > 0 ? std::to_string(circuit) : std::string("not told"), watts(load.together), listed(load.lamps)});
  return table;
}

// Of lamps that have a beam, or were told where to point.
CrewTable aims(const Plan& plan) {
  const Tape tape(plan.stage);
  CrewTable table{"aims",
                  "Aims, as the scene opens",
                  "Lamps that are not listed shine all round.",
                  {{"lamp", "lamp", 40},
                   {"at", "at", 40},
                   tape.first("aim"),
                   tape.second("aim"),
                   {"aim_height_m", "above floor", 26}},
                  {}};
  for (std::size_t i = 0; i < plan.stage.lamps.size(); ++i) {
    const Lamp& lamp = plan.stage.lamps[i];
    if (lamp.kind == Lamp::Kind::practical && !lamp.beam) continue;
    const Target at = stepped(plan.lamps[i].aim_at, {}, Target{});
    const Vec3 aim = lamp_at(plan, LampId{static_cast<int>(i)}, {}).aim;
    table.rows.push_back({lamp.name, at.kind == Target::Kind::nothing ? std::string() : called(plan, at),
                          tape.from_first(floor_of(aim)), tape.from_second(floor_of(aim)), Metres{aim.z}});
  }
  return table;
}

CrewTable cues(const Plan& plan) {
  CrewTable table{"cues",
                  "Cues",
                  "",
                  {{"at_s", "at", 13},
                   {"lamp", "lamp", 34},
                   {"cue", "called on", 60},
                   {"from_percent", "from %", 18},
                   {"to_percent", "to %", 18},
                   {"over_s", "over", 16}},
                  {}};
  for (std::size_t i = 0; i < plan.lamps.size(); ++i)
    for (const Segment<Share>& level : plan.lamps[i].level)
      if (level.from != level.to && level.end > Moment{})
        table.rows.push_back({OnTheClock{level.begin}, plan.stage.lamps[i].name, cue_words(plan, level.begin),
                              percent(level.from), percent(level.to),
                              level.end > level.begin ? Entry{level.end - level.begin} : Entry{}});
  put_in_time(table);
  return table;
}

std::vector<Entry> face_row(const Plan& plan, const Mark& mark) {
  const FaceLight face = face_light(plan, mark.person, mark.reached);
  const auto key = std::ranges::max_element(face.from, {}, [](const auto& one) { return one.second; });
  const Lux all = face.sum(), keyed = key == face.from.end() ? Lux{} : key->second, fill = all - keyed;
  const CameraState camera = camera_at(plan, on_air(plan, mark.reached), mark.reached);
  const Settings& settings = plan.settings;
  const Lux asked = asked_for(camera.stop, settings.sensitivity, exposure_time(settings.shutter, settings.frame_rate));
  return {OnTheClock{mark.reached},
          mark.name,
          called(plan, mark.person),
          all,
          plan.cameras.empty() ? Entry{} : Entry{stops_between(all.value, asked.value)},
          keyed.value > 0 ? plan.stage.lamps[static_cast<std::size_t>(key->first.index)].name : std::string("none"),
          keyed,
          fill,
          keyed.value > 0 && fill.value >= 0.05 ? Entry{Ratio{keyed / fill}} : Entry{}};
}

// What the lens asks for as the scene opens, so that a meter can be set.
CrewTable asked(const Plan& plan) {
  CrewTable table{"asked",
                  "What the stop asks for, as the scene opens",
                  "Incident light of a face that is to be neither over nor under.",
                  {{"camera", "camera", 16},
                   {"stop_t", "stop", 16},
                   {"iso", "ISO", 16},
                   {"shutter_deg", "shutter", 20},
                   {"frame_rate", "frames a second", 30},
                   {"asks_lux", "asks for", 30}},
                  {}};
  const Settings& settings = plan.settings;
  for (std::size_t i = 0; i < plan.stage.cameras.size(); ++i) {
    const FNumber stop = camera_at(plan, CameraId{static_cast<int>(i)}, {}).stop;
    table.rows.push_back({plan.stage.cameras[i].name, "T" + number(stop.value, 1), number(settings.sensitivity, 0),
                          settings.shutter, number(settings.frame_rate, 3),
                          asked_for(stop, settings.sensitivity, exposure_time(settings.shutter, settings.frame_rate))});
  }
  return table;
}

CrewTable faces(const Plan& plan) {
  CrewTable table{
      "faces",
      "Light on each face, as it comes to its mark",
      "Incident, as the face is turned then. Stops are against what the stop, the ISO and the shutter ask for "
      "(ISO 2720, C = 250). The key is the one lamp that gives the face most, fill is all the rest, with what the "
      "walls give back; the ratio is key to fill. No key: no lamp reaches the face.",
      {{"at_s", "at", 13},
       {"mark", "mark", 12},
       {"person", "who", 26},
       {"lux", "on the face", 20},
       {"stops", "stops", 12},
       {"key", "key", 24},
       {"key_lux", "of it key", 18},
       {"fill_lux", "fill", 18},
       {"key_to_fill", "ratio", 14}},
      {}};
  for (const Mark* mark : marks_in_order(plan))
    if (person_at(plan, mark->person, mark->reached).present) table.rows.push_back(face_row(plan, *mark));
  return table;
}

}  // namespace

CrewSheet light_sheet(const Plan& plan) {
  CrewSheet sheet{CrewSheet::For::light, "Light", {}, {}, {}};
  add(lamps(plan), sheet);
  add(loads(plan), sheet);
  add(aims(plan), sheet);
  add(cues(plan), sheet);
  if (!sheet.tables.empty()) {
    add(asked(plan), sheet);
    add(faces(plan), sheet);
  }
  add_notes(plan, sheet);
  return sheet;
}

}  // namespace lensward
