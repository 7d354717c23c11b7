#include <algorithm>
#include <cmath>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "optics/light.h"
#include "plan/areas.h"
#include "plan/declaring.h"
#include "plan/floor.h"
#include "plan/settling.h"

namespace lensward {
namespace {

const Limits luxes{"light given", Dimension::illuminance, 0, 200000, "gives 400 lux at 1 m"};
const Limits candelas{"light given", Dimension::intensity, 0, 1e7, "gives 500 cd"};
const Limits lumens{"light given", Dimension::flux, 0, 1e7, "gives 800 lm"};
const Limits ranges{"distance the light is measured at", Dimension::length, 0.05, 100, "gives 400 lux at 1 m"};
const Limits beams{"beam", Dimension::angle, 1, 180, "beam 30 deg"};
const Limits acrosses{"breadth of a lamp", Dimension::length, 0.001, 20, "across 60 cm"};
const Limits colours{"colour of a lamp", Dimension::colour, 1000, 20000, "colour 3200 K"};
const Limits powers{"what a lamp draws", Dimension::power, 0, 100000, "draws 650 W"};
const Limits circuits{"number of a circuit", Dimension::count, 1, 999, "circuit 2"};
const Limits heights{"height of a lamp", Dimension::length, 0, 60, "height 2.2 m"};
const Limits dimmings{"dimming", Dimension::stops, 0, 20, "dimmed 1 stop"};
const Limits levels{"level", Dimension::share, 0, 1, "level 60%"};
const Limits prop_sizes{"size of a prop", Dimension::length, 0.001, 5, "measures 20 cm by 15 cm"};

constexpr double usual_lamp_height = 2.2;
constexpr double face_height = 1.5;

// The light in lux that exposes a face at a stop.
double wanted_light(const Settings& settings, FNumber stop) {
  return asked_for(stop, settings.sensitivity, exposure_time(settings.shutter, settings.frame_rate)).value;
}

// Of a beam of full angle 2a: 2π(1 − cos a); all round 4π.
double solid_angle(const Lamp& lamp) {
  if (!lamp.beam) return 4 * pi;
  return std::max(1e-3, 2 * pi * (1 - cosine(*lamp.beam / 2)));
}

void read_light(const Clauses& clauses, Lamp& lamp, Declaring& declaring) {
  const auto* gives = find<GivesClause>(clauses);
  if (gives == nullptr) return;
  const std::optional<UnitOf> unit = unit_of(gives->figure.unit);
  std::optional<double> candela;
  if (unit && unit->dimension == Dimension::intensity) {
    candela = measured(gives->figure, candelas, declaring.findings);
  } else if (unit && unit->dimension == Dimension::flux) {
    const auto flux = measured(gives->figure, lumens, declaring.findings);
    if (flux) candela = *flux / solid_angle(lamp);
  } else {
    const auto lux = measured(gives->figure, luxes, declaring.findings);
    const auto range = gives->range ? measured(*gives->range, ranges, declaring.findings) : std::optional{1.0};
    if (lux && range) candela = *lux * *range * *range;
  }
  if (!candela) return;
  lamp.intensity = Candela{*candela};
  lamp.intensity_origin = Origin::said;
}

void read_lamp(const Clauses& clauses, Lamp& lamp, Declaring& declaring) {
  if (trait_in(clauses, "practical") != nullptr) lamp.kind = Lamp::Kind::practical;
  if (trait_in(clauses, "soft") != nullptr) lamp.kind = Lamp::Kind::soft;
  if (trait_in(clauses, "hard") != nullptr) lamp.kind = Lamp::Kind::hard;
  lamp.noisy = trait_in(clauses, "noisy") != nullptr;
  lamp.across = Metres{lamp.kind == Lamp::Kind::soft ? 0.9 : lamp.kind == Lamp::Kind::practical ? 0.2 : 0.05};
  if (const auto across = measured_in(clauses, "across", acrosses, declaring.findings)) lamp.across = Metres{*across};
  if (const auto beam = measured_in(clauses, "beam", beams, declaring.findings)) lamp.beam = Degrees{*beam};
  if (const auto colour = measured_in(clauses, "colour", colours, declaring.findings)) lamp.colour = Kelvin{*colour};
  if (const auto draws = measured_in(clauses, "draws", powers, declaring.findings)) lamp.draws = Watts{*draws};
  if (const auto circuit = measured_in(clauses, "circuit", circuits, declaring.findings))
    lamp.circuit = static_cast<int>(*circuit);
  read_light(clauses, lamp, declaring);
}

// Lamps hang over furniture and stand beyond windows: nothing on the floor is in their way.
std::optional<Mark2d> lamp_mark(const Declared& declared, Declaring& declaring) {
  Phrases phrases{{}, "", declared.line};
  const PlaceContext context = context_of(declaring);
  for (const Place& place : places_in(*declared.clauses)) {
    phrases.phrases.push_back(areas_of(place, context, Placing{}, declaring.findings));
    phrases.words += (phrases.words.empty() ? "" : ", ") + text_of(place);
    if (phrases.phrases.back().empty()) return std::nullopt;
  }
  if (phrases.phrases.empty()) return std::nullopt;
  Stage bare;
  bare.room = declaring.plan.stage.room;
  return settle_phrases(phrases, bare, Placing{}, {}, declaring.findings);
}

double top_of(const Mark2d& mark, const Stage& stage) {
  for (const Area& area : mark.chosen) {
    if (area.piece.known()) return stage.pieces[static_cast<std::size_t>(area.piece.index)].height.value;
  }
  return 0;
}

Vec3 lamp_place(const Declared& declared, const Lamp& lamp, Declaring& declaring, Origin& origin) {
  const Stage& stage = declaring.plan.stage;
  const auto mark = lamp_mark(declared, declaring);
  origin = mark ? mark->origin : Origin::assumed;
  const Vec2 at = mark ? mark->at : middle_of(stage);
  const double above = mark ? top_of(*mark, stage) : 0;
  const bool practical = lamp.kind == Lamp::Kind::practical;
  double height = practical && above > 0 ? above + 0.4 : usual_lamp_height;
  height = std::min(height, std::max(0.5, stage.room.height.value - 0.2));
  if (const auto told = measured_in(*declared.clauses, "height", heights, declaring.findings)) return raised(at, *told);
  assume(declaring, "no height told for light `" + lamp.name + "`, so " + text_of(Metres{height}),
         Pin{"light", lamp.name, "height " + text_of(Metres{height})}, declared.line);
  return raised(at, height);
}

Vec3 lamp_aim(const Declared& declared, const Lamp& lamp, Vec3 at, Declaring& declaring, Origin& origin) {
  const auto* aims = find<AimsClause>(*declared.clauses);
  if (aims != nullptr) {
    const auto target = target_of(aims->place, context_of(declaring), declaring.findings);
    const bool on_somebody = target && target->kind == Target::Kind::person;
    const auto point = target && !on_somebody ? point_of(declaring.plan, *target, Moment{}) : std::nullopt;
    if (point) {
      origin = Origin::said;
      return *point;
    }
  }
  origin = Origin::assumed;
  // A practical shines down, the others on to the middle of the floor at the height of a face.
  if (lamp.kind == Lamp::Kind::practical) return {at.x, at.y, 0};
  return middle_of_room(declaring, Metres{face_height});
}

void guess_intensity(const Declared& declared, Lamp& lamp, Vec3 at, Vec3 aim, Declaring& declaring) {
  const double far = std::max(1.0, length(aim - at));
  const double lux = wanted_light(declaring.plan.settings, FNumber{2.8});
  lamp.intensity = Candela{lux * far * far};
  const std::string gives = "gives " + text_of(Lux{lux}) + " at " + text_of(Metres{far});
  assume(declaring, "no light told for `" + lamp.name + "`, so it " + gives, Pin{"light", lamp.name, gives},
         declared.line);
}

bool is_place(const Clause& clause) {
  const auto* shift = std::get_if<ShiftClause>(&clause.body);
  return std::holds_alternative<AtClause>(clause.body) || std::holds_alternative<WhereClause>(clause.body) ||
         (shift != nullptr && shift->place);
}

// What is said of it last stands first, where it is found before what was said earlier; of places the last word alone
// counts.
Clauses last_word_first(const Declared& line, Span& placed_at, const Declaring& declaring) {
  Clauses clauses;
  bool placed = false;
  const auto sayings = sayings_of(line, DeedLine::Subject::light, declaring);
  for (auto saying = sayings.rbegin(); saying != sayings.rend(); ++saying) {
    const bool places = std::any_of(saying->first->begin(), saying->first->end(), is_place);
    for (const Clause& clause : *saying->first) {
      if (!placed || !is_place(clause)) clauses.push_back(clause);
    }
    if (places && !placed) placed_at = saying->second;
    placed = placed || places;
  }
  return clauses;
}

void declare_lamp(const Declared& line, LampId id, Declaring& declaring) {
  Span placed_at = line.line;
  const Clauses clauses = last_word_first(line, placed_at, declaring);
  const Declared declared{line.what, line.name, &clauses, placed_at};
  const auto index = static_cast<std::size_t>(id.index);
  Lamp& lamp = declaring.plan.stage.lamps[index];
  read_lamp(*declared.clauses, lamp, declaring);
  Origin place_origin = Origin::said;
  Origin aim_origin = Origin::said;
  const Vec3 at = lamp_place(declared, lamp, declaring, place_origin);
  const Vec3 aim = lamp_aim(declared, lamp, at, declaring, aim_origin);
  if (lamp.intensity_origin == Origin::assumed && find<GivesClause>(*declared.clauses) == nullptr) {
    guess_intensity(declared, lamp, at, aim, declaring);
  }
  double level = 1;
  if (const auto told = measured_in(*declared.clauses, "level", levels, declaring.findings)) level = *told;
  if (const auto dimmed = measured_in(*declared.clauses, "dimmed", dimmings, declaring.findings)) {
    level *= power(2, -*dimmed);
  }
  LampTrack& track = declaring.plan.lamps[index];
  track.place = {from_the_start(at, place_origin, declared.line)};
  track.aim = {from_the_start(aim, aim_origin, declared.line)};
  track.level = {from_the_start(Share{level}, Origin::said, declared.line)};
}

// What lights a scene that does not say it all. Two soft lamps either side of the lens, so that a face turned half away
// is lit as one turned to it.
struct EvenLight {
  const char* names[2];
  double far, up;  // metres from the middle
  Metres across;
  double from_all_over;  // as a share of its light on level ground
};

// Above the missing wall.
EvenLight room_light(const Stage& stage, double away) {
  return {{"Room-Light", "Room-Light-2"},
          std::max(4.0, away + 1),
          std::max(2.5, stage.room.height.value + 0.4),
          Metres{2},
          0};
}

// Far and high: an overcast sky, brighter on the side of the lens, where the light of a day exterior is put. No sun.
// It comes from all over but at night, when it is a lamp that stands for one.
EvenLight sky_light(double away, bool night) {
  return {{"Sky", "Sky-2"}, away + 30, 30, Metres{25}, night ? 0 : from_all_over_overcast.value};
}

void supply_even_light(const EvenLight& light, double lux, Vec2 back, Declaring& declaring) {
  Stage& stage = declaring.plan.stage;
  const Vec2 middle = middle_of(stage);
  const Vec3 aim = raised(middle, face_height);
  // From frame left and from frame right at 45 degrees each lights a face turned to the lens by cos 45 of half its
  // light.
  for (int i = 0; i < 2; ++i) {
    const Vec2 side = left_of(back) * (i == 0 ? -1 : 1);
    const Vec3 at = raised(middle + unit(back + side) * light.far, light.up);
    const double slant = length(aim - at);
    const double facing = dot(unit(floor_of(at) - middle), back) * light.far / slant;
    Lamp lamp;
    lamp.name = light.names[i];
    for (int n = 3; declaring.names.find(lamp.name); ++n)
      lamp.name = std::string(light.names[0]) + '-' + std::to_string(n);
    lamp.kind = Lamp::Kind::soft;
    lamp.across = light.across;
    const double level = at.z / slant;
    lamp.intensity = Candela{lux / 2 * slant * slant / (facing + light.from_all_over * level)};
    lamp.declared = declaring.plan.facts.heading;
    declaring.names.declare({lamp.name, {}}, LampId{static_cast<int>(stage.lamps.size())});
    stage.lamps.push_back(lamp);
    LampTrack track;
    track.place = {from_the_start(at, Origin::assumed, Span{})};
    track.aim = {from_the_start(aim, Origin::assumed, Span{})};
    track.level = {from_the_start(Share{1}, Origin::assumed, Span{})};
    declaring.plan.lamps.push_back(track);
  }
}

void supply_light(bool sky, Declaring& declaring) {
  Stage& stage = declaring.plan.stage;
  const CameraState camera = camera_at(declaring.plan, first_camera(declaring), Moment{});
  const Vec2 away = floor_of(camera.at) - middle_of(stage);
  const Vec2 back = length(away) > 0.1 ? unit(away) : Vec2{0, -1};
  const bool night = at_night(declaring.plan);
  const std::size_t first = stage.lamps.size();
  const double wanted = wanted_light(declaring.plan.settings, camera.stop);
  supply_even_light(sky ? sky_light(length(away), night) : room_light(stage, length(away)), wanted, back, declaring);
  const std::string names = '`' + stage.lamps[first].name + "` and `" + stage.lamps[first + 1].name + '`';
  const std::string lux = text_of(Lux{wanted});
  if (sky) {
    assume(declaring,
           "no sky told, so an overcast one: " + names + ", soft, high behind the lens, as bright as the stop wants, " +
               lux + "; a brighter day takes filters",
           "light Sun, hard, at (-20, -20) m, height 25 m, gives " + lux + " at 35 m", declaring.plan.facts.heading);
    return;
  }
  assume(declaring,
         "no light told, so an even one: " + names + ", soft, high either side of the lens, together " + lux +
             " in the middle of the room",
         "light Pendant, practical, at (" + number(middle_of(stage).x, 2) + ", " + number(middle_of(stage).y, 2) +
             ") m, height 2.1 m, gives 400 lux at 1 m",
         declaring.plan.facts.heading);
}

// Hung so high, a lamp stands for the sun or the sky.
bool lights_the_day(const LampTrack& track) {
  constexpr double high = 10;
  return !track.place.empty() && track.place.front().to.z >= high;
}

// By day the sky lights open ground whatever lamps there are besides; by night only when there are none.
void supply_lamps(Declaring& declaring) {
  const Plan& plan = declaring.plan;
  const bool sky = open_ground(plan) && (!at_night(plan) || plan.stage.lamps.empty());
  const bool told_sky = std::any_of(plan.lamps.begin(), plan.lamps.end(), lights_the_day);
  if (plan.stage.lamps.empty() || (sky && !told_sky)) supply_light(sky, declaring);
}

// ---- Props ---------------------------------------------------------------------------------------------------------

void read_prop_sizes(const Clauses& clauses, Prop& prop, Findings& findings) {
  for (const Clause& clause : clauses) {
    const auto* dims = std::get_if<DimsClause>(&clause.body);
    if (dims == nullptr || dims->gate) continue;
    Metres* const sides[] = {&prop.length, &prop.depth, &prop.height};
    // Two sizes are of something flat.
    prop.height = Metres{dims->figures.size() < 3 ? 0.01 : prop.height.value};
    for (std::size_t i = 0; i < dims->figures.size() && i < 3; ++i) {
      if (const auto size = measured(dims->figures[i], prop_sizes, findings)) *sides[i] = Metres{*size};
    }
  }
  if (const auto across = measured_in(clauses, "across", prop_sizes, findings)) {
    prop.length = Metres{*across};
    prop.depth = Metres{*across};
    prop.height = Metres{std::min(0.1, *across)};
  }
  if (const auto height = measured_in(clauses, "height", prop_sizes, findings)) prop.height = Metres{*height};
}

void put_in_hand(const Declared& declared, PropId prop, PropTrack& track, const HandsClause& hands,
                 Declaring& declaring) {
  const std::vector<PersonId> people = people_named(declaring.names, hands.with, declaring.findings);
  if (people.empty()) return;
  const Target holder{Target::Kind::person, people.front().index, {}};
  const Target held{Target::Kind::prop, prop.index, {}};
  track.rests = {from_the_start(holder, Origin::said, declared.line)};
  PersonTrack& person = declaring.plan.people[static_cast<std::size_t>(people.front().index)];
  // A third thing is about them, as if worn.
  Lane<Target>& hand = person.right_hand.empty() ? person.right_hand : person.left_hand;
  if (hand.empty()) hand = {from_the_start(held, Origin::said, declared.line)};
}

void put_down(const Declared& declared, PropTrack& track, Declaring& declaring) {
  const std::vector<Place> places = places_in(*declared.clauses);
  if (places.empty()) return;
  const Place& place = places.front();
  const bool whole_piece = place.things.size() == 1 && place.things.front().kind == Thing::Kind::named;
  const std::optional<Named> found = whole_piece ? declaring.names.find(place.things.front().name.text) : std::nullopt;
  if (found && std::holds_alternative<PieceId>(*found)) {
    const Target piece{Target::Kind::piece, std::get<PieceId>(*found).index, {}};
    track.rests = {from_the_start(piece, Origin::said, declared.line)};
    return;
  }
  const auto mark = lamp_mark(declared, declaring);
  if (!mark) return;
  const double height = place.word == Place::Word::under ? 0 : top_of(*mark, declaring.plan.stage);
  const Target point{Target::Kind::point, -1, raised(mark->at, height)};
  track.rests = {from_the_start(point, mark->origin, declared.line)};
}

}  // namespace

void declare_lamps(Declaring& declaring) {
  declaring.plan.lamps.resize(declaring.plan.stage.lamps.size());
  for (const Declared& declared : declaring.declared) {
    if (const auto* id = std::get_if<LampId>(&declared.what)) declare_lamp(declared, *id, declaring);
  }
  supply_lamps(declaring);
}

void declare_props(Declaring& declaring) {
  declaring.plan.props.resize(declaring.plan.stage.props.size());
  for (const Declared& declared : declaring.declared) {
    const auto* id = std::get_if<PropId>(&declared.what);
    if (id == nullptr) continue;
    const auto index = static_cast<std::size_t>(id->index);
    read_prop_sizes(*declared.clauses, declaring.plan.stage.props[index], declaring.findings);
    const auto* hands = find<HandsClause>(*declared.clauses);
    if (hands != nullptr && hands->kind == HandsClause::Kind::with) {
      put_in_hand(declared, *id, declaring.plan.props[index], *hands, declaring);
    } else {
      put_down(declared, declaring.plan.props[index], declaring);
    }
  }
}

}  // namespace lensward
