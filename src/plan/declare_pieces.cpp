#include <algorithm>
#include <cmath>

#include "base/angle.h"
#include "base/quantity_text.h"
#include "plan/areas.h"
#include "plan/declaring.h"
#include "plan/floor.h"
#include "plan/kinds.h"
#include "plan/settling.h"

namespace lensward {
namespace {

const Limits lengths{"length of a piece", Dimension::length, 0.02, 60, "measures 1.8 m by 0.8 m by 0.75 m"};
const Limits heights{"height of a piece", Dimension::length, 0, 30, "height 0.75 m"};
const Limits hangings{"height a cloth hangs to", Dimension::length, 0, 5, "hangs to 30 cm"};
const Limits seat_counts{"number of seats", Dimension::count, 0, 40, "seats 3"};

// What is not placed yet stands so far off that it is in nobody's way.
constexpr Vec2 not_yet_placed{10000, 10000};
// How far a piece that belongs along a wall may be drawn to it.
constexpr double wall_pull = 1.6;
constexpr double touching = 0.06;

std::string coordinates(Vec2 at) { return "at (" + number(at.x, 2) + ", " + number(at.y, 2) + ") m"; }

// ---- What a piece is -----------------------------------------------------------------------------------------------

void set_kind(Piece& piece, PieceKind kind) {
  const KindOfPiece& row = kind_of(kind);
  piece.kind = kind;
  piece.length = row.length;
  piece.depth = row.depth;
  piece.height = row.height;
  piece.seats = row.seats;
  piece.seat_height = row.seat_height.value > 0 ? row.seat_height : Metres{0.45};
  piece.open_underneath = row.open_underneath;
  piece.hides = row.hides;
  piece.see_through = row.see_through;
}

void read_kind(const Declared& declared, Piece& piece, Declaring& declaring) {
  if (const auto* told = find<PieceClause>(*declared.clauses)) return set_kind(piece, told->kind);
  if (const auto spelt = kind_in(piece.name)) return set_kind(piece, *spelt);
  set_kind(piece, PieceKind::box);
  const bool sized = find<DimsClause>(*declared.clauses) != nullptr;
  assume(declaring,
         '`' + piece.name + "` names no kind of furniture, so it is a box" + (sized ? "" : " of 1 m each way"),
         Pin{"furniture", piece.name, "table"}, declared.line);
}

bool read_sizes(const Clauses& clauses, Piece& piece, Findings& findings) {
  bool told = false;
  for (const Clause& clause : clauses) {
    const auto* dims = std::get_if<DimsClause>(&clause.body);
    if (dims == nullptr || dims->gate) continue;
    Metres* const sizes[] = {&piece.length, &piece.depth, &piece.height};
    for (std::size_t i = 0; i < dims->figures.size() && i < 3; ++i) {
      if (const auto size = measured(dims->figures[i], i == 2 ? heights : lengths, findings)) *sizes[i] = Metres{*size};
    }
    told = true;
  }
  if (const auto across = measured_in(clauses, "across", lengths, findings)) {
    piece.length = Metres{*across};
    piece.depth = Metres{*across};
    told = true;
  }
  if (const auto width = measured_in(clauses, "width", lengths, findings)) piece.length = Metres{*width};
  if (const auto height = measured_in(clauses, "height", heights, findings)) piece.height = Metres{*height};
  return told;
}

void read_piece(const Declared& declared, Piece& piece, Declaring& declaring, std::vector<std::string>& by_kind) {
  const Clauses& clauses = *declared.clauses;
  read_kind(declared, piece, declaring);
  const bool sat_on_top = piece.seats > 0 && piece.seat_height == piece.height;
  if (piece.kind == PieceKind::pillar) piece.height = declaring.plan.stage.room.height;
  const bool of_a_kind = find<PieceClause>(clauses) != nullptr || kind_in(piece.name).has_value();
  if (!read_sizes(clauses, piece, declaring.findings) && of_a_kind) by_kind.push_back(piece.name);
  if (const auto seats = measured_in(clauses, "seats", seat_counts, declaring.findings)) {
    piece.seats = static_cast<int>(*seats);
  }
  if (sat_on_top) piece.seat_height = piece.height;
  piece.seat_height = std::min(piece.seat_height, piece.height);
  if (trait_in(clauses, "open underneath") != nullptr) piece.open_underneath = true;
  piece.noisy = trait_in(clauses, "noisy") != nullptr;
  if (trait_in(clauses, "glass") != nullptr) {
    piece.see_through = true;
    piece.hides = false;
  }
  if (const auto* hangs = find<HangsClause>(clauses)) {
    if (const auto to = measured(hangs->to, hangings, declaring.findings)) piece.hangs_to = Metres{to->preferred};
  }
  piece.at = not_yet_placed;
}

// ---- Fronts --------------------------------------------------------------------------------------------------------

std::optional<Degrees> front_told(const Clauses& clauses) {
  const auto* front = find<FrontClause>(clauses);
  return front ? std::optional{Degrees{45.0 * static_cast<int>(front->compass)}} : std::nullopt;
}

// The wall a piece stands with its back to, were it turned so.
const Wall* wall_at(const Stage& stage, Vec2 at, double half_depth) {
  for (const Wall& wall : stage.walls) {
    if (length(wall.to - wall.from) < 0.1) continue;
    const Vec2 nearest = nearest_on(wall.from, wall.to, at);
    if (length(nearest - at) <= half_depth + touching) return &wall;
  }
  return nullptr;
}

// Toward the middle of the room, square to its walls; nothing for a piece that stands in the middle.
std::optional<Degrees> front_to_middle(const Stage& stage, Vec2 at) {
  const Vec2 way = middle_of(stage) - at;
  if (std::max(std::fabs(way.x), std::fabs(way.y)) < 0.4) return std::nullopt;
  if (std::fabs(way.x) > std::fabs(way.y) + 0.001) return Degrees{way.x > 0 ? 90.0 : 270.0};
  return Degrees{way.y > 0 ? 0.0 : 180.0};
}

bool is_against_wall(const Place& place) {
  if (place.word != Place::Word::against || place.things.empty()) return false;
  return place.things.front().kind == Thing::Kind::wall || place.things.front().kind == Thing::Kind::named;
}

// ---- Places --------------------------------------------------------------------------------------------------------

class PieceSettler {
 public:
  PieceSettler(Declaring& declaring, const Declared& declared, Piece& piece)
      : declaring_(declaring), declared_(declared), piece_(piece), places_(places_in(*declared.clauses)) {}

