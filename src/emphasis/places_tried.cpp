#include "emphasis/places_tried.h"

#include <algorithm>

#include "base/angle.h"
#include "emphasis/judge.h"
#include "emphasis/reckon.h"
#include "lens/see.h"
#include "plan/floor.h"
#include "plan/free_floor.h"

namespace lensward {
namespace {

constexpr std::size_t points_at_most = 40, first_look = 6;
constexpr double usual_grid = 0.25, room_for_two = 0.45, usual_slip = 0.2;
constexpr Milliseconds between_views{240}, before_the_beat{1000}, camera_step{100};
constexpr int views_at_most = 2500;
// Less than this from the first few points of an area, and the rest of it is not tried.
constexpr double stirs = 3;

std::vector<PersonState> people_at(const Plan& plan, Moment moment) {
  std::vector<PersonState> people;
  for (std::size_t i = 0; i < plan.stage.people.size(); ++i) {
    people.push_back(person_at(plan, PersonId{static_cast<int>(i)}, moment));
  }
  return people;
}

CameraState camera_soon(const Plan& plan, const View& view) {
  if (!view.camera.known()) return view.state;
  return camera_at(plan, view.camera, view.moment + camera_step);
}

bool same_place(Vec2 a, Vec2 b) { return length(a - b) < 0.002; }

bool turns(const Verdict& before, const Verdict& after) {
  return (before.result == Verdict::Result::fails) != (after.result == Verdict::Result::fails);
}

PointTried point_of(Vec2 at, const Verdict& verdict) {
  return {at, verdict.result, verdict.favoured_points - verdict.rival_points, verdict.complaint};
}

// Plays beats of the scene again, with somebody elsewhere.
class Trials {
 public:
  Trials(const Plan& plan, const Attention& attention, const std::vector<Verdict>& verdicts)
      : attention_(attention), verdicts_(verdicts), trial_(plan) {
    remember_beginnings();
  }

  PlacesTried run() {
    for (std::size_t beat = 0; beat < trial_.beats.size(); ++beat) try_beat(static_cast<int>(beat));
    return std::move(tried_);
  }

 private:
  using Feet = Lane<Walk>;
  struct Settled {
    int index;
    Verdict verdict;
  };

  // What the eye remembers at the begin of each beat.
  void remember_beginnings() {
    Reckoner reckoner(trial_);
    std::size_t next = 0;
    for (const Beat& beat : trial_.beats) {
      for (; next < attention_.samples.size() && attention_.samples[next].moment < beat.begin; ++next) {
        const View& view = attention_.views[next];
        reckoner.reckon(view, people_at(trial_, view.moment), camera_soon(trial_, view));
      }
      begins_.push_back(reckoner);
    }
  }

  const Beat& beat_of(int index) const { return trial_.beats[static_cast<std::size_t>(index)]; }

  std::vector<Moment> moments_of(const Beat& beat) const {
    std::vector<Moment> moments;
    for (const Sample& sample : attention_.samples) {
      if (sample.moment < beat.begin || sample.moment > beat.end) continue;
      const bool due = moments.empty() || sample.moment - moments.back() >= between_views;
      if (due || sample.moment == beat.end) moments.push_back(sample.moment);
    }
    return moments;
  }

  // A beat as it is; keeps what was drawn for the trials, in which one person moves and all else stays.
  Attention play_as_it_is(int index) {
    as_it_is_.clear();
    Drawings last;
    for (const Moment moment : moments_of(beat_of(index))) {
      see(trial_, moment, last);
      as_it_is_.push_back(last);
    }
    return play(index);
  }

  // Requires play_as_it_is of the same beat before.
  Attention play(int index) {
    const Beat& beat = beat_of(index);
    Attention played;
    played.weights = attention_.weights;
    for (std::size_t i = 0; i < attention_.samples.size(); ++i) {
      const Moment moment = attention_.samples[i].moment;
      if (moment >= beat.begin || moment < beat.begin - before_the_beat) continue;
      played.samples.push_back(attention_.samples[i]);
      played.views.push_back(attention_.views[i]);
    }
    Reckoner reckoner = begins_[static_cast<std::size_t>(index)];
    const std::vector<Moment> moments = moments_of(beat);
    for (std::size_t i = 0; i < moments.size(); ++i) {
      const Moment moment = moments[i];
      Drawings drawn = as_it_is_[i];
      const View& view = played.views.emplace_back(see(trial_, moment, drawn));
      played.samples.push_back(reckoner.reckon(view, people_at(trial_, moment), camera_soon(trial_, view)));
      ++views_;
    }
    return played;
  }

