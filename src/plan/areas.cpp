#include "plan/areas.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/angle.h"
#include "plan/measures.h"

namespace lensward {
namespace {

using Word = Place::Word;

constexpr double arms_length = 0.9;
constexpr double far_away = 60;
// How far a strip beside a piece runs on past its corners.
constexpr double past_corner = 0.5;
constexpr double one_move = 1.0;
// Sat on a piece that has no seats: this far in from its edge.
constexpr double perched_in = 0.15;

struct BandRow {
  Word word;
  const char* key;  // of `default by 0.3 to 0.8 m`
  Band thing, body;
};
const std::array<BandRow, 15> bands{{
    {Word::thing, "at", {0.2, 0.3, 0.5}, {0.5, 0.7, 1.0}},
    {Word::by, "by", {0.3, 0.5, 0.9}, {0.5, 0.7, 1.0}},
    {Word::beside, "beside", {0.3, 0.5, 0.9}, {0.5, 0.7, 1.0}},
    {Word::near, "near", {0.6, 1.1, 1.8}, {0.6, 1.1, 1.8}},
    {Word::against, "against", {0.2, 0.25, 0.3}, {0.35, 0.4, 0.45}},
    {Word::in_front_of, "front", {0.3, 0.5, 0.9}, {0.5, 0.8, 1.5}},
    {Word::behind, "behind", {0.3, 0.5, 0.9}, {0.5, 0.8, 1.5}},
    {Word::beyond, "beyond", {0.4, 0.8, 1.5}, {0.4, 0.8, 1.5}},
    {Word::camera_side_of, "beyond", {0.4, 0.8, 1.5}, {0.4, 0.8, 1.5}},
    {Word::camera_left_of, "beside", {0.5, 0.7, 1.2}, {0.5, 0.5, 1.2}},
    {Word::camera_right_of, "beside", {0.5, 0.7, 1.2}, {0.5, 0.5, 1.2}},
    {Word::compass_of, "side", {0.3, 0.6, 1.2}, {0.3, 0.6, 1.2}},
    {Word::just_inside, "inside", {0.4, 0.6, 1.0}, {0.4, 0.6, 1.0}},
    {Word::outside, "outside", {0.4, 0.6, 1.0}, {0.4, 0.6, 1.0}},
    {Word::off, "off", {0.4, 0.6, 1.0}, {0.4, 0.6, 1.0}},
}};

const Limits distances{"distance", Dimension::length, 0, 200, "0.7 m from the Table"};

Degrees half_angle_of(Word word) {
  switch (word) {
    case Word::in_front_of:
    case Word::behind:
    case Word::off:
      return Degrees{30};
    case Word::beyond:
    case Word::camera_side_of:
      return Degrees{20};
    case Word::camera_left_of:
    case Word::camera_right_of:
      return Degrees{25};
    default:
      return Degrees{45};
  }
}

Vec2 turned(Vec2 direction, double quarter_eighths) {
  return direction_of(bearing_of(direction) + Degrees{45 * quarter_eighths});
}

// Builds the areas of one phrase. Holds what every word needs.
class Phrase {
 public:
  Phrase(const Place& place, const PlaceContext& context, const Placing& placing, Findings& findings)
      : place_(place), context_(context), placing_(placing), findings_(findings) {}

  std::vector<Area> areas() {
    switch (place_.word) {
      case Word::coordinates:
        return at_coordinates();
      case Word::frame:
      case Word::foreground:
      case Word::middle_ground:
      case Word::deep:
      case Word::background:
        return areas_in_picture(place_, context_, placing_, findings_);
      case Word::centre:
        return middle_of_room();
      case Word::between:
        return between_two();
      case Word::toward:
      case Word::away_from:
      case Word::deeper:
      case Word::forward:
      case Word::back:
      case Word::bearing:
        return moved();
      case Word::up:
      case Word::down:
        report("place.no-place", "up and down are no places on the floor", "say where: `by the Table`");
        return {};
      case Word::compass_of:
        if (place_.things.size() > 1) return side_of_two();
        break;
      default:
        break;
    }
    return by_thing();
  }