  void run() {
    if (piece_.kind == PieceKind::cloth && hang()) return;
    const std::optional<Degrees> told = front_told(*declared_.clauses);
    piece_.has_front = told.has_value();
    piece_.front = told.value_or(front_from_wall().value_or(Degrees{180}));
    if (places_.empty()) {
      place_freely();
    } else if (auto mark = settled()) {
      take(*mark);
    } else {
      piece_.at = middle_of(declaring_.plan.stage);
      piece_.origin = Origin::assumed;
    }
    if (!told) find_front();
    check_inside();
  }

 private:
  Placing placing() const {
    Placing placing;
    Piece turned = piece_;
    turned.at = {};
    placing.furniture = box_of(turned);
    placing.eyes = Metres{piece_.height.value / 2};
    return placing;
  }

  // The bearing of a wall the line names with `against`.
  std::optional<Degrees> front_from_wall() {
    for (const Place& place : places_) {
      if (!is_against_wall(place)) continue;
      Findings unheard;
      const auto referent = referent_of(place.things.front(), context_of(declaring_), unheard);
      if (referent && referent->is_wall) return bearing_of(referent->box.front);
    }
    return std::nullopt;
  }

  Phrases phrases_of(const std::vector<Place>& places, Findings& findings) {
    Phrases phrases{{}, "", declared_.line};
    const PlaceContext context = context_of(declaring_);
    for (const Place& place : places) {
      phrases.phrases.push_back(areas_of(place, context, placing(), findings));
      phrases.words += (phrases.words.empty() ? "" : ", ") + text_of(place);
    }
    return phrases;
  }

  std::optional<Mark2d> settle_with(const std::vector<Place>& places, Findings& findings) {
    const Phrases phrases = phrases_of(places, findings);
    for (const auto& areas : phrases.phrases) {
      if (areas.empty()) return std::nullopt;
    }
    return settle_phrases(phrases, declaring_.plan.stage, placing(), {}, findings);
  }

  std::optional<Mark2d> settled() {
    auto mark = settle_with(places_, declaring_.findings);
    if (!mark || mark->origin != Origin::settled || !kind_of(piece_.kind).to_the_wall) return mark;
    auto drawn = against_nearest_wall(*mark);
    return drawn ? drawn : mark;
  }

  // A stove that is told `deep, frame left` stands against the wall there, not out in the room.
  std::optional<Mark2d> against_nearest_wall(const Mark2d& mark) {
    const Wall* nearest = nullptr;
    double least = wall_pull;
    for (const Wall& wall : declaring_.plan.stage.walls) {
      const double away = length(nearest_on(wall.from, wall.to, mark.at) - mark.at);
      if (wall.wild || away >= least - 1e-6) continue;
      least = away;
      nearest = &wall;
    }
    if (nearest == nullptr) return std::nullopt;
    const Degrees front_before = piece_.front;
    if (!front_told(*declared_.clauses)) piece_.front = bearing_of(left_of(unit(nearest->to - nearest->from)));
    std::vector<Place> places = places_;
    Place against;
    against.word = Place::Word::against;
    against.span = declared_.line;
    Thing wall;
    wall.name = {nearest->name, declared_.line};
    wall.span = declared_.line;
    against.things.push_back(wall);
    places.push_back(against);
    Findings unheard;
    auto drawn = settle_with(places, unheard);
    if (!drawn) {
      piece_.front = front_before;
      return std::nullopt;
    }
    drawn->origin = Origin::settled;
    return drawn;
  }

