#include "live/show_json.h"

#include <cmath>

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;

// Adding 0 makes "-0" zero.
double decimals(double value, double per_unit) { return std::round(value * per_unit) / per_unit + 0.0; }
double metres(double value) { return decimals(value, 1000); }
double degrees(Degrees angle) { return decimals(angle.value, 10); }

Json row_of(const ShownPlace& place) {
  if (!place.present) return Json::array({place.at.count});
  Json row{place.at.count,        metres(place.floor.x), metres(place.floor.y),
           degrees(place.facing), degrees(place.head),   static_cast<int>(place.posture),
           place.looks ? 1 : 0,   metres(place.look.x),  metres(place.look.y)};
  if (place.framed) row.push_back(decimals(place.across, 1000));
  return row;
}

Json row_of(const ShownCamera& camera) {
  return Json::array({camera.at.count, camera.camera.index, metres(camera.floor.x), metres(camera.floor.y),
                      degrees(camera.pan), decimals(camera.half_angle.value, 100), metres(camera.focus.value)});
}

Json row_of(const ShownProp::Place& place) {
  if (!place.there) return Json::array({place.at.count});
  return Json::array({place.at.count, metres(place.floor.x), metres(place.floor.y)});
}

Json row_of(const ShownEye& eye) { return Json::array({eye.at.count, eye.holder, Json(eye.asked), Json(eye.shares)}); }

template <class Rows>
Json rows_of(const Rows& rows) {
  Json list = Json::array();
  for (const auto& row : rows) list.push_back(row_of(row));
  return list;
}

Json person_json(const ShownPerson& person) {
  Json moves = Json::array();
  for (const ShownMove& move : person.moves) moves.push_back(move.at.count);
  return {{"name", person.name}, {"number", person.number}, {"track", rows_of(person.track)}, {"moves", moves}};
}

Json speech_json(const ShownSpeech& speech) {
  Json words = Json::array();
  for (const Word& word : speech.words) words.push_back(Json::array({word.text, word.begin.count, word.end.count}));
  return {{"who", speech.speaker.index}, {"to", speech.to},         {"how", speech.how},
          {"begin", speech.begin.count}, {"end", speech.end.count}, {"words", words}};
}

Json beat_json(const ShownBeat& beat) {
  return {{"name", beat.name},
          {"title", beat.title},
          {"begin", beat.begin.count},
          {"end", beat.end.count},
          {"decided", beat.decided.count}};
}

Json finding_json(const ShownFinding& finding) {
  return {{"number", finding.number},
          {"severity", name_of(finding.severity)},
          {"at", finding.at ? Json(finding.at->count) : Json(nullptr)},
          {"beat", finding.beat},
          {"waived", !finding.waived_because.empty()},
          {"message", finding.message},
          {"line", finding.line}};
}

template <class Values, class Print>
Json list_of(const Values& values, Print print) {
  Json list = Json::array();
  for (const auto& value : values) list.push_back(print(value));
  return list;
}

}  // namespace

Json show_json(const Show& show) {
  Json json;
  json["schema"] = "lensward/scene/1";
  json["name"] = show.name;
  json["end"] = show.end.count;
  json["beats"] = list_of(show.beats, beat_json);
  json["people"] = list_of(show.people, person_json);
  json["cameras"] = show.cameras;
  json["camera"] = rows_of(show.camera);
  json["props"] = list_of(
      show.props, [](const ShownProp& prop) { return Json{{"name", prop.name}, {"track", rows_of(prop.track)}}; });
  json["speeches"] = list_of(show.speeches, speech_json);
  json["seen"] = list_of(show.seen, [](const ShownTarget& target) {
    return Json{{"name", target.name}, {"person", target.person.index}};
  });
  json["eye"] = rows_of(show.eye);
  json["findings"] = list_of(show.findings, finding_json);
  return json;
}

}  // namespace lensward