 private:
  void report(const char* rule, std::string message, std::string next_step) {
    Finding finding;
    finding.rule = rule;
    finding.where = place_.span;
    finding.message = std::move(message);
    finding.next_step = std::move(next_step);
    findings_.add(std::move(finding));
  }

  double own_reach(Vec2 direction) const { return reach_of(placing_, direction); }
  Area strip(const FloorBox& box, Vec2 outward, Band band, double run_on) const {
    return strip_beside(box, outward, band, run_on, own_reach(outward));
  }
  Area sector(Vec2 apex, Vec2 direction, Degrees half_angle, Band band) const {
    return sector_round(apex, direction, half_angle, band, own_reach(direction));
  }

  std::optional<Band> band_for(bool body) {
    if (place_.measure) {
      const auto told = measured(*place_.measure, distances, findings_, placing_.step);
      if (!told) return std::nullopt;
      const bool exact = told->greatest - told->least < 1e-9;
      return Band{told->least, told->preferred, told->greatest, exact};
    }
    for (const BandRow& row : bands) {
      if (row.word == place_.word) return configured(row.key, body ? row.body : row.thing);
    }
    return Band{0.3, 0.5, 0.9, false};
  }

  Band configured(const std::string& key, Band band) const {
    const auto& figures = context_.plan.settings.figures;
    const auto least = figures.find(key + " from");
    const auto greatest = figures.find(key + " to");
    if (least == figures.end() || greatest == figures.end()) return band;
    return {least->second, (least->second + greatest->second) / 2, greatest->second, band.exact};
  }

  // ---- Sides -----------------------------------------------------------------------------------------------------

  // Which way the subject comes from, for choosing a side: where they stand, else the front, else the middle of the
  // room, else south.
  Vec2 preferred_way(const Referent& referent) const {
    const auto way_to = [&](Vec2 point) { return unit(point - referent.box.at); };
    if (context_.coming_from && length(*context_.coming_from - referent.box.at) > 0.05) {
      return way_to(*context_.coming_from);
    }
    if (referent.has_front) return referent.box.front;
    const Vec2 middle = middle_of(context_.plan.stage);
    if (length(middle - referent.box.at) > 0.3) return way_to(middle);
    return {0, -1};
  }

  // A box's sides, the one the subject comes over first. By how far the way leads out over each side.
  std::vector<Vec2> sides_of(const Referent& referent) const {
    if (referent.is_wall) return {referent.box.front};
    if (referent.outward && referent.only_outward) return {*referent.outward};
    const Vec2 way = referent.outward ? *referent.outward : preferred_way(referent);
    const FloorBox& box = referent.box;
    std::vector<Vec2> sides{box.front * -1, box.right * -1, box.right, box.front};
    if (!referent.has_front) sides = {{0, -1}, {-1, 0}, {1, 0}, {0, 1}};
    if (!referent.has_front && std::fabs(box.right.x) > 1e-9 && std::fabs(box.right.y) > 1e-9) {
      sides = {box.front * -1, box.right * -1, box.right, box.front};
    }
    const bool from_somewhere = context_.coming_from && !referent.outward;
    const auto over = [&](Vec2 side) {
      return from_somewhere ? dot(*context_.coming_from - box.at, side) - reach_of(box, side) : dot(way, side);
    };
    // Whole millimetres, so that equal ways stay in the order above.
    const auto rank = [&](Vec2 side) { return std::llround(over(side) * -1000); };
    std::stable_sort(sides.begin(), sides.end(), [&](Vec2 a, Vec2 b) { return rank(a) < rank(b); });
    if (referent.outward) drop_inner_sides(referent, sides);
    return sides;
  }

  // A portion has no outside where the rest of the piece is.
  void drop_inner_sides(const Referent& referent, std::vector<Vec2>& sides) const {
    const Piece& piece = context_.plan.stage.pieces[static_cast<std::size_t>(referent.piece.index)];
    const FloorBox whole = box_of(piece);
    const auto inner = [&](Vec2 side) {
      const double edge = dot(referent.box.at - whole.at, side) + reach_of(referent.box, side);
      return edge < reach_of(whole, side) - 0.001;
    };
    sides.erase(std::remove_if(sides.begin(), sides.end(), inner), sides.end());
  }