  // The verdicts of a beat that come out at this rate as they did before.
  void find_settled(int beat) {
    settled_.clear();
    const Attention played = play_as_it_is(beat);
    for (std::size_t i = 0; i < verdicts_.size(); ++i) {
      const Verdict& verdict = verdicts_[i];
      const bool asked = verdict.intent >= 0 || verdict.story >= 0;
      if (!asked || verdict.beat != beat || verdict.result == Verdict::Result::not_judged) continue;
      Verdict again = judge_again(trial_, played, verdict);
      if (again.result == verdict.result) settled_.push_back({static_cast<int>(i), std::move(again)});
    }
  }

  bool work_left() const { return views_ < views_at_most; }

  void try_beat(int beat) {
    const bool seen = on_air(trial_, beat_of(beat).begin).known();
    if (!seen || !beat_of(beat).judged || !work_left()) return;
    find_settled(beat);
    if (settled_.empty()) return;
    try_slips(beat);
    for (std::size_t mark = 0; mark < trial_.marks.size() && work_left(); ++mark)
      try_mark(static_cast<int>(mark), beat);
  }

  // ---- Vague places ----------------------------------------------------------------------------------------------

  // The stretch of the lane of feet that ends at a mark; nothing when the person is not at it in the beat.
  std::optional<std::size_t> arrival_of(const Mark& mark, const Beat& beat) const {
    const Feet& feet = trial_.people[static_cast<std::size_t>(mark.person.index)].feet;
    for (std::size_t i = 0; i < feet.size(); ++i) {
      const bool arrives = feet[i].end == mark.reached && same_place(feet[i].to.path.back(), mark.at);
      const bool stays_for_it = i + 1 == feet.size() || feet[i + 1].begin > beat.begin;
      if (arrives && feet[i].end < beat.end && stays_for_it) return i;
    }
    return std::nullopt;
  }

  void put(const Mark& mark, std::size_t arrival, Vec2 from, Vec2 at) {
    Feet& feet = trial_.people[static_cast<std::size_t>(mark.person.index)].feet;
    feet[arrival].to.path.back() = at;
    for (std::size_t i = arrival + 1; i < feet.size() && same_place(feet[i].to.path.front(), from); ++i) {
      feet[i].to.path.front() = at;
      if (feet[i].to.path.size() > 1) return;
    }
  }

  bool clear_of_others(const Mark& mark, Vec2 point, Moment moment) const {
    for (std::size_t i = 0; i < trial_.people.size(); ++i) {
      const PersonState other = person_at(trial_, PersonId{static_cast<int>(i)}, moment);
      const bool counts = static_cast<int>(i) != mark.person.index && other.present;
      if (counts && length(other.at - point) < room_for_two) return false;
    }
    return true;
  }

  std::vector<Vec2> grid_of(const Mark& mark, double step, Moment moment) const {
    const FreeFloor floor(trial_.stage, {});
    std::vector<Vec2> points;
    const auto add = [&](Vec2 point) {
      const bool known = std::any_of(points.begin(), points.end(), [&](Vec2 p) { return length(p - point) < 0.05; });
      const bool free = floor.allows(point) && clear_of_others(mark, point, moment);
      if (!known && !same_place(point, mark.at) && free) points.push_back(point);
    };
    Vec2 least = mark.area.front(), most = least;
    for (const Vec2& corner : mark.area) {
      least = {std::min(least.x, corner.x), std::min(least.y, corner.y)};
      most = {std::max(most.x, corner.x), std::max(most.y, corner.y)};
      add(corner);
    }
    const auto steps = [step](double length) { return static_cast<int>(length / step); };
    for (int i = -steps(mark.at.x - least.x); i <= steps(most.x - mark.at.x); ++i) {
      for (int j = -steps(mark.at.y - least.y); j <= steps(most.y - mark.at.y); ++j) {
        const Vec2 point{mark.at.x + i * step, mark.at.y + j * step};
        if (holds(mark.area, point, 0.001)) add(point);
      }
    }
    return points;
  }

  std::vector<Vec2> points_of_area(const Mark& mark, Moment moment) const {
    double step = usual_grid;
    std::vector<Vec2> points = grid_of(mark, step, moment);
    // An area's corners alone may be more than can be tried.
    for (int tries = 0; points.size() >= points_at_most && tries < 20; ++tries) {
      step *= 1.25;
      points = grid_of(mark, step, moment);
    }
    if (points.size() >= points_at_most) points.resize(points_at_most - 1);
    return points;
  }

  std::vector<Verdict> judged_at(const Mark& mark, std::size_t arrival, Vec2 point, int beat) {
    put(mark, arrival, mark.at, point);
    const Attention played = play(beat);
    put(mark, arrival, point, mark.at);
    std::vector<Verdict> verdicts;
    for (const Settled& settled : settled_) verdicts.push_back(judge_again(trial_, played, verdict_at(settled.index)));
    return verdicts;
  }

  const Verdict& verdict_at(int index) const { return verdicts_[static_cast<std::size_t>(index)]; }

