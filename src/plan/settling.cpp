#include "plan/settling.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/quantity_text.h"
#include "figure/proportions.h"
#include "plan/free_floor.h"

namespace lensward {
namespace {

// Half a chest's depth with clothes (ANSUR II: 254 mm deep): how near to furniture one stands at the least.
constexpr double least_body = 0.2;
constexpr double exact_weight = 1e6;
constexpr double centre_weight = 1e-4;
constexpr std::size_t most_choices = 256;

// One area out of each phrase.
struct Choice {
  std::vector<std::size_t> picks;
  std::size_t sum = 0;
};

// Every combination, those with the likeliest areas first; of equal ones the earlier phrase keeps its likeliest.
std::vector<Choice> choices_of(const std::vector<std::vector<Area>>& phrases) {
  std::vector<Choice> choices{{}};
  for (const std::vector<Area>& phrase : phrases) {
    std::vector<Choice> longer;
    for (const Choice& choice : choices) {
      for (std::size_t i = 0; i < phrase.size() && longer.size() < most_choices; ++i) {
        Choice next = choice;
        next.picks.push_back(i);
        next.sum += i;
        longer.push_back(std::move(next));
      }
    }
    choices = std::move(longer);
  }
  std::stable_sort(choices.begin(), choices.end(), [](const Choice& a, const Choice& b) { return a.sum < b.sum; });
  return choices;
}

struct Met {
  Outline shape;
  std::vector<const Area*> areas;
  std::vector<Wish> wishes;
  bool all_exact = true, any_point = false, beyond_walls = false;
  int open_piece = -1;
  Vec2 longer;
};

Met meet(const std::vector<std::vector<Area>>& phrases, const Choice& choice, const Stage& stage) {
  Met met;
  for (std::size_t i = 0; i < choice.picks.size(); ++i) {
    const Area& area = phrases[i][choice.picks[i]];
    met.shape = i == 0 ? area.shape : meeting(met.shape, area.shape);
    met.areas.push_back(&area);
    met.wishes.push_back({area.middle, area.exact ? exact_weight : 1});
    met.all_exact = met.all_exact && area.exact;
    met.any_point = met.any_point || area.point;
    met.beyond_walls = met.beyond_walls || area.beyond_walls;
    if (area.open_piece >= 0) met.open_piece = area.open_piece;
    if (length(met.longer) < 0.5) met.longer = area.longer;
  }
  const Outline& room = stage.room.outline;
  const bool bounded = !met.beyond_walls && !met.any_point && is_convex(room);
  if (bounded) met.shape = meeting(met.shape, room);
  met.wishes.push_back({{centroid_of(met.shape)}, centre_weight});
  return met;
}

FreeFloor::Subject subject_of(const Placing& placing, const Met& met, double body) {
  FreeFloor::Subject subject;
  subject.body = body;
  subject.furniture = placing.furniture;
  subject.ignored_piece = met.open_piece;
  subject.beyond_walls = met.beyond_walls;
  return subject;
}

// Marks are whole centimetres where that is as good: easier to tape, and the same on every machine. Of the four whole
// points round a mark the nearest free one is taken.
Vec2 rounded(Vec2 point, const Outline& shape, const FreeFloor& floor, double grain) {
  std::optional<Vec2> nearest;
  for (double x : {std::floor(point.x / grain), std::ceil(point.x / grain)}) {
    for (double y : {std::floor(point.y / grain), std::ceil(point.y / grain)}) {
      const Vec2 near{x * grain, y * grain};
      if (!holds(shape, near, 1e-6) || !floor.allows(near)) continue;
      if (!nearest || length(near - point) < length(*nearest - point) - grain * 1e-3) nearest = near;
    }
  }
  return nearest.value_or(point);
}

Vec2 rounded(Vec2 point, const Outline& shape, const FreeFloor& floor, bool exact) {
  const Vec2 fine = rounded(point, shape, floor, 0.001);
  return exact ? fine : rounded(fine, shape, floor, 0.01);
}

Vec2 longer_way(const Met& met) {
  if (length(met.longer) > 0.5) return met.longer;
  double west = met.shape.front().x, east = west, south = met.shape.front().y, north = south;
  for (Vec2 corner : met.shape) {
    west = std::min(west, corner.x);
    east = std::max(east, corner.x);
    south = std::min(south, corner.y);
    north = std::max(north, corner.y);
  }
  return east - west >= north - south ? Vec2{1, 0} : Vec2{0, 1};
}

// Several subjects stand apart along the longer way, west to east or south to north, as far as the area goes.
Vec2 spread_target(const Met& met, Vec2 middle, const Spread& spread) {
  Vec2 way = longer_way(met);
  if (way.x < -1e-6 || (std::fabs(way.x) <= 1e-6 && way.y < 0)) way = way * -1;
  double least = dot(way, met.shape.front());
  double greatest = least;
  for (Vec2 corner : met.shape) {
    least = std::min(least, dot(way, corner));
    greatest = std::max(greatest, dot(way, corner));
  }
  const double inset = std::min(0.05, (greatest - least) / 4);
  least += inset;
  greatest -= inset;
  const double gaps = spread.count - 1;
  const double apart = met.any_point ? spread.apart : std::min(spread.apart, (greatest - least) / gaps);
  double first = dot(way, middle) - apart * gaps / 2;
  if (!met.any_point) first = std::clamp(first, least, std::max(least, greatest - apart * gaps));
  return middle + way * (first + apart * spread.index - dot(way, middle));
}

std::optional<Vec2> best_free(const Met& met, const FreeFloor& floor, const Spread& spread) {
  const std::optional<Vec2> middle = floor.best_point(met.shape, met.wishes);
  if (!middle || spread.count < 2) return middle;
  const Vec2 target = spread_target(met, *middle, spread);
  Outline shape = met.shape;
  if (met.any_point) shape = outline_of(FloorBox{target, {1, 0}, {0, 1}, 0.5, 0.5});
  return floor.best_point(shape, {{{target}, 1}});
}

void report(const char* rule, const Phrases& phrases, std::string message, std::string on_set, std::string next_step,
            Findings& findings) {
  Finding finding;
  finding.rule = rule;
  finding.where = phrases.span;
  finding.message = std::move(message);
  finding.on_set = std::move(on_set);
  finding.next_step = std::move(next_step);
  findings.add(std::move(finding));
}

std::string coordinates(Vec2 point) { return "at (" + number(point.x, 2) + ", " + number(point.y, 2) + ") m"; }

// The nearest free floor to somewhere, for a line that could be typed.
std::string a_line_that_works(const Outline& shape, const Stage& stage, const Placing& placing) {
  const Vec2 wished = centroid_of(shape);
  FreeFloor::Subject subject;
  subject.furniture = placing.furniture;
  const FreeFloor floor(stage, subject);
  const std::vector<Wish> wishes{{{wished}, 1}};
  const Outline ground = ground_of(stage, 0);
  const auto point = floor.best_point(ground, wishes);
  return '`' + coordinates(rounded(point.value_or(wished), ground, floor, false)) + "` is free floor close by";
}

void report_unmet(const Phrases& phrases, const std::optional<Met>& met, const Stage& stage, const Placing& placing,
                  Findings& findings) {
  if (met) {
    report("place.no-place", phrases, '`' + phrases.words + "` leaves no free floor to stand on",
           "furniture or a wall takes all of it", a_line_that_works(met->shape, stage, placing), findings);
    return;
  }
  const Outline& first = phrases.phrases.front().front().shape;
  // One phrase meets nothing when all of its place lies beyond a wall.
  if (phrases.phrases.size() == 1) {
    report("place.no-place", phrases, "there is no floor `" + phrases.words + "` within the walls",
           "what it is measured from stands too near a wall",
           "move that into the room, or pin the mark: " + a_line_that_works(first, stage, placing), findings);
    return;
  }
  report("place.no-meeting", phrases, "the places of `" + phrases.words + "` have no floor in common",
         "one body cannot stand in two places",
         "leave one out, or pin the mark: " + a_line_that_works(first, stage, placing), findings);
}

// The wall that would go through a body at the point: doors let it through, and a wall taken out is not there. As with
// furniture, a hand's breadth less than half a chest is not called a fault.
const Wall* wall_in(const Stage& stage, Vec2 at) {
  constexpr double nearest_to_a_wall = least_body - 0.08;
  const auto in_a_door = [at](const Opening& opening) {
    return opening.kind == Opening::Kind::door && length(at - opening.middle) < opening.width.value / 2;
  };
  if (std::any_of(stage.openings.begin(), stage.openings.end(), in_a_door)) return nullptr;
  const auto through = std::find_if(stage.walls.begin(), stage.walls.end(), [at](const Wall& wall) {
    return !wall.wild && length(at - nearest_on(wall.from, wall.to, at)) < nearest_to_a_wall;
  });
  return through == stage.walls.end() ? nullptr : &*through;
}

// What a mark said to the point lies in: a piece, a wall, or the ground beyond one.
void check_point(const Phrases& phrases, const Met& met, Vec2 at, const Stage& stage, const Placing& placing,
                 Findings& findings) {
  const Outline near = outline_of(FloorBox{at, {1, 0}, {0, 1}, 0.05, 0.05});
  for (std::size_t i = 0; i < stage.pieces.size() && !placing.furniture; ++i) {
    const Piece& piece = stage.pieces[i];
    if (static_cast<int>(i) == met.open_piece || !stands_in_the_way(piece)) continue;
    // Nobody is measured to the millimetre: a body may overlap an edge by a hand's breadth.
    FloorBox box = box_of(piece);
    box.half_length = std::max(0.01, box.half_length - 0.08);
    box.half_depth = std::max(0.01, box.half_depth - 0.08);
    if (!holds(outline_of(box), at, -1e-6)) continue;
    report("place.in-the-way", phrases, "the mark `" + phrases.words + "` lies inside `" + piece.name + '`',
           "nobody can stand where it stands", a_line_that_works(near, stage, placing), findings);
    return;
  }
  if (met.beyond_walls || stage.room.outline.empty()) return;
  if (const Wall* wall = wall_in(stage, at)) {
    report("place.in-the-way", phrases, "the mark `" + phrases.words + "` lies inside the wall `" + wall->name + '`',
           "half of the body would be in the wall", a_line_that_works(near, stage, placing), findings);
    return;
  }
  if (encloses(stage.room.outline, at)) return;
  report("place.outside-set", phrases, "the mark `" + phrases.words + "` lies beyond a wall", "the room ends before it",
         a_line_that_works(near, stage, placing), findings);
}

Mark2d mark_of(const Met& met, Vec2 at, bool reached) {
  Mark2d mark;
  mark.at = at;
  mark.origin = met.all_exact && reached ? Origin::bound : Origin::settled;
  if (mark.origin == Origin::settled) mark.area = met.shape;
  for (const Area* area : met.areas) mark.chosen.push_back(*area);
  return mark;
}

std::optional<Mark2d> at_the_point(const Phrases& phrases, const Met& met, const Stage& stage, const Placing& placing,
                                   const Spread& spread, Findings& findings) {
  Vec2 at = best_anywhere(met.wishes);
  // Said to the point, the mark is the point and not near it.
  for (const Area* area : met.areas) {
    if (area->point) at = area->middle.front();
  }
  if (spread.count > 1) at = spread_target(met, at, spread);
  const bool seated = std::any_of(met.areas.begin(), met.areas.end(), [](const Area* area) { return area->on_piece; });
  if (!seated && placing.is_person) check_point(phrases, met, at, stage, placing, findings);
  Mark2d mark = mark_of(met, at, true);
  mark.origin = spread.count > 1 ? Origin::settled : seated ? Origin::bound : Origin::said;
  mark.area.clear();
  return mark;
}

}  // namespace

std::optional<Mark2d> settle_phrases(const Phrases& phrases, const Stage& stage, const Placing& placing,
                                     const Spread& spread, Findings& findings) {
  std::optional<Met> nearly;
  for (const Choice& choice : choices_of(phrases.phrases)) {
    const Met met = meet(phrases.phrases, choice, stage);
    if (met.shape.empty()) continue;
    if (met.any_point) return at_the_point(phrases, met, stage, placing, spread, findings);
    for (double body : {body_radius(placing.stature).value, least_body}) {
      const FreeFloor floor(stage, subject_of(placing, met, body));
      const std::optional<Vec2> best = best_free(met, floor, spread);
      if (!best) continue;
      const Vec2 at = rounded(*best, met.shape, floor, met.all_exact);
      // A composition is met when the mark is within a centimetre of where the words meet.
      const bool reached = length(at - best_anywhere(met.wishes)) < 0.01 && spread.count < 2;
      return mark_of(met, at, reached);
    }
    if (!nearly) nearly = met;
  }
  report_unmet(phrases, nearly, stage, placing, findings);
  return std::nullopt;
}

}  // namespace lensward