  std::vector<Vec2> ways_round(const Referent& referent) const {
    const Vec2 way = preferred_way(referent);
    std::vector<Vec2> ways;
    for (double eighth : {0, 1, -1, 2, -2, 3, -3, 4}) ways.push_back(turned(way, eighth));
    return ways;
  }

  // ---- Words about one thing -------------------------------------------------------------------------------------

  std::vector<Area> by_thing() {
    if (place_.things.empty()) {
      report("place.no-place", '`' + text_of(place_) + "` names no place", "say where: `by the Table`");
      return {};
    }
    const auto referent = referent_of(place_.things.front(), context_, findings_);
    if (!referent) return {};
    std::vector<Area> areas = about(*referent);
    for (Area& area : areas) {
      if (!area.piece.known()) area.piece = referent->piece;
    }
    return areas;
  }

  std::vector<Area> about(const Referent& referent) {
    switch (place_.word) {
      case Word::on:
      case Word::in:
      case Word::inside:
      case Word::under:
      case Word::over:
        return within(referent);
      case Word::in_front_of:
      case Word::behind:
        return before_or_behind(referent);
      case Word::beyond:
      case Word::camera_side_of:
      case Word::camera_left_of:
      case Word::camera_right_of:
        return by_lens(referent);
      case Word::compass_of:
        return one_side(referent, direction_of(place_.compass.value_or(Compass::south)));
      case Word::stage_left_of:
      case Word::stage_right_of:
      case Word::upstage_of:
      case Word::downstage_of:
        return by_house(referent);
      case Word::opposite:
        return opposite(referent);
      case Word::just_inside:
      case Word::outside:
        return past_wall(referent, place_.word == Word::outside);
      default:
        return beside(referent);
    }
  }

  std::vector<Area> beside(const Referent& referent) {
    if (referent.is_square) return {square(referent)};
    if (referent.kind == Referent::Kind::spot) return {area_at(referent.box.at, 0.1)};
    const std::optional<Band> band = band_for(referent.kind == Referent::Kind::body);
    if (!band) return {};
    if (referent.own_side) return {own_side(referent, *band)};
    if (referent.kind == Referent::Kind::body) return round_body(referent, *band);
    return along_sides(referent, *band);
  }

  Area square(const Referent& referent) const {
    Area area;
    area.shape = outline_of(referent.box);
    area.middle = {referent.box.at};
    if (!placing_.furniture) return area;
    // A piece in a corner touches both walls.
    const Vec2 outward = unit(referent.box.at - middle_of(context_.plan.stage));
    const double east = outward.x < 0 ? -1 : 1;
    const double north = outward.y < 0 ? -1 : 1;
    const Vec2 corner = referent.box.at + Vec2{east * referent.box.half_length, north * referent.box.half_depth};
    area.middle = {corner - Vec2{east * own_reach({1, 0}), north * own_reach({0, 1})}};
    area.shape = area_at(area.middle.front(), 0.4).shape;
    return area;
  }

  // `X's left` is round a person, and along the side of a piece.
  Area own_side(const Referent& referent, Band band) {
    if (!place_.measure) band = configured("off", {0.4, 0.6, 1.0, false});
    const Vec2 front = referent.box.front;
    const Vec2 right = referent.box.right;
    Vec2 way = front;
    if (referent.own_side == OwnSide::back) way = front * -1;
    if (referent.own_side == OwnSide::left) way = right * -1;
    if (referent.own_side == OwnSide::right) way = right;
    if (referent.kind == Referent::Kind::body) return sector(referent.box.at, way, Degrees{30}, band);
    return strip(referent.box, way, band, 0);
  }

  std::vector<Area> round_body(const Referent& referent, Band band) {
    if (place_.word == Word::thing && placing_.goal && !place_.measure) {
      band = {arms_length, arms_length, arms_length, true};
    }
    std::vector<Vec2> ways = ways_round(referent);
    if (place_.word == Word::beside) ways = own_sides(referent);
    std::vector<Area> areas;
    areas.reserve(ways.size());
    for (Vec2 way : ways) areas.push_back(sector(referent.box.at, way, Degrees{45}, band));
    return areas;
  }

