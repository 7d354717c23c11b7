// The hazards that the text itself shows: by what is moved, hung or lit, and by the names of things, sounds and
// business. Spoken words are not searched: a knife that is talked about is no knife. Nothing found is no promise of
// anything.
#include <algorithm>
#include <array>
#include <cctype>
#include <initializer_list>
#include <iterator>
#include <string_view>

#include "base/listing.h"
#include "crew/trades.h"
#include "plan/called.h"
#include "plan/floor.h"

namespace lensward {
namespace {

using For = CrewSheet::For;

constexpr const char* to_whom =
    "For all of these: follow local codes and venue rules; the heads of department responsible decide, not this sheet.";

struct Hazard {
  std::array<std::string_view, 14> things;  // looked for in names and in what the hands do
  std::array<std::string_view, 11> deeds;   // looked for there and in moves too: "steps" there is no staircase
  std::string_view caution;
  std::array<For, 3> whom;  // besides actors and the assistant director, who get all
};

constexpr std::array hazards{
    Hazard{{"gun", "pistol", "rifle", "revolver", "shotgun", "weapon", "firearm"},
           {"shoot"},
           "A firearm or what looks like one is handled: only under whoever is licensed for it.",
           {For::props, For::camera, For::sound}},
    Hazard{{"knife", "knives", "sword", "dagger", "axe", "blade", "razor", "scissors", "arrow", "spear"},
           {},
           "A blade or point is handled: blunted or rehearsed with whoever is responsible for it.",
           {For::props, For::props, For::props}},
    Hazard{{"candle", "match", "flame", "fire", "torch", "lantern", "stove", "oven", "range", "cigar", "lighter",
            "hearth", "fireplace"},
           {"burn"},
           "There may be flame or heat: keep cloth and hair off it, with somebody told off to watch it.",
           {For::props, For::wardrobe, For::light}},
    Hazard{{"glass", "bottle", "mirror"},
           {"break", "smash", "shatter"},
           "Glass or breaking: breakaway or real, say which, and clear the floor before anyone goes on.",
           {For::props, For::props, For::props}},
    Hazard{{"water", "rain", "bath", "basin", "sink", "hose", "pool"},
           {"pour", "wet"},
           "Water on the set: keep it off anything electrical, and the floor may be slippery.",
           {For::light, For::sound, For::props}},
    Hazard{{"smoke", "haze", "fog", "steam"},
           {},
           "Smoke or haze: tell everyone beforehand, and air the room.",
           {For::camera, For::light, For::grip}},
    Hazard{{},
           {"hit", "slap", "punch", "fight", "shove", "grab", "strangle", "struggle", "kick", "stab", "throw"},
           "Contact or a fight: staged and rehearsed by whoever is licensed for it, at half speed first.",
           {For::camera, For::camera, For::props}},
    Hazard{{},
           {"kiss", "undress", "embrace", "naked", "caress"},
           "Intimate contact: agreed beforehand, with whoever coordinates it.",
           {For::camera, For::wardrobe, For::script}},
    Hazard{{},
           {"fall", "trip", "jump", "climb", "stumble", "tumble", "faint", "collapse"},
           "A fall, a jump or a climb: rehearsed with whoever is responsible for stunts, the floor prepared.",
           {For::grip, For::wardrobe, For::camera}},
    Hazard{{"stair", "stairs", "steps", "ladder", "staircase", "balcony", "roof"},
           {},
           "Steps, a ladder or an edge: walk it in the light of the scene before it is played.",
           {For::grip, For::camera, For::light}},
    Hazard{{"dog", "horse", "cat", "bird", "animal", "snake"},
           {},
           "An animal: with its handler, and nobody else gives it orders.",
           {For::sound, For::props, For::camera}},
    Hazard{{"car", "van", "truck", "lorry", "boat", "ferry", "bicycle", "motorcycle", "tram", "train"},
           {},
           "A vehicle or a vessel: driven by whoever is licensed, and never toward crew.",
           {For::grip, For::camera, For::sound}},
    Hazard{{"shot", "gunshot", "bang", "explosion", "siren", "blast"},
           {},
           "A loud noise: ear protection, and a warning before each take.",
           {For::sound, For::camera, For::grip}},
    Hazard{{"child", "children", "boy", "girl", "baby", "babies", "infant"},
           {},
           "A child may be working: hours, rest and a guardian as the law of the place has them.",
           {For::wardrobe, For::props, For::script}},
};

std::string lowered(std::string text) {
  std::ranges::transform(text, text.begin(),
                         [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
  return text;
}

std::vector<BeatLine> lines_of(const Plan& plan, BeatLine::Kind kind) {
  std::vector<BeatLine> lines;
  for (const Beat& beat : plan.beats)
    std::ranges::copy_if(beat.lines, std::back_inserter(lines), [&](const BeatLine& one) { return one.kind == kind; });
  return lines;
}

bool ends_in(std::string_view word, std::initializer_list<std::string_view> endings) {
  return std::ranges::any_of(endings, [&](std::string_view one) { return word.ends_with(one); });
}

// "breaks" of "break", "slapping" of "slap", "shoved" of "shove"; not "relaxes" of "axe", nor "cares" of "car".
bool is_form_of(std::string_view token, std::string_view word) {
  if (token == word) return true;
  const bool silent_e = word.ends_with('e');
  if (silent_e && (token == std::string(word.substr(0, word.size() - 1)) + "ing")) return true;
  if (!token.starts_with(word)) return false;
  std::string_view ending = token.substr(word.size());
  if (ending == "s") return true;
  if (ending == "es") return ends_in(word, {"s", "x", "z", "ch", "sh", "o"});
  if (silent_e) return ending == "d";
  if (ending.starts_with(word.back())) ending.remove_prefix(1);
  return ending == "ing" || ending == "ed";
}

bool has_word(const std::string& text, std::string_view word) {
  if (word.empty()) return false;
  const auto letter = [](char one) { return std::isalpha(static_cast<unsigned char>(one)) != 0; };
  for (auto at = text.begin(); at != text.end();) {
    const auto begin = std::find_if(at, text.end(), letter), end = std::find_if_not(begin, text.end(), letter);
    if (is_form_of(std::string_view(begin, end), word)) return true;
    at = end;
  }
  return false;
}

// All that is named, and what the hands do, in lower case, a line each.
std::string all_named(const Plan& plan) {
  std::string text;
  const auto name = [&](const std::string& words) { text += lowered(words) + '\n'; };
  for (const Prop& prop : plan.stage.props) name(prop.name);
  for (const Piece& piece : plan.stage.pieces) name(piece.name + '\n' + spelling(piece.kind));
  for (const Lamp& lamp : plan.stage.lamps) name(lamp.name);
  for (const Person& person : plan.stage.people) name(person.called);
  for (const Sound& sound : plan.sounds) name(sound.name);
  for (const CrewNote& note : plan.notes) name(note.text);
  for (const PersonTrack& track : plan.people)
    for (const Business& business : track.hands) name(business.what);
  for (const BeatLine& line : lines_of(plan, BeatLine::Kind::hands)) name(line.text);
  return text;
}

std::string all_moves(const Plan& plan) {
  std::string text;
  for (const BeatLine& line : lines_of(plan, BeatLine::Kind::move)) text += lowered(line.text) + '\n';
  return text;
}

// Nothing when no camera ever moves; else how near one that does comes to anybody.
std::optional<Metres> nearest_to_a_moving_camera(const Plan& plan) {
  constexpr Milliseconds step{200};
  std::optional<Metres> nearest;
  for (std::size_t i = 0; i < plan.cameras.size(); ++i) {
    const CameraId camera{static_cast<int>(i)};
    for (const LensMove& move : lens_moves(plan, camera)) {
      if (!nearest) nearest = Metres{1e9};
      for (Moment now = move.begin; now <= move.end; now += step)
        for (std::size_t p = 0; p < plan.people.size(); ++p)
          if (const PersonState state = person_at(plan, PersonId{static_cast<int>(p)}, now); state.present)
            nearest = std::min(*nearest, Metres{length(state.at - floor_of(camera_at(plan, camera, now).at))});
    }
  }
  return nearest;
}

// Lamps, and cameras, that are ever over two metres up.
std::vector<std::string> high_things(const Plan& plan) {
  constexpr double overhead = 2;
  const auto high = [](const Segment<Vec3>& one) { return std::max(one.from.z, one.to.z) > overhead; };
  std::vector<std::string> names;
  for (std::size_t i = 0; i < plan.lamps.size(); ++i)
    if (!is_supplied(plan, plan.stage.lamps[i]) && std::ranges::any_of(plan.lamps[i].place, high))
      names.push_back(plan.stage.lamps[i].name);
  for (std::size_t i = 0; i < plan.cameras.size(); ++i)
    if (std::ranges::any_of(plan.cameras[i].place, high)) names.push_back("camera " + plan.stage.cameras[i].name);
  return names;
}

// More than three changes of a lamp within a second (photosensitivity; ISO 9241-391 and broadcast guidance name 3 Hz).
bool flickers(const LampTrack& track) {
  for (std::size_t i = 3; i < track.level.size(); ++i)
    if (track.level[i].begin - track.level[i - 3].begin < Milliseconds{1000} &&
        track.level[i].from != track.level[i].to)
      return true;
  return false;
}

}  // namespace

std::vector<std::string> cautions_for(const Plan& plan, For whom) {
  std::vector<std::string> cautions;
  const auto concerns = [&](std::initializer_list<For> those) {
    return whom == For::actors || whom == For::assistant || std::ranges::find(those, whom) != those.end();
  };
  const auto caution = [&](bool there, std::initializer_list<For> those, std::string_view words) {
    if (there && concerns(those)) cautions.emplace_back(words);
  };
  // An arm's length and a step (a choice of ours, no source).
  constexpr Metres among{1.5};
  const std::optional<Metres> nearest = nearest_to_a_moving_camera(plan);
  caution(nearest && *nearest < among, {For::camera, For::grip, For::sound, For::marks},
          "The camera moves among people: walk it slowly first, with somebody watching its way.");
  caution(nearest && *nearest >= among, {For::camera, For::grip, For::sound},
          "The camera moves: keep its way clear of people and cables, with somebody watching it.");
  const std::vector<std::string> high = high_things(plan);
  caution(!high.empty(), {For::light, For::grip, For::camera},
          "Higher than two metres: " + listed(high) + ". Rigged, secured and checked by whoever is licensed for it.");
  const auto rigged = [&](const Lamp& lamp) { return !is_supplied(plan, lamp); };
  caution(std::ranges::any_of(plan.stage.lamps, rigged), {For::light, For::wardrobe, For::grip},
          "Lamps get hot: keep them off cloth, and every way out clear of stands and cables.");
  caution(std::ranges::any_of(plan.lamps, flickers), {For::light, For::camera},
          "The light changes more than three times a second: warn everyone who may be sensitive to it.");
  caution(at_night(plan), {For::grip, For::light},
          "The scene plays at night: if it is shot then, mind the hours of work and rest, and light the ways.");
  const std::string named = all_named(plan), moves = all_moves(plan);
  const auto in_names = [&](std::string_view word) { return has_word(named, word); };
  const auto in_moves = [&](std::string_view word) { return has_word(moves, word); };
  for (const Hazard& hazard : hazards) {
    const bool there = std::ranges::any_of(hazard.things, in_names) || std::ranges::any_of(hazard.deeds, in_names) ||
                       std::ranges::any_of(hazard.deeds, in_moves);
    caution(there, {hazard.whom[0], hazard.whom[1], hazard.whom[2]}, hazard.caution);
  }
  if (!cautions.empty()) cautions.emplace_back(to_whom);
  return cautions;
}

}  // namespace lensward