  bool stirred(const std::vector<PlaceTried>& places) const {
    return std::any_of(places.begin(), places.end(), [](const PlaceTried& place) {
      const PointTried &mark = place.points.front(), &last = place.points.back();
      const bool turned = (mark.result == Verdict::Result::fails) != (last.result == Verdict::Result::fails);
      return turned || abs(mark.lead - last.lead).value > stirs;
    });
  }

  void try_mark(int index, int beat) {
    const Mark mark = trial_.marks[static_cast<std::size_t>(index)];
    const std::optional<std::size_t> arrival = arrival_of(mark, beat_of(beat));
    if (mark.area.size() < 3 || !arrival) return;
    const std::vector<Vec2> points = points_of_area(mark, std::max(mark.reached, beat_of(beat).begin));
    std::vector<PlaceTried> places;
    for (const Settled& settled : settled_)
      places.push_back({settled.index, index, {point_of(mark.at, settled.verdict)}});
    bool goes_on = false;
    for (std::size_t i = 0; i < points.size() && (goes_on || i < first_look) && work_left(); ++i) {
      const std::vector<Verdict> verdicts = judged_at(mark, *arrival, points[i], beat);
      for (std::size_t v = 0; v < places.size(); ++v) places[v].points.push_back(point_of(points[i], verdicts[v]));
      goes_on = goes_on || stirred(places);
    }
    for (PlaceTried& place : places) tried_.places.push_back(std::move(place));
  }

  // ---- Slips -----------------------------------------------------------------------------------------------------

  void shift(PersonId person, const Beat& beat, Vec2 by) {
    Feet& feet = trial_.people[static_cast<std::size_t>(person.index)].feet;
    for (std::size_t i = 0; i < feet.size(); ++i) {
      const bool over = i + 1 < feet.size() && feet[i + 1].begin <= beat.begin;
      if (over || feet[i].begin >= beat.end) continue;
      for (Vec2& point : feet[i].to.path) point = point + by;
    }
  }

  // Along the lens axis on the floor, nearer by so much.
  Vec2 nearer(const Beat& beat, double metres) const {
    const CameraState camera = camera_at(trial_, on_air(trial_, beat.begin), beat.begin);
    return direction_of(camera.pan) * -metres;
  }

  std::vector<bool> turned_by(PersonId person, double metres, int beat) {
    const Vec2 by = nearer(beat_of(beat), metres);
    const Feet before = trial_.people[static_cast<std::size_t>(person.index)].feet;
    shift(person, beat_of(beat), by);
    const Attention played = play(beat);
    trial_.people[static_cast<std::size_t>(person.index)].feet = before;
    std::vector<bool> turned;
    for (const Settled& settled : settled_) {
      const bool fragile = settled.verdict.result != Verdict::Result::fails;
      turned.push_back(fragile && turns(settled.verdict, judge_again(trial_, played, verdict_at(settled.index))));
    }
    return turned;
  }

  bool concerns(const Settled& settled, PersonId person) const {
    const auto is = [&](const Target& target) {
      return target.kind == Target::Kind::person && target.index == person.index;
    };
    return is(settled.verdict.favoured) || is(settled.verdict.rival);
  }

  void try_slip(PersonId person, double metres, int beat) {
    const std::vector<bool> turned = turned_by(person, metres, beat);
    if (std::none_of(turned.begin(), turned.end(), [](bool one) { return one; })) return;
    std::vector<double> least(turned.size(), metres);
    const std::vector<bool> by_half = turned_by(person, metres / 2, beat);
    const std::vector<bool> by_quarter = turned_by(person, metres / 4, beat);
    for (std::size_t i = 0; i < turned.size(); ++i) {
      if (!turned[i] || !concerns(settled_[i], person)) continue;
      const double slip = by_quarter[i] ? metres / 4 : by_half[i] ? metres / 2 : metres;
      tried_.slips.push_back({settled_[i].index, person, Metres{slip}});
    }
  }

  void try_slips(int beat) {
    for (std::size_t i = 0; i < trial_.people.size(); ++i) {
      const PersonId person{static_cast<int>(i)};
      const bool matters = std::any_of(settled_.begin(), settled_.end(),
                                       [&](const Settled& settled) { return concerns(settled, person); });
      if (!matters || !work_left()) continue;
      try_slip(person, usual_slip, beat);
      try_slip(person, -usual_slip, beat);
    }
  }

  const Attention& attention_;
  const std::vector<Verdict>& verdicts_;
  Plan trial_;
  std::vector<Reckoner> begins_;
  std::vector<Settled> settled_;
  std::vector<Drawings> as_it_is_;  // of the beat that is tried, by moment
  PlacesTried tried_;
  int views_ = 0;
};

}  // namespace

PlacesTried try_places(const Plan& plan, const Attention& attention, const std::vector<Verdict>& verdicts) {
  if (attention.samples.empty()) return {};
  return Trials(plan, attention, verdicts).run();
}

}  // namespace lensward