  std::vector<Vec2> own_sides(const Referent& referent) const {
    const Vec2 right = referent.box.right;
    const Vec2 from = context_.coming_from.value_or(middle_of(context_.plan.stage));
    const bool right_first = dot(from - referent.box.at, right) > 0.001;
    return right_first ? std::vector<Vec2>{right, right * -1} : std::vector<Vec2>{right * -1, right};
  }

  std::vector<Area> along_sides(const Referent& referent, Band band) {
    const bool at_it = place_.word == Word::thing && !placing_.goal && !place_.measure;
    if (place_.word == Word::thing && placing_.goal && !place_.measure) band = configured("by", {0.3, 0.5, 0.9, false});
    if (place_.word == Word::against && placing_.furniture && !place_.measure) band = {0, 0, 0, true};
    const bool runs_on = place_.word == Word::by || place_.word == Word::near || place_.word == Word::from ||
                         (place_.word == Word::thing && placing_.goal);
    const double run_on = referent.is_wall || referent.is_portion || !runs_on ? 0 : past_corner;
    std::vector<Area> areas;
    for (Vec2 side : sides_of(referent)) {
      areas.push_back(strip(edge_of(referent), side, band, run_on));
      if (at_it && placing_.is_person) areas.back().faces = bearing_of(side * -1);
    }
    if (place_.word != Word::from || !referent.outward || !referent.piece.known()) return areas;
    // Inward is what somebody under the piece means, and the last thing anybody else does.
    const FloorBox whole = box_of(context_.plan.stage.pieces[static_cast<std::size_t>(referent.piece.index)]);
    const bool under_it = context_.coming_from && holds(outline_of(whole), *context_.coming_from, 0);
    areas.insert(under_it ? areas.begin() : areas.end(), measured_inward(referent, *referent.outward, band));
    return areas;
  }

  FloorBox edge_of(const Referent& referent) const {
    FloorBox box = referent.box;
    // A measure from a wall is good all over the room, not only before its own length.
    if (referent.is_wall && !referent.opening.known() && place_.measure) box.half_length = far_away;
    return box;
  }

  // `1 m from the west end of the Table`, for somebody under it.
  Area measured_inward(const Referent& referent, Vec2 outward, Band band) const {
    FloorBox edge = referent.box;
    edge.at = edge.at + outward * (2 * reach_of(edge, outward));
    Area area = strip(edge, outward * -1, band, far_away);
    // The strip counts from the far edge of the shifted box, which is the portion's outer edge.
    area.open_piece = referent.piece.index;
    return area;
  }

  std::vector<Area> within(const Referent& referent) {
    if (referent.kind != Referent::Kind::box || referent.is_wall) return beside(referent);
    if (referent.is_square) return {square(referent)};
    Area area;
    area.shape = outline_of(referent.box);
    area.middle = {referent.box.at};
    area.open_piece = referent.piece.index;
    area.piece = referent.piece;
    const bool sat = place_.word == Word::on && placing_.is_person && referent.piece.known();
    return {sat ? seated(referent, std::move(area)) : std::move(area)};
  }

  Area seated(const Referent& referent, Area area) {
    const Piece& piece = context_.plan.stage.pieces[static_cast<std::size_t>(referent.piece.index)];
    area.on_piece = true;
    area.exact = true;
    const FloorBox whole = box_of(piece);
    if (piece.seats > 0) {
      area.point = true;
      area.middle = {seat_of(referent, piece, whole)};
      if (piece.has_front) area.faces = piece.front;
      return area;
    }
    const Vec2 side = sides_of(referent).empty() ? Vec2{0, -1} : sides_of(referent).front();
    const double in = std::min(perched_in, reach_of(whole, side));
    area.middle = {referent.box.at + side * (reach_of(referent.box, side) - in)};
    area.faces = bearing_of(side);
    return area;
  }

