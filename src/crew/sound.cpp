#include <algorithm>
#include <array>

#include "base/listing.h"
#include "crew/trades.h"
#include "optics/pinhole.h"
#include "plan/called.h"
#include "plan/floor.h"
#include "plan/state.h"

namespace lensward {
namespace {

// Between the eyes and the mouth; a share of stature (Drillis and Contini's eye 0.936 and chin 0.870: about half way).
constexpr double eyes_to_mouth = 0.04;
// The picture with the rim that operators keep free of a boom; common practice, no source.
constexpr double rim = 0.04;
// Farther than this from the mouth a wire is worth having ready, and then needed; common practice, no source.
constexpr Metres wire_ready_beyond{1.0}, wire_beyond{1.5};
// From overhead unless another way is so much nearer; common practice, no source.
constexpr double clearly_nearer = 0.75;

Vec3 mouth_of(const Plan& plan, PersonId person, Moment moment) {
  const Vec3 eyes = sharp_point_of(plan, {Target::Kind::person, person.index, {}}, moment).value_or(Vec3{});
  return eyes - Vec3{0, 0, person_of(plan, person).stature.value * eyes_to_mouth};
}

bool in_picture(const Pinhole& lens, Vec3 point) {
  const auto seen = project(lens, point);
  return seen && seen->at.u > -rim && seen->at.u < 1 + rim && seen->at.v > -rim && seen->at.v < 1 + rim;
}

bool in_reach(const Plan& plan, Vec3 point) {
  constexpr double lowest = 0.3;
  const Room& room = plan.stage.room;
  if (point.z < lowest) return false;
  for (const Piece& piece : plan.stage.pieces)
    if (point.z < piece.height.value && holds(outline_of(box_of(piece)), floor_of(point), 0)) return false;
  if (room.outline.empty() || !encloses(room.outline, floor_of(point))) return room.outline.empty();
  return point.z < room.height.value - 0.1;
}

struct Boom {
  Metres distance;
  const char* from = "";
};

// The nearest place out of the picture in one direction from the mouth; nothing within 3 m, or within the room.
std::optional<Metres> out_of_picture(const Plan& plan, const Pinhole& lens, Vec3 mouth, Vec3 way) {
  constexpr int nearest = 30, farthest = 300, step = 2;  // cm, so that the far end is reached to the bit
  for (int gone = nearest; gone <= farthest; gone += step) {
    const Metres far{gone / 100.0};
    const Vec3 at = mouth + way * far.value;
    if (!in_reach(plan, at)) return std::nullopt;
    if (!in_picture(lens, at)) return far;
  }
  return std::nullopt;
}

std::optional<Boom> boom_at(const Plan& plan, PersonId person, Moment moment) {
  const Pinhole lens = pinhole_of(camera_at(plan, on_air(plan, moment), moment));
  const Vec3 mouth = mouth_of(plan, person, moment), right = axes_of(lens).right;
  const std::array<std::pair<const char*, Vec3>, 4> ways{
      {{"over", {0, 0, 1}}, {"below", {0, 0, -1}}, {"frame left", right * -1}, {"frame right", right}}};
  std::optional<Boom> best;
  for (const auto& [from, way] : ways) {
    const auto distance = out_of_picture(plan, lens, mouth, way);
    if (distance && (!best || *distance < best->distance * clearly_nearer)) best = Boom{*distance, from};
  }
  return best;
}

// The hardest of begin, middle and end.
std::optional<Boom> boom_for(const Plan& plan, const Speech& speech) {
  std::optional<Boom> worst;
  const Moment middle{(speech.begin.count + speech.end.count) / 2};
  for (const Moment moment : {speech.begin, middle, speech.end}) {
    const auto boom = boom_at(plan, speech.speaker, moment);
    if (!boom) return std::nullopt;
    if (!worst || boom->distance > worst->distance) worst = boom;
  }
  return worst;
}

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
      "Boom: from the mouth to the nearest place outside the picture, inside the room and clear of furniture, at the "
      "line's hardest moment. Shadows of the boom are not reckoned.",
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
                          std::string(boom ? boom->from : ""),
                          plan.cameras.empty() ? std::string() : remark_on(plan, speech, boom)});
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
  add(sounds(plan), sheet);
  add_notes(plan, sheet);
  return sheet;
}

}  // namespace lensward