  void place_freely() {
    Place centre;
    centre.word = Place::Word::centre;
    Findings unheard;
    auto mark = settle_with({centre}, unheard);
    if (!mark) {
      Phrases anywhere{{{Area{}}}, "the room", declared_.line};
      anywhere.phrases.front().front().shape = ground_of(declaring_.plan.stage, 0);
      anywhere.phrases.front().front().middle = {middle_of(declaring_.plan.stage)};
      mark = settle_phrases(anywhere, declaring_.plan.stage, placing(), {}, unheard);
    }
    piece_.at = mark ? mark->at : middle_of(declaring_.plan.stage);
    piece_.origin = Origin::assumed;
    assume(declaring_, "no place told for `" + piece_.name + "`, so " + coordinates(piece_.at),
           Pin{"furniture", piece_.name, coordinates(piece_.at)}, declared_.line);
  }

  void take(const Mark2d& mark) {
    piece_.at = mark.at;
    piece_.origin = mark.origin;
    if (mark.origin != Origin::settled) return;
    Finding& finding = report(declaring_, "place.settled", declared_.line,
                              '`' + piece_.name + "` comes to " + coordinates(piece_.at).substr(3),
                              "to pin it: `" + coordinates(piece_.at) + '`');
    finding.severity = Severity::remark;
  }

  // Grammar decision 25: away from the wall it touches, else toward the middle of the room, else none.
  void find_front() {
    const Stage& stage = declaring_.plan.stage;
    if (const auto from_wall = front_from_wall()) {
      piece_.front = *from_wall;
      piece_.has_front = true;
      return;
    }
    const double half = std::min(piece_.depth.value, piece_.length.value) / 2;
    if (const Wall* wall = wall_at(stage, piece_.at, half)) {
      piece_.front = bearing_of(left_of(unit(wall->to - wall->from)));
      piece_.has_front = true;
      return;
    }
    const auto to_middle = front_to_middle(stage, piece_.at);
    piece_.has_front = to_middle.has_value();
    // A settled place was found for a piece lying east and west, and stays good only so.
    const bool fixed_turn = piece_.origin == Origin::settled;
    if (to_middle && !fixed_turn) piece_.front = *to_middle;
    if (to_middle && fixed_turn) piece_.front = middle_of(stage).y > piece_.at.y + 0.001 ? Degrees{0} : Degrees{180};
  }

  // A cloth on a side of something hangs there: as long as the side, as high as the thing.
  bool hang() {
    for (const Place& place : places_) {
      if (place.word != Place::Word::on || place.things.empty()) continue;
      const auto referent = referent_of(place.things.front(), context_of(declaring_), declaring_.findings);
      if (!referent || !referent->piece.known()) continue;
      const Piece& under = declaring_.plan.stage.pieces[static_cast<std::size_t>(referent->piece.index)];
      const FloorBox whole = box_of(under);
      const Vec2 out = referent->outward.value_or(whole.front);
      const Vec2 along = left_of(out);
      piece_.front = bearing_of(out);
      piece_.has_front = true;
      piece_.length = Metres{2 * reach_of(whole, along)};
      piece_.height = under.height;
      piece_.at = whole.at + out * (reach_of(whole, out) + piece_.depth.value / 2);
      piece_.origin = Origin::bound;
      return true;
    }
    return false;
  }

  void check_inside() {
    const Outline& room = declaring_.plan.stage.room.outline;
    if (room.empty() || encloses(room, piece_.at)) return;
    report(declaring_, "place.outside-set", declared_.line, '`' + piece_.name + "` stands beyond a wall",
           "`furniture " + piece_.name + ", centre` puts it in the room");
  }