  // Seats are counted from the piece's own left. The seat named, else the free one nearest, else the first.
  Vec2 seat_of(const Referent& referent, const Piece& piece, const FloorBox& whole) const {
    const auto seat_at = [&](int seat) {
      return whole.point(piece.length.value * ((seat - 0.5) / piece.seats - 0.5), 0);
    };
    if (const auto named = seat_in(place_.things.front().name.text)) {
      return seat_at(std::clamp(*named, 1, piece.seats));
    }
    const Vec2 from = referent.is_portion ? referent.box.at : context_.coming_from.value_or(seat_at(1));
    int best = 0;
    for (int seat = 1; seat <= piece.seats; ++seat) {
      if (taken(referent.piece, seat_at(seat), piece.length.value / piece.seats / 2)) continue;
      if (best == 0 || length(seat_at(seat) - from) < length(seat_at(best) - from) - 1e-6) best = seat;
    }
    return seat_at(std::max(best, 1));
  }

  bool taken(PieceId piece, Vec2 seat, double half_width) const {
    for (std::size_t i = 0; i < context_.people.size(); ++i) {
      const PersonState& state = context_.people[i];
      if (static_cast<int>(i) == context_.subject.index || !state.present || state.seat != piece) continue;
      if (length(state.at - seat) < half_width) return true;
    }
    return false;
  }

  std::vector<Area> before_or_behind(const Referent& referent) {
    if (!referent.has_front) {
      report("place.no-front", '`' + referent.words + "` has no front, so nothing is in front of it or behind it",
             "say `front south` where it is declared, or name a side: `north of " + referent.words + '`');
      return {};
    }
    const Vec2 way = place_.word == Word::behind ? referent.box.front * -1 : referent.box.front;
    const std::optional<Band> band = band_for(referent.kind == Referent::Kind::body);
    if (!band) return {};
    if (referent.kind == Referent::Kind::body) return {sector(referent.box.at, way, Degrees{30}, *band)};
    Area area = strip(referent.box, way, *band, 0);
    area.beyond_walls = referent.is_wall && place_.word == Word::behind;
    return {std::move(area)};
  }

  std::vector<Area> by_lens(const Referent& referent) {
    const LensFloor lens = floor_of(camera_of(place_.camera, context_, findings_));
    const Vec2 away = length(referent.box.at - lens.at) > 1e-6 ? unit(referent.box.at - lens.at) : lens.deeper;
    Vec2 way = away;
    if (place_.word == Word::camera_side_of) way = away * -1;
    if (place_.word == Word::camera_left_of) way = left_of(away);
    if (place_.word == Word::camera_right_of) way = left_of(away) * -1;
    const std::optional<Band> band = band_for(referent.kind == Referent::Kind::body);
    if (!band) return {};
    if (referent.kind != Referent::Kind::box) return {sector(referent.box.at, way, half_angle_of(place_.word), *band)};
    // Off a piece, the sides of the sector run on from the piece's own width.
    Area area = strip(referent.box, way, *band, band->middle * tangent(half_angle_of(place_.word)));
    area.middle = {referent.box.at + way * (reach_of(referent.box, way) + own_reach(way) + band->middle)};
    return {std::move(area)};
  }

  std::vector<Area> one_side(const Referent& referent, Vec2 way) {
    const std::optional<Band> band = band_for(referent.kind == Referent::Kind::body);
    if (!band) return {};
    if (referent.kind != Referent::Kind::box) return {sector(referent.box.at, way, Degrees{45}, *band)};
    return {strip(referent.box, way, *band, 0)};
  }

  std::vector<Area> by_house(const Referent& referent) {
    const auto& figures = context_.plan.settings.figures;
    const auto house = figures.find("house");
    if (house == figures.end()) {
      report("place.no-front", "upstage, downstage and stage left need a house to look at",
             "`default house south` above the first beat says where the audience sits");
      return {};
    }
    const Vec2 downstage = direction_of(Degrees{house->second});
    switch (place_.word) {
      case Word::upstage_of:
        return one_side(referent, downstage * -1);
      case Word::stage_left_of:
        return one_side(referent, left_of(downstage));
      case Word::stage_right_of:
        return one_side(referent, left_of(downstage) * -1);
      default:
        return one_side(referent, downstage);
    }
  }

