#include "lens/light.h"

#include <fmt/core.h>

#include <algorithm>

#include "base/quantity_text.h"
#include "crew/trades.h"
#include "optics/light.h"
#include "plan/called.h"
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

std::string aim_words(const Plan& plan, std::size_t lamp) {
  if (plan.stage.lamps[lamp].kind == Lamp::Kind::practical && !plan.stage.lamps[lamp].beam) return "all round";
  const Target at = stepped(plan.lamps[lamp].aim_at, {}, Target{});
  if (at.kind != Target::Kind::nothing) return called(plan, at);
  const Vec3 aim = lamp_at(plan, LampId{static_cast<int>(lamp)}, {}).aim;
  return fmt::format("({}, {}) m, {} up", number(aim.x, 2), number(aim.y, 2), text_of(Metres{aim.z}));
}

CrewTable lamps(const Plan& plan) {
  const Tape tape(plan.stage);
  CrewTable table{"lamps",
                  "Lamps, as the scene opens",
                  "What each gives is told at a metre, at full.",
                  {{"lamp", "lamp", 24},
                   {"kind", "kind", 16},
                   tape.first("lamp"),
                   tape.second("lamp"),
                   {"height_m", "height", 18},
                   {"lux_at_1_m", "gives", 16},
                   {"beam_deg", "beam", 11},
                   {"kelvin", "kelvin", 11},
                   {"aims_at", "aims at", 16}},
                  {}};
  for (std::size_t i = 0; i < plan.stage.lamps.size(); ++i) {
    const Lamp& lamp = plan.stage.lamps[i];
    const Vec3 at = lamp_at(plan, LampId{static_cast<int>(i)}, {}).at;
    table.rows.push_back({lamp.name, std::string(kind_words(lamp.kind)), tape.from_first(floor_of(at)),
                          tape.from_second(floor_of(at)), Metres{at.z}, Lux{lamp.intensity.value},
                          lamp.beam ? Entry{*lamp.beam} : Entry{},
                          lamp.colour ? Entry{number(lamp.colour->value, 0)} : Entry{}, aim_words(plan, i)});
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
                   {"from_percent", "from", 18},
                   {"to_percent", "to", 18},
                   {"over_s", "over", 16}},
                  {}};
  const auto percent = [](Share share) { return number(share.value * 100, 0); };
  for (std::size_t i = 0; i < plan.lamps.size(); ++i)
    for (const Segment<Share>& level : plan.lamps[i].level)
      if (level.from != level.to && level.end > Moment{})
        table.rows.push_back({OnTheClock{level.begin}, plan.stage.lamps[i].name, cue_words(plan, level.begin),
                              percent(level.from), percent(level.to),
                              level.end > level.begin ? Entry{level.end - level.begin} : Entry{}});
  std::ranges::stable_sort(table.rows, {},
                           [](const std::vector<Entry>& row) { return std::get<OnTheClock>(row.front()).moment; });
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

CrewTable faces(const Plan& plan) {
  CrewTable table{
      "faces",
      "Light on each face, as it comes to its mark",
      "Incident, as the face is turned then. Stops are against what the stop, the ISO and the shutter ask for "
      "(ISO 2720, C = 250). Fill is all that is not the key; the ratio is key to fill.",
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
  std::vector<const Mark*> marks;
  for (const Mark& mark : plan.marks)
    if (!mark.name.empty() && person_at(plan, mark.person, mark.reached).present) marks.push_back(&mark);
  std::ranges::stable_sort(marks, {}, [](const Mark* mark) { return mark->reached; });
  for (const Mark* mark : marks) table.rows.push_back(face_row(plan, *mark));
  return table;
}

}  // namespace

CrewSheet light_sheet(const Plan& plan) {
  CrewSheet sheet{CrewSheet::For::light, "Light", {}, {}, {}};
  add(lamps(plan), sheet);
  add(cues(plan), sheet);
  if (!sheet.tables.empty()) add(faces(plan), sheet);
  add_notes(plan, {"light", "lighting"}, sheet);
  return sheet;
}

}  // namespace lensward
