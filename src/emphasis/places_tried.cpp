#include "emphasis/places_tried.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <numeric>
#include <tuple>

#include "base/angle.h"
#include "base/shared_work.h"
#include "emphasis/judge.h"
#include "emphasis/reckon.h"
#include "emphasis/window.h"
#include "lens/see.h"
#include "plan/floor.h"
#include "plan/free_floor.h"

namespace lensward {
namespace {

constexpr std::size_t points_at_most = 40, first_look = 6;
constexpr double usual_grid = 0.25, room_for_two = 0.45, usual_slip = 0.2;
constexpr Milliseconds between_views{240}, between_glances{1000}, before_the_beat{1000};
// A view and its reckoning look ahead: bodies' speed by 40 ms, the camera's by 100 ms.
constexpr Milliseconds looks_ahead{200};
constexpr int views_at_most = 1500, moments_at_most = 32;
// No second look is taken where a glance shows the lead to differ by no more than this from the first few points of an
// area, by no more than that from a slip, and as much of everybody to show.
constexpr double stirs = 3, stirs_by_slip = 0.5;
constexpr Share stirs_as_shown{0.05};

bool same_place(Vec2 a, Vec2 b) { return length(a - b) < 0.002; }

bool turns(const Verdict& before, const Verdict& after) {
  return (before.result == Verdict::Result::fails) != (after.result == Verdict::Result::fails);
}

// By how much the lead of a verdict's favoured, and what shows of them, differ between two looks at the same moments.
struct Difference {
  Points lead;
  Share shown{0};
};

Difference difference_of(const Target& favoured, const Attention& before, const Attention& after) {
  Difference most;
  for (std::size_t i = 0; i < before.samples.size(); ++i) {
    const Slice one{&before.samples[i], &before.views[i], {}, {}}, other{&after.samples[i], &after.views[i], {}, {}};
    most.lead = std::max(most.lead, abs(lead_of(one, favoured) - lead_of(other, favoured)));
    most.shown = std::max(most.shown, abs(clear_part(one, favoured) - clear_part(other, favoured)));
    most.shown = std::max(most.shown, abs(whole_part(one, favoured) - whole_part(other, favoured)));
  }
  return most;
}

PointTried tried_at(Vec2 at, const Verdict& verdict) {
  return {at, verdict.result, verdict.favoured_points - verdict.rival_points, verdict.complaint};
}

// What is tried in one go: everybody's slips in a beat, or the points of one mark's area.
struct Task {
  int beat = -1;
  int mark = -1;    // -1: the slips
  double size = 0;  // of the area, in square metres
};

std::vector<Task> tasks_of(const Plan& plan) {
  std::vector<Task> tasks;
  for (std::size_t beat = 0; beat < plan.beats.size(); ++beat) {
    const bool filmed = on_air(plan, plan.beats[beat].begin).known();
    if (!filmed || !plan.beats[beat].judged) continue;
    tasks.push_back({static_cast<int>(beat), -1, 0});
    for (std::size_t mark = 0; mark < plan.marks.size(); ++mark) {
      const std::vector<Vec2>& area = plan.marks[mark].area;
      if (area.size() > 2) tasks.push_back({static_cast<int>(beat), static_cast<int>(mark), area_of(area)});
    }
  }
  return tasks;
}

// The largest first, so that no thread is left with one of them at the end; beat by beat, since what was drawn for a
// beat serves all its tasks.
std::vector<std::size_t> in_working_order(const std::vector<Task>& tasks) {
  std::map<int, double> of_beat;
  for (const Task& task : tasks) of_beat[task.beat] += task.size;
  std::vector<std::size_t> order(tasks.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto rank = [&](std::size_t index) {
    const Task& task = tasks[index];
    return std::tuple(-of_beat[task.beat], task.beat, -task.size);
  };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
  return order;
}

// Plays beats of the scene again, with somebody elsewhere.
class Trials {
 public:
  Trials(const Plan& plan, const Attention& attention, const std::vector<Verdict>& verdicts)
      : attention_(attention), verdicts_(verdicts), trial_(plan) {
    remember_beginnings();
  }

  PlacesTried run(const Task& task) {
    tried_ = {};
    enter(task.beat);
    views_ = 0;
    if (settled_.empty()) return {};
    if (task.mark < 0) {
      try_slips(task.beat);
    } else {
      try_mark(task.mark, task.beat);
    }
    return std::move(tried_);
  }

 private:
  using Feet = Lane<Walk>;
  struct Settled {
    int index;
    Verdict verdict;
  };

  // A beat looked at as it is, so that a trial plays anew only what comes after the first thing that it changes.
  struct Viewing {
    std::vector<Moment> moments;
    std::vector<Reckoner> remembered;  // what the eye remembers before each moment
    Attention seen;                    // ends with the moments
    std::size_t lead_in() const { return seen.samples.size() - moments.size(); }
  };

  // What the eye remembers at the begin of each beat.
  void remember_beginnings() {
    Reckoner reckoner(trial_);
    std::size_t next = 0;
    for (const Beat& beat : trial_.beats) {
      for (; next < attention_.samples.size() && attention_.samples[next].moment < beat.begin; ++next) {
        const View& view = attention_.views[next];
        reckoner.reckon(view);
      }
      begins_.push_back(reckoner);
    }
  }

  const Beat& beat_of(int index) const { return trial_.beats[static_cast<std::size_t>(index)]; }

  // Which samples of the attention to look at: those of a beat, not too close together.
  std::vector<std::size_t> samples_of(const Beat& beat) const {
    const Milliseconds between = std::max(between_views, Milliseconds{(beat.end - beat.begin).count / moments_at_most});
    std::vector<std::size_t> samples;
    for (std::size_t i = 0; i < attention_.samples.size(); ++i) {
      const Moment moment = attention_.samples[i].moment;
      if (moment < beat.begin || moment > beat.end) continue;
      const bool due = samples.empty() || moment - attention_.samples[samples.back()].moment >= between;
      if (due || moment == beat.end) samples.push_back(i);
    }
    return samples;
  }

  // A few of them, at which a glance tells whether anything changes.
  std::vector<std::size_t> few_of(const std::vector<std::size_t>& samples) const {
    std::vector<std::size_t> few;
    const auto moment = [&](std::size_t index) { return attention_.samples[index].moment; };
    for (const std::size_t index : samples) {
      if (few.empty() || moment(index) - moment(few.back()) >= between_glances) few.push_back(index);
    }
    return few;
  }

  Viewing as_it_is(int beat, const std::vector<std::size_t>& samples, Attention lead_in) const {
    Viewing viewing{{}, {}, std::move(lead_in)};
    Reckoner reckoner = begins_[static_cast<std::size_t>(beat)];
    for (const std::size_t index : samples) {
      viewing.moments.push_back(attention_.samples[index].moment);
      viewing.remembered.push_back(reckoner);
      viewing.seen.views.push_back(attention_.views[index]);
      viewing.seen.samples.push_back(reckoner.reckon(attention_.views[index]));
    }
    return viewing;
  }

  // Adds a moment of the trial to what has been seen so far.
  void see(Moment moment, Reckoner& reckoner, Attention& so_far) {
    const View& view = so_far.views.emplace_back(onlooker_->see(trial_, moment));
    so_far.samples.push_back(reckoner.reckon(view));
    ++views_;
  }

  // The same beat again, with something in the trial changed from a moment on.
  Attention see_again(const Viewing& viewing, Moment changed) {
    const auto moments = static_cast<std::ptrdiff_t>(viewing.moments.size());
    std::ptrdiff_t next = 0;
    while (next < moments && viewing.moments[static_cast<std::size_t>(next)] < changed - looks_ahead) ++next;
    const auto kept = static_cast<std::ptrdiff_t>(viewing.lead_in()) + next;
    Attention again;
    again.weights = viewing.seen.weights;
    again.samples.assign(viewing.seen.samples.begin(), viewing.seen.samples.begin() + kept);
    again.views.assign(viewing.seen.views.begin(), viewing.seen.views.begin() + kept);
    if (next == moments) return again;
    Reckoner reckoner = viewing.remembered[static_cast<std::size_t>(next)];
    for (; next < moments; ++next) see(viewing.moments[static_cast<std::size_t>(next)], reckoner, again);
    return again;
  }

  // The attention a little before the beat, as it is.
  Attention lead_into(const Beat& beat) const {
    Attention before;
    before.weights = attention_.weights;
    for (std::size_t i = 0; i < attention_.samples.size(); ++i) {
      const Moment moment = attention_.samples[i].moment;
      if (moment >= beat.begin || moment < beat.begin - before_the_beat) continue;
      before.samples.push_back(attention_.samples[i]);
      before.views.push_back(attention_.views[i]);
    }
    return before;
  }

  // The verdicts of a beat that come out at this rate as they did before.
  void find_settled(int beat) {
    settled_.clear();
    const std::vector<std::size_t> samples = samples_of(beat_of(beat));
    whole_ = as_it_is(beat, samples, lead_into(beat_of(beat)));
    glance_ = as_it_is(beat, few_of(samples), {});
    // In the trials one person moves and all else stays as it was drawn.
    onlooker_.emplace(samples.size() + 1);
    for (std::size_t i = 0; i < verdicts_.size(); ++i) {
      const Verdict& verdict = verdicts_[i];
      const bool asked = verdict.intent >= 0 || verdict.story >= 0;
      if (!asked || verdict.beat != beat || verdict.result == Verdict::Result::not_judged) continue;
      Verdict again = judge_again(trial_, whole_.seen, verdict);
      if (again.result == verdict.result) settled_.push_back({static_cast<int>(i), std::move(again)});
    }
  }

  // Does a glance at the beat, with somebody elsewhere, show a lead that differs by more than the verdict's limit, or
  // more or less of anybody a verdict is about? Verdicts without a limit do not count.
  template <class LimitOf>
  bool stirs_at_a_glance(Moment changed, const LimitOf& limit_of) {
    const Attention glance = see_again(glance_, changed);
    return std::any_of(settled_.begin(), settled_.end(), [&](const Settled& settled) {
      const std::optional<Points> limit = limit_of(settled);
      if (!limit) return false;
      const Difference difference = difference_of(settled.verdict.favoured, glance_.seen, glance);
      return difference.lead > *limit || difference.shown > stirs_as_shown;
    });
  }

  bool work_left() const { return views_ < views_at_most; }

  void enter(int beat) {
    if (beat == entered_) return;
    entered_ = beat;
    find_settled(beat);
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

  Feet& feet_of(const Mark& mark) { return trial_.people[static_cast<std::size_t>(mark.person.index)].feet; }

  void put(const Mark& mark, std::size_t arrival, Vec2 at) {
    Feet& feet = feet_of(mark);
    feet[arrival].to.path.back() = at;
    for (std::size_t i = arrival + 1; i < feet.size() && same_place(feet[i].to.path.front(), mark.at); ++i) {
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

  struct Grid {
    double step = 0;
    std::vector<Vec2> first;  // the corners, and every other point both ways
    std::vector<Vec2> rest;
  };

  Grid grid_of(const Mark& mark, double step, Moment moment) const {
    const FreeFloor floor(trial_.stage, {});
    Grid grid{step, {}, {}};
    const auto known = [](const std::vector<Vec2>& points, Vec2 point) {
      return std::any_of(points.begin(), points.end(), [&](Vec2 p) { return length(p - point) < 0.05; });
    };
    const auto add = [&](Vec2 point, std::vector<Vec2>& to) {
      const bool free = floor.allows(point) && clear_of_others(mark, point, moment);
      if (free && !same_place(point, mark.at) && !known(grid.first, point) && !known(grid.rest, point))
        to.push_back(point);
    };
    Vec2 least = mark.area.front(), most = least;
    for (const Vec2& corner : mark.area) {
      least = {std::min(least.x, corner.x), std::min(least.y, corner.y)};
      most = {std::max(most.x, corner.x), std::max(most.y, corner.y)};
      add(corner, grid.first);
    }
    const auto steps = [step](double length) { return static_cast<int>(length / step); };
    for (int i = -steps(mark.at.x - least.x); i <= steps(most.x - mark.at.x); ++i) {
      for (int j = -steps(mark.at.y - least.y); j <= steps(most.y - mark.at.y); ++j) {
        const Vec2 point{mark.at.x + i * step, mark.at.y + j * step};
        if (holds(mark.area, point, 0.001)) add(point, i % 2 == 0 && j % 2 == 0 ? grid.first : grid.rest);
      }
    }
    return grid;
  }

  Grid grid_over(const Mark& mark, Moment moment) const {
    const auto too_many = [](const Grid& grid) { return grid.first.size() + grid.rest.size() >= points_at_most; };
    Grid grid = grid_of(mark, usual_grid, moment);
    // An area's corners alone may be more than can be tried.
    for (int tries = 0; too_many(grid) && tries < 20; ++tries) grid = grid_of(mark, grid.step * 1.25, moment);
    if (too_many(grid)) {
      grid.rest.clear();
      grid.first.resize(std::min(grid.first.size(), points_at_most - 1));
    }
    return grid;
  }

  bool stirs_from(const Mark& mark, std::size_t arrival, Vec2 point) {
    const Feet before = feet_of(mark);
    put(mark, arrival, point);
    const bool stirred =
        stirs_at_a_glance(before[arrival].begin, [](const Settled&) { return std::optional(Points{stirs}); });
    feet_of(mark) = before;
    return stirred;
  }

  void try_point(std::vector<PlaceTried>& places, const Mark& mark, std::size_t arrival, Vec2 point) {
    const Feet before = feet_of(mark);
    put(mark, arrival, point);
    const Attention played = see_again(whole_, before[arrival].begin);
    feet_of(mark) = before;
    for (std::size_t i = 0; i < places.size(); ++i)
      places[i].points.push_back(tried_at(point, judge_again(trial_, played, verdict_at(settled_[i].index))));
  }

  const Verdict& verdict_at(int index) const { return verdicts_[static_cast<std::size_t>(index)]; }

  // Does a verdict come out otherwise at one point near this one than at another?
  static bool on_the_edge(const std::vector<PlaceTried>& places, Vec2 point, double reach) {
    return std::any_of(places.begin(), places.end(), [&](const PlaceTried& place) {
      bool fails = false, holds = false;
      for (const PointTried& tried : place.points) {
        if (length(tried.at - point) > reach) continue;
        (tried.result == Verdict::Result::fails ? fails : holds) = true;
      }
      return fails && holds;
    });
  }

  void try_edges(std::vector<PlaceTried>& places, const Mark& mark, std::size_t arrival, Grid grid) {
    const double reach = 1.6 * grid.step;
    const auto edge = [&](Vec2 point) { return on_the_edge(places, point, reach); };
    for (auto next = std::find_if(grid.rest.begin(), grid.rest.end(), edge); next != grid.rest.end() && work_left();
         next = std::find_if(grid.rest.begin(), grid.rest.end(), edge)) {
      try_point(places, mark, arrival, *next);
      grid.rest.erase(next);
    }
  }

  void try_mark(int index, int beat) {
    const Mark mark = trial_.marks[static_cast<std::size_t>(index)];
    const std::optional<std::size_t> arrival = arrival_of(mark, beat_of(beat));
    if (!arrival) return;
    const Grid grid = grid_over(mark, std::max(mark.reached, beat_of(beat).begin));
    const auto glances = static_cast<std::ptrdiff_t>(std::min(grid.first.size(), first_look));
    const bool stirred = std::any_of(grid.first.begin(), grid.first.begin() + glances,
                                     [&](Vec2 point) { return stirs_from(mark, *arrival, point); });
    if (!stirred) return;
    std::vector<PlaceTried> places;
    for (const Settled& settled : settled_)
      places.push_back({settled.index, index, {tried_at(mark.at, settled.verdict)}});
    for (const Vec2& point : grid.first) {
      if (work_left()) try_point(places, mark, *arrival, point);
    }
    try_edges(places, mark, *arrival, grid);
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

  bool concerns(const Settled& settled, PersonId person) const {
    const auto is = [&](const Target& target) {
      return target.kind == Target::Kind::person && target.index == person.index;
    };
    return is(settled.verdict.favoured) || is(settled.verdict.rival);
  }

  // By how much a lead may differ at a glance before a slip is looked at whole; nothing: it cannot count. A favour is
  // lost only when its lead is gone somewhere, and half of that would show at a glance.
  std::optional<Points> limit_of_slip(const Settled& settled, PersonId person) const {
    const Verdict& verdict = settled.verdict;
    if (verdict.result == Verdict::Result::fails || !concerns(settled, person)) return std::nullopt;
    const bool favours =
        verdict.intent >= 0 && trial_.intents[static_cast<std::size_t>(verdict.intent)].kind == Intent::Kind::favour;
    const Points lead = verdict.favoured_points - verdict.rival_points;
    return favours ? std::max(Points{stirs_by_slip}, lead * 0.5) : Points{stirs_by_slip};
  }

  std::vector<bool> turned_by(PersonId person, double metres, int beat) {
    const Vec2 by = nearer(beat_of(beat), metres);
    const Feet before = trial_.people[static_cast<std::size_t>(person.index)].feet;
    shift(person, beat_of(beat), by);
    std::vector<bool> turned(settled_.size(), false);
    const Moment changed = beat_of(beat).begin;
    if (stirs_at_a_glance(changed, [&](const Settled& settled) { return limit_of_slip(settled, person); })) {
      const Attention played = see_again(whole_, changed);
      std::transform(settled_.begin(), settled_.end(), turned.begin(), [&](const Settled& settled) {
        const bool fragile = settled.verdict.result != Verdict::Result::fails;
        return fragile && turns(settled.verdict, judge_again(trial_, played, verdict_at(settled.index)));
      });
    }
    trial_.people[static_cast<std::size_t>(person.index)].feet = before;
    return turned;
  }

  // Halves a slip for as long as it turns a verdict about the person, twice at most.
  void try_slip(PersonId person, double metres, int beat) {
    std::vector<double> least(settled_.size(), 0);
    bool any = true;
    for (double slip = metres; any && std::abs(slip) >= std::abs(metres) / 4; slip /= 2) {
      const std::vector<bool> turned = turned_by(person, slip, beat);
      any = false;
      for (std::size_t i = 0; i < turned.size(); ++i) {
        const bool goes_on = slip == metres || least[i] != 0;
        if (!turned[i] || !goes_on || !concerns(settled_[i], person)) continue;
        least[i] = slip;
        any = true;
      }
    }
    for (std::size_t i = 0; i < least.size(); ++i) {
      if (least[i] != 0) tried_.slips.push_back({settled_[i].index, person, Metres{least[i]}});
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
  // Of the beat that is tried, as it is.
  int entered_ = -1;
  Viewing whole_, glance_;
  std::optional<Onlooker> onlooker_;
  PlacesTried tried_;
  int views_ = 0;
};

}  // namespace

PlacesTried try_places(const Plan& plan, const Attention& attention, const std::vector<Verdict>& verdicts,
                       const std::function<bool()>& unwanted) {
  if (attention.samples.empty()) return {};
  const std::vector<Task> tasks = tasks_of(plan);
  const std::vector<std::size_t> order = in_working_order(tasks);
  std::vector<PlacesTried> found(tasks.size());
  share_work(tasks.size(), [&](const NextIndex& next) {
    Trials trials(plan, attention, verdicts);
    while (const auto turn = next()) {
      if (unwanted && unwanted()) return;
      found[order[*turn]] = trials.run(tasks[order[*turn]]);
    }
  });
  PlacesTried all;
  if (unwanted && unwanted()) return all;
  for (PlacesTried& one : found) {
    std::move(one.places.begin(), one.places.end(), std::back_inserter(all.places));
    std::move(one.slips.begin(), one.slips.end(), std::back_inserter(all.slips));
  }
  return all;
}

}  // namespace lensward