  // Across the piece told, else across the one the other is by.
  std::vector<Area> opposite(const Referent& referent) {
    std::optional<Referent> table;
    if (place_.things.size() > 1) {
      table = referent_of(place_.things[1], context_, findings_);
      if (!table) return {};
    } else {
      table = piece_near(referent);
    }
    if (!table || table->kind != Referent::Kind::box) {
      report("place.no-place", '`' + referent.words + "` is by nothing one could stand across from",
             "name it: `opposite " + referent.words + " across the Table`");
      return {};
    }
    const FloorBox& box = table->box;
    const std::array<Vec2, 4> sides{box.front, box.front * -1, box.right, box.right * -1};
    Vec2 theirs = sides[0];
    const auto over = [&](Vec2 side) { return dot(referent.box.at - box.at, side) - reach_of(box, side); };
    for (Vec2 side : sides) {
      if (over(side) > over(theirs) + 1e-9) theirs = side;
    }
    const Vec2 ours = theirs * -1;
    Area area = strip(box, ours, {0.2, 0.3, 0.5, false}, past_corner);
    const Vec2 along = left_of(ours) * -1;
    const double across = std::clamp(dot(referent.box.at - box.at, along), -reach_of(box, along), reach_of(box, along));
    area.middle = {box.at + along * across + ours * (reach_of(box, ours) + own_reach(ours) + 0.3)};
    area.faces = bearing_of(theirs);
    area.piece = table->piece;
    return {std::move(area)};
  }

  std::optional<Referent> piece_near(const Referent& referent) const {
    std::optional<Referent> nearest;
    double least = 1.2;
    const std::vector<Piece>& pieces = context_.plan.stage.pieces;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      const double away = distance_to(box_of(pieces[i]), referent.box.at);
      if (away >= least || static_cast<int>(i) == referent.piece.index) continue;
      least = away;
      nearest.emplace();
      nearest->box = box_of(pieces[i]);
      nearest->piece = PieceId{static_cast<int>(i)};
    }
    return nearest;
  }

  std::vector<Area> past_wall(const Referent& referent, bool outside) {
    const std::optional<Band> band = band_for(false);
    if (!band) return {};
    if (!referent.is_wall) return outside ? beside(referent) : within(referent);
    Area area = strip(referent.box, referent.box.front * (outside ? -1 : 1), *band, outside ? past_corner : 0);
    area.beyond_walls = outside;
    return {std::move(area)};
  }

  // ---- Other words -----------------------------------------------------------------------------------------------

  std::vector<Area> at_coordinates() {
    if (place_.coordinates.size() < 2) return {};
    const Limits limits{"place on the floor", Dimension::length, -500, 500, "(3, 2) m"};
    const auto x = measured(place_.coordinates[0], limits, findings_);
    const auto y = measured(place_.coordinates[1], limits, findings_);
    if (!x || !y) return {};
    return {area_at({*x, *y}, 0.1)};
  }

  std::vector<Area> middle_of_room() const {
    const Outline ground = ground_of(context_.plan.stage, 0);
    const Vec2 middle = middle_of(context_.plan.stage);
    const double half_x = (ground[1].x - ground[0].x) / 6;
    const double half_y = (ground[2].y - ground[1].y) / 6;
    Area area;
    area.shape = outline_of(FloorBox{middle, {1, 0}, {0, 1}, half_x, half_y});
    area.middle = {middle};
    return {std::move(area)};
  }

  std::vector<Area> between_two() {
    if (place_.things.size() < 2) return {};
    const auto a = referent_of(place_.things[0], context_, findings_);
    const auto b = referent_of(place_.things[1], context_, findings_);
    if (!a || !b) return {};
    const Vec2 way = unit(b->box.at - a->box.at);
    Vec2 from = a->box.at + way * reach_of(a->box, way);
    Vec2 to = b->box.at - way * reach_of(b->box, way);
    if (dot(to - from, way) <= 0) {
      from = a->box.at;
      to = b->box.at;
    }
    const Vec2 square = left_of(length(way) > 0 ? way : Vec2{0, 1});
    const Vec2 first = mix(from, to, 1.0 / 3) - square * 0.3;
    const Vec2 last = mix(from, to, 2.0 / 3) + square * 0.3;
    const Vec2 along = length(way) > 0 ? way * dot(last - first, way) : Vec2{0.1, 0};
    Area area;
    area.shape = {first, first + along, last, last - along};
    area.middle = {mix(from, to, 0.5)};
    area.longer = length(to - from) / 3 > 0.6 ? unit(along) : square;
    return {std::move(area)};
  }

