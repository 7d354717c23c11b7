#include "rules/safe_part.h"

#include <algorithm>

#include "base/angle.h"
#include "base/quantity_text.h"

namespace lensward {
namespace {

// A strip narrower than this is no place to send anybody.
constexpr double narrowest = 0.15;

bool holds_at(const PointTried& point) { return point.result != Verdict::Result::fails; }

struct Direction {
  const char* words;
  Vec2 toward;
};

std::vector<Direction> directions(const Checked& checked, Moment moment) {
  const CameraId camera = on_air(checked.plan, moment);
  const Vec2 deeper = direction_of(camera_at(checked.plan, camera, moment).pan), left = left_of(deeper);
  return {{"frame right", left * -1}, {"frame left", left}, {"deepest", deeper}, {"foremost", deeper * -1}};
}

std::string measure_words(double metres) {
  return metres < 1 ? number(metres * 100, 0) + " cm" : text_of(Metres{metres});
}

const Mark& mark_of(const Checked& checked, const PlaceTried& place) {
  return checked.plan.marks[static_cast<std::size_t>(place.mark)];
}

// The strip of a place beyond every point that fails, in one direction.
struct Part {
  const char* direction = "";
  bool has_mark = false;
  std::ptrdiff_t holding = 0;  // points in it
  double extent = 0;           // metres
};

Part part_beyond_all_bad(const Mark& mark, const PlaceTried& place, const Direction& direction) {
  const auto along = [&](Vec2 point) { return dot(point, direction.toward); };
  double bad = -1e9, end = -1e9, next = 1e9;
  for (const PointTried& point : place.points) {
    if (!holds_at(point)) bad = std::max(bad, along(point.at));
  }
  for (const Vec2& corner : mark.area) end = std::max(end, along(corner));
  Part part{direction.words};
  for (const PointTried& point : place.points) {
    if (!holds_at(point) || along(point.at) <= bad + 0.001) continue;
    ++part.holding;
    next = std::min(next, along(point.at));
  }
  // Between the last point that fails and the first that holds nobody knows: the middle counts.
  part.has_mark = along(mark.at) > bad;
  if (part.holding > 0) part.extent = end - (bad + next) / 2;
  return part;
}

}  // namespace

const PlaceTried* turned_by_place(const Checked& checked, int verdict) {
  for (const PlaceTried& place : checked.tried.places) {
    if (place.verdict != verdict) continue;
    const bool first = holds_at(place.points.front());
    const bool turned = std::any_of(place.points.begin(), place.points.end(),
                                    [first](const PointTried& point) { return holds_at(point) != first; });
    if (turned) return &place;
  }
  return nullptr;
}

std::string safe_part_words(const Checked& checked, const PlaceTried& place) {
  const Moment moment = checked.verdicts[static_cast<std::size_t>(place.verdict)].decided;
  const auto good = std::count_if(place.points.begin(), place.points.end(), holds_at);
  Part best;
  for (const Direction& direction : directions(checked, moment)) {
    const Part part = part_beyond_all_bad(mark_of(checked, place), place, direction);
    if (part.holding > best.holding) best = part;
  }
  const bool wide_enough = best.extent >= narrowest && 2 * best.holding >= good;
  if (wide_enough) {
    const std::string mark = holds_at(place.points.front()) && !best.has_mark ? "where the mark is, and " : "";
    const char* whole = best.holding == good ? "in the " : "throughout the ";
    return mark + whole + best.direction + " " + measure_words(best.extent) + " of it";
  }
  const bool mostly = 2 * good > static_cast<std::ptrdiff_t>(place.points.size());
  const auto odd = std::find_if(place.points.begin(), place.points.end(),
                                [mostly](const PointTried& point) { return holds_at(point) != mostly; });
  return std::string(mostly ? "in most of it, but not at (" : "at few points of it, such as (") + number(odd->at.x, 2) +
         ", " + number(odd->at.y, 2) + ") m";
}

std::string pin_words(const Checked& checked, const PlaceTried& place) {
  const Mark& mark = mark_of(checked, place);
  const PointTried* best = &place.points.front();
  for (const PointTried& point : place.points) {
    if (holds_at(place.points.front())) break;
    if (holds_at(point) && (!holds_at(*best) || point.lead > best->lead)) best = &point;
  }
  return "write under the line of the place: `mark " + mark.name + " at (" + number(best->at.x, 2) + ", " +
         number(best->at.y, 2) + ") m`";
}

}  // namespace lensward