  Declaring& declaring_;
  const Declared& declared_;
  Piece& piece_;
  std::vector<Place> places_;
};

// ---- Order ---------------------------------------------------------------------------------------------------------

bool rests_on_unplaced(const Declared& declared, const Declaring& declaring, const std::vector<bool>& placed) {
  for (const Place& place : places_in(*declared.clauses)) {
    for (const Thing& thing : place.things) {
      const std::optional<Named> found = declaring.names.find(thing.name.text);
      const PieceId* piece = found ? std::get_if<PieceId>(&*found) : nullptr;
      if (piece != nullptr && !placed[static_cast<std::size_t>(piece->index)]) return true;
    }
  }
  return false;
}

void report_circle(const Declared& declared, Declaring& declaring) {
  report(declaring, "place.circle", declared.line,
         '`' + declared.name.text + "` is placed by something that is placed by it",
         "give one of them a measure: `at (3, 2) m`");
}

void settle_pieces(const std::vector<const Declared*>& pieces, Declaring& declaring) {
  std::vector<bool> placed(declaring.plan.stage.pieces.size());
  std::vector<const Declared*> waiting = pieces;
  while (!waiting.empty()) {
    auto next = std::find_if(waiting.begin(), waiting.end(), [&](const Declared* declared) {
      return !rests_on_unplaced(*declared, declaring, placed);
    });
    if (next == waiting.end()) {
      next = waiting.begin();
      report_circle(**next, declaring);
    }
    const auto index = static_cast<std::size_t>(std::get<PieceId>((*next)->what).index);
    PieceSettler(declaring, **next, declaring.plan.stage.pieces[index]).run();
    placed[index] = true;
    waiting.erase(next);
  }
}

void tell_sizes(const std::vector<std::string>& by_kind, Declaring& declaring) {
  if (by_kind.empty()) return;
  std::string text;
  Pin pin;
  Span at;
  for (std::size_t i = 0; i < by_kind.size(); ++i) {
    for (const Piece& piece : declaring.plan.stage.pieces) {
      if (piece.name != by_kind[i]) continue;
      const std::string sizes =
          number(piece.length.value, 2) + " by " + number(piece.depth.value, 2) + " by " + text_of(piece.height);
      if (i == 0) {
        at = piece.declared;
        pin = {"furniture", piece.name,
               "measures " + text_of(piece.length) + " by " + text_of(piece.depth) + " by " + text_of(piece.height)};
      }
      text += (i == 0 ? "" : i + 1 == by_kind.size() ? " and " : ", ") + ('`' + piece.name + "` " + sizes);
    }
  }
  assume(declaring, "no sizes told, so by kind (length, depth, height): " + text, pin, at);
}

}  // namespace

void declare_pieces(Declaring& declaring) {
  std::vector<const Declared*> pieces;
  std::vector<std::string> by_kind;
  for (const Declared& declared : declaring.declared) {
    const auto* id = std::get_if<PieceId>(&declared.what);
    if (id == nullptr) continue;
    read_piece(declared, declaring.plan.stage.pieces[static_cast<std::size_t>(id->index)], declaring, by_kind);
    pieces.push_back(&declared);
  }
  settle_pieces(pieces, declaring);
  tell_sizes(by_kind, declaring);
}

void declare_spots(Declaring& declaring) {
  for (const Statement& statement : declaring.script.statements) {
    const auto* heading = std::get_if<HeadingLine>(&statement.body);
    const bool below =
        heading != nullptr && (heading->kind == HeadingLine::Kind::opening || heading->kind == HeadingLine::Kind::beat);
    if (below) break;
    const auto* mark = std::get_if<MarkLine>(&statement.body);
    if (mark == nullptr) continue;
    Spot spot{mark->name.text, middle_of(declaring.plan.stage), statement.span};
    std::vector<Place> places = places_in(mark->clauses);
    if (mark->at) places.insert(places.begin(), *mark->at);
    const PlaceContext context = context_of(declaring);
    Phrases phrases{{}, "", statement.span};
    bool whole = !places.empty();
    for (const Place& place : places) {
      phrases.phrases.push_back(areas_of(place, context, Placing{}, declaring.findings));
      phrases.words += (phrases.words.empty() ? "" : ", ") + text_of(place);
      whole = whole && !phrases.phrases.back().empty();
    }
    if (!whole) continue;
    if (const auto at = settle_phrases(phrases, declaring.plan.stage, Placing{}, {}, declaring.findings)) {
      spot.at = at->at;
    }
    if (declaring.names.declare(mark->name, Id<Spot>{static_cast<int>(declaring.plan.stage.spots.size())})) {
      declaring.plan.stage.spots.push_back(spot);
    } else {
      report(declaring, "name.taken", mark->name.span,
             '`' + mark->name.text + "` is declared twice; one name is one thing", "call one of them otherwise");
    }
  }
  for (const Declared& declared : declaring.declared) {
    const auto* id = std::get_if<Id<Spot>>(&declared.what);
    if (id == nullptr) continue;
    Spot& spot = declaring.plan.stage.spots[static_cast<std::size_t>(id->index)];
    spot.at = middle_of(declaring.plan.stage);
    for (const Place& place : places_in(*declared.clauses)) {
      const auto target = target_of(place, context_of(declaring), declaring.findings);
      if (target && target->kind == Target::Kind::point) spot.at = floor_of(target->point);
    }
  }
}

}  // namespace lensward
