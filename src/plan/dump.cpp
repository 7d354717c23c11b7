#include "plan/dump.h"

#include <cmath>
#include <nlohmann/json.hpp>
#include <utility>

#include "base/quantity_text.h"
#include "plan/state.h"

namespace lensward {
namespace {

using Json = nlohmann::ordered_json;

// Metres to the millimetre, degrees to the tenth, so that a difference in the last bit never shows.
double rounded(double value, double steps) {
  const double whole = std::round(value * steps) / steps;
  return whole == 0 ? 0 : whole;
}
double metres(double value) { return rounded(value, 1000); }
double degrees(double value) { return rounded(value, 10); }
double share(double value) { return rounded(value, 100); }

Json point(Vec2 at) { return Json::array({metres(at.x), metres(at.y)}); }
Json point(Vec3 at) { return Json::array({metres(at.x), metres(at.y), metres(at.z)}); }

Json target(const Plan& plan, const Target& what) {
  if (what.kind == Target::Kind::nothing) return nullptr;
  if (what.kind == Target::Kind::point) return point(what.point);
  return name_of(plan, what);
}

Json targets(const Plan& plan, const std::vector<Target>& all) {
  Json list = Json::array();
  for (const Target& one : all) list.push_back(target(plan, one));
  return list;
}

Json value_of(const Plan&, bool value) { return value; }
Json value_of(const Plan&, const Walk& walk) {
  Json path = Json::array();
  for (const Vec2 at : walk.path) path.push_back(point(at));
  return path;
}
Json value_of(const Plan& plan, const Facing& facing) {
  if (facing.follows.kind != Target::Kind::nothing) return target(plan, facing.follows);
  return degrees(facing.bearing.value);
}
Json value_of(const Plan& plan, const Gaze& gaze) {
  if (gaze.manner == Gaze::Manner::at_target) return target(plan, gaze.target);
  return spelling(gaze.manner);
}
Json value_of(const Plan& plan, const Stance& stance) {
  std::string words = spelling(stance.posture);
  if (stance.seat.known()) words += " on " + plan.stage.pieces[static_cast<std::size_t>(stance.seat.index)].name;
  return words;
}
Json value_of(const Plan& plan, const Target& what) {
  // Something on a piece may be told where on it.
  if (what.kind == Target::Kind::piece && what.point != Vec3{})
    return {{"on", target(plan, what)}, {"at", point(what.point)}};
  return target(plan, what);
}
Json value_of(const Plan&, Vec3 at) { return point(at); }
Json value_of(const Plan&, Vec2 aim) { return Json::array({degrees(aim.x), degrees(aim.y)}); }
Json value_of(const Plan&, Share value) { return share(value.value); }
Json value_of(const Plan&, Millimetres value) { return rounded(value.value, 10); }
Json value_of(const Plan&, FNumber value) { return rounded(value.value, 10); }
Json value_of(const Plan&, Metres value) { return metres(value.value); }

template <class Value>
void add_lane(const Plan& plan, const char* name, const Lane<Value>& lane, Json& track) {
  if (lane.empty()) return;
  Json list = Json::array();
  for (const auto& segment : lane) {
    Json one;
    one["begin"] = segment.begin.count;
    if (segment.end != segment.begin) one["end"] = segment.end.count;
    one["to"] = value_of(plan, segment.to);
    one["origin"] = name_of(segment.origin);
    if (!segment.said_at.empty()) one["byte"] = segment.said_at.begin;
    list.push_back(std::move(one));
  }
  track[name] = std::move(list);
}

Json person_track(const Plan& plan, std::size_t index) {
  const PersonTrack& track = plan.people[index];
  Json person;
  person["name"] = plan.stage.people[index].name;
  add_lane(plan, "present", track.present, person);
  add_lane(plan, "feet", track.feet, person);
  add_lane(plan, "body", track.body, person);
  add_lane(plan, "stance", track.stance, person);
  add_lane(plan, "eyes", track.eyes, person);
  add_lane(plan, "left hand", track.left_hand, person);
  add_lane(plan, "right hand", track.right_hand, person);
  Json hands = Json::array();
  for (const Business& business : track.hands) {
    hands.push_back({{"begin", business.begin.count},
                     {"end", business.end.count},
                     {"what", business.what},
                     {"strength", share(business.strength)},
                     {"object", target(plan, business.object)}});
  }
  if (!hands.empty()) person["hands"] = std::move(hands);
  return person;
}

Json support_json(const Support& support) {
  Json json{{"on", spelling(support.rig)}, {"origin", name_of(support.origin)}};
  if (!support.said_at.empty()) json["byte"] = support.said_at.begin;
  return json;
}

Json camera_track(const Plan& plan, std::size_t index) {
  const CameraTrack& track = plan.cameras[index];
  Json camera;
  camera["name"] = plan.stage.cameras[index].name;
  camera["support"] = support_json(plan.stage.cameras[index].support);
  add_lane(plan, "place", track.place, camera);
  add_lane(plan, "aim", track.aim, camera);
  add_lane(plan, "keeps", track.keeps, camera);
  add_lane(plan, "keeps at", track.keeps_at, camera);
  add_lane(plan, "rides", track.rides, camera);
  add_lane(plan, "keeps size", track.keeps_size, camera);
  add_lane(plan, "focal", track.focal, camera);
  add_lane(plan, "stop", track.stop, camera);
  add_lane(plan, "focus", track.focus, camera);
  add_lane(plan, "focus on", track.focus_on, camera);
  return camera;
}

Json lamp_track(const Plan& plan, std::size_t index) {
  const LampTrack& track = plan.lamps[index];
  Json lamp;
  lamp["name"] = plan.stage.lamps[index].name;
  add_lane(plan, "place", track.place, lamp);
  add_lane(plan, "aim", track.aim, lamp);
  add_lane(plan, "aim at", track.aim_at, lamp);
  add_lane(plan, "level", track.level, lamp);
  add_lane(plan, "carried", track.carried, lamp);
  return lamp;
}

Json prop_track(const Plan& plan, std::size_t index) {
  Json prop;
  prop["name"] = plan.stage.props[index].name;
  add_lane(plan, "rests", plan.props[index].rests, prop);
  return prop;
}

Json opening_track(const Plan& plan, std::size_t index) {
  Json opening;
  opening["name"] = plan.stage.openings[index].name;
  add_lane(plan, "open", plan.openings[index].open, opening);
  return opening;
}

Json piece_track(const Plan& plan, std::size_t index) {
  Json piece;
  piece["name"] = plan.stage.pieces[index].name;
  add_lane(plan, "open", plan.pieces[index].open, piece);
  add_lane(plan, "fallen", plan.pieces[index].fallen, piece);
  return piece;
}

// Only those that change have a track worth printing.
template <class Tracks, class Print>
Json changing(const Tracks& tracks, Print print) {
  Json list = Json::array();
  for (std::size_t i = 0; i < tracks.size(); ++i) {
    Json track = print(i);
    if (track.size() > 1) list.push_back(std::move(track));
  }
  return list;
}

const std::string& person_name(const Plan& plan, PersonId person) {
  return plan.stage.people[static_cast<std::size_t>(person.index)].name;
}

Json beat_json(const Beat& beat) {
  Json json{{"name", beat.name}, {"begin", beat.begin.count}, {"end", beat.end.count}};
  if (!beat.judged) json["judged"] = false;
  if (beat.silent) json["silent"] = true;
  if (beat.about) json["about"] = beat.about->count;
  Json lines = Json::array();
  for (const BeatLine& line : beat.lines) {
    lines.push_back({{"begin", line.begin.count}, {"end", line.end.count}, {"text", line.text}});
  }
  json["lines"] = std::move(lines);
  return json;
}

Json speech_json(const Plan& plan, const Speech& speech) {
  Json json;
  json["speaker"] = person_name(plan, speech.speaker);
  Json to = Json::array();
  for (const PersonId person : speech.to) to.push_back(person_name(plan, person));
  if (speech.to_everyone) {
    json["to"] = "everyone";
  } else {
    json["to"] = std::move(to);
  }
  json["begin"] = speech.begin.count;
  json["end"] = speech.end.count;
  if (speech.loudness != Loudness::plain) json["loudness"] = spelling(speech.loudness);
  if (speech.off) json["off"] = true;
  if (speech.trailing_off) json["trailing off"] = true;
  if (speech.overlap_told) json["overlap told"] = true;
  Json words = Json::array();
  for (const Word& word : speech.timed) words.push_back(Json::array({word.text, word.begin.count, word.end.count}));
  json["words"] = std::move(words);
  for (const SpeechMarkTime& mark : speech.marks) json["marks"][mark.name] = mark.at.count;
  return json;
}

Json intent_json(const Plan& plan, const Intent& intent) {
  Json json{{"words", intent.words},
            {"targets", targets(plan, intent.targets)},
            {"begin", intent.begin.count},
            {"end", intent.end.count}};
  if (!intent.ahead_of.empty()) json["ahead of"] = targets(plan, intent.ahead_of);
  if (intent.margin) json["margin"] = intent.margin->value;
  return json;
}

Json story_json(const Plan& plan, const StoryState& state) {
  constexpr const char* states[] = {"leads", "runs under", "comes up", "breaks in", "drops out", "closes"};
  return {{"story", plan.stage.stories[static_cast<std::size_t>(state.story.index)].name},
          {"state", states[static_cast<std::size_t>(state.state)]},
          {"begin", state.begin.count},
          {"end", state.end.count}};
}

Json mark_json(const Plan& plan, const Mark& mark) {
  Json json{{"name", mark.name},
            {"person", person_name(plan, mark.person)},
            {"at", point(mark.at)},
            {"reached", mark.reached.count},
            {"origin", name_of(mark.origin)}};
  if (!mark.area.empty()) json["area"] = value_of(plan, Walk{mark.area});
  return json;
}

template <class Items, class Print>
Json list_of(const Items& items, Print print) {
  Json list = Json::array();
  for (const auto& item : items) list.push_back(print(item));
  return list;
}

template <class Tracks, class Print>
Json tracks_of(const Tracks& tracks, Print print) {
  Json list = Json::array();
  for (std::size_t i = 0; i < tracks.size(); ++i) list.push_back(print(i));
  return list;
}

}  // namespace

nlohmann::ordered_json dump_plan(const Plan& plan) {
  Json json;
  json["schema"] = "lensward/plan/1";
  json["scene"] = plan.facts.name;
  json["beats"] = list_of(plan.beats, beat_json);
  json["speeches"] = list_of(plan.speeches, [&](const Speech& speech) { return speech_json(plan, speech); });
  json["people"] = tracks_of(plan.people, [&](std::size_t i) { return person_track(plan, i); });
  json["cameras"] = tracks_of(plan.cameras, [&](std::size_t i) { return camera_track(plan, i); });
  json["lamps"] = tracks_of(plan.lamps, [&](std::size_t i) { return lamp_track(plan, i); });
  json["props"] = tracks_of(plan.props, [&](std::size_t i) { return prop_track(plan, i); });
  const Json openings = changing(plan.openings, [&](std::size_t i) { return opening_track(plan, i); });
  if (!openings.empty()) json["doors and windows"] = openings;
  const Json pieces = changing(plan.pieces, [&](std::size_t i) { return piece_track(plan, i); });
  if (!pieces.empty()) json["furniture"] = pieces;
  json["sounds"] = list_of(plan.sounds, [](const Sound& sound) {
    return Json{{"name", sound.name}, {"begin", sound.begin.count}, {"end", sound.end.count}};
  });
  json["pictures"] = list_of(plan.pictures, [](const PictureWanted& picture) {
    return Json{{"what", picture.plan ? "plan" : "frame"}, {"at", picture.at.count}};
  });
  json["cuts"] = list_of(plan.cuts, [&](const CutTo& cut) {
    return Json{{"at", cut.at.count}, {"camera", plan.stage.cameras[static_cast<std::size_t>(cut.camera.index)].name}};
  });
  json["intents"] = list_of(plan.intents, [&](const Intent& intent) { return intent_json(plan, intent); });
  json["stories"] = list_of(plan.stories, [&](const StoryState& state) { return story_json(plan, state); });
  json["marks"] = list_of(plan.marks, [&](const Mark& mark) { return mark_json(plan, mark); });
  json["waivers"] = list_of(plan.waivers, [](const Waiver& waiver) {
    return Json{{"rule", waiver.rule},
                {"people", waiver.people},
                {"begin", waiver.begin.count},
                {"end", waiver.end.count},
                {"because", waiver.because}};
  });
  json["notes"] = list_of(plan.notes, [](const CrewNote& note) {
    return Json{{"for", note.department}, {"at", note.at.count}, {"text", note.text}};
  });
  json["assumptions"] = list_of(plan.assumptions, [](const Assumption& assumption) {
    return Json{{"what", assumption.what}, {"pin", assumption.pin}};
  });
  return json;
}

}  // namespace lensward