  // North of two people: that side of the line through them.
  std::vector<Area> side_of_two() {
    const auto a = referent_of(place_.things[0], context_, findings_);
    const auto b = referent_of(place_.things[1], context_, findings_);
    if (!a || !b) return {};
    const Vec2 wanted = direction_of(place_.compass.value_or(Compass::south));
    Vec2 out = left_of(unit(b->box.at - a->box.at));
    if (length(out) < 0.5) out = wanted;
    if (dot(out, wanted) < 0) out = out * -1;
    const std::optional<Band> band = band_for(true);
    if (!band) return {};
    const FloorBox line{mix(a->box.at, b->box.at, 0.5), left_of(out) * -1, out, length(b->box.at - a->box.at) / 2, 0};
    return {strip(line, out, *band, past_corner)};
  }

  // ---- Moves by a measure ----------------------------------------------------------------------------------------

  std::vector<Area> moved() {
    const std::optional<Vec2> from = context_.coming_from;
    const bool needs_start = place_.measure || place_.word != Word::toward || place_.side;
    if (place_.word == Word::bearing && !place_.measure) return third_of_room();
    if (!from && needs_start) {
      report("place.no-place", '`' + text_of(place_) + "` needs somewhere to start from",
             "place them first, or say where: `by the Table`");
      return {};
    }
    if (place_.word == Word::toward && !place_.measure && !place_.side) return toward_all_the_way();
    const std::optional<Vec2> way = way_of_move(*from);
    if (!way) return {};
    double far = one_move;
    if (place_.measure) {
      const auto told = measured(*place_.measure, distances, findings_, placing_.step);
      if (!told) return {};
      far = told->preferred;
    }
    return {area_at(*from + *way * far, 0.1)};
  }

  std::vector<Area> toward_all_the_way() {
    if (place_.things.empty()) return {};
    Place goal = place_;
    goal.word = Word::thing;
    Placing placing = placing_;
    placing.goal = true;
    return Phrase(goal, context_, placing, findings_).areas();
  }

  std::optional<Vec2> way_of_move(Vec2 from) {
    const LensFloor lens = floor_of(camera_of(place_.camera, context_, findings_));
    switch (place_.word) {
      case Word::deeper:
        return lens.deeper;
      case Word::bearing:
        return direction_of(place_.compass.value_or(Compass::north));
      case Word::forward:
      case Word::back: {
        const auto index = static_cast<std::size_t>(context_.subject.index);
        const bool known = context_.subject.known() && index < context_.people.size();
        const Vec2 ahead = known ? direction_of(context_.people[index].facing) : lens.deeper;
        return place_.word == Word::forward ? ahead : ahead * -1;
      }
      default:
        break;
    }
    if (place_.side) return lens.right * (*place_.side == Side::left ? -1 : 1);
    if (place_.things.empty()) return std::nullopt;
    const auto referent = referent_of(place_.things.front(), context_, findings_);
    if (!referent) return std::nullopt;
    const Vec2 way = unit(referent->box.at - from);
    return place_.word == Word::away_from ? way * -1 : way;
  }

  std::vector<Area> third_of_room() const {
    const Vec2 way = direction_of(place_.compass.value_or(Compass::north));
    const Outline ground = ground_of(context_.plan.stage, 0);
    double least = dot(way, ground[0]);
    double greatest = least;
    for (Vec2 corner : ground) {
      least = std::min(least, dot(way, corner));
      greatest = std::max(greatest, dot(way, corner));
    }
    Area area;
    area.shape = clipped(ground, {way * -1, -mix(least, greatest, 2.0 / 3)});
    area.middle = {centroid_of(area.shape)};
    return {std::move(area)};
  }

  const Place& place_;
  const PlaceContext& context_;
  const Placing& placing_;
  Findings& findings_;
};

}  // namespace

std::vector<Area> areas_of(const Place& place, const PlaceContext& context, const Placing& placing,
                           Findings& findings) {
  return Phrase(place, context, placing, findings).areas();
}

}  // namespace lensward
