#include "emphasis/places_tried.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <map>
#include <memory>
#include <numeric>
#include <optional>
#include <tuple>
#include <utility>

#include "base/angle.h"
#include "base/shared_work.h"
#include "emphasis/beat_to_try.h"
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
constexpr Milliseconds between_glances{1000};
// A view and its reckoning look ahead: bodies' speed by 40 ms, the camera's by 100 ms.
constexpr Milliseconds looks_ahead{200};
constexpr int views_at_most = 1500;
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
  std::size_t beat = 0;  // among those to try
  int mark = -1;         // -1: the slips
  double size = 0;       // of the area, in square metres
};

void add_tasks(std::size_t beat, const Plan& plan, std::vector<Task>& tasks) {
  tasks.push_back({beat, -1, 0});
  for (std::size_t mark = 0; mark < plan.marks.size(); ++mark) {
    const std::vector<Vec2>& area = plan.marks[mark].area;
    if (area.size() > 2) tasks.push_back({beat, static_cast<int>(mark), area_of(area)});
  }
}

// The largest first, so that no thread is left with one of them at the end; beat by beat, since what was drawn for a
// beat serves all its tasks.
std::vector<std::size_t> in_working_order(const std::vector<Task>& tasks) {
  std::map<std::size_t, double> of_beat;
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

// Plays a beat again, with somebody elsewhere.
class Trials {
 public:
  explicit Trials(const BeatToTry& beat) : beat_(beat), trial_(beat.plan()) { find_settled(); }

  // By index in the beat.
  PlacesTried run(const Task& task) {
    tried_ = {};
    views_ = 0;
    if (settled_.empty()) return {};
    if (task.mark < 0) {
      try_slips();
    } else {
      try_mark(task.mark);
    }
    return std::move(tried_);
  }

 private:
  using Feet = Lane<Walk>;
  struct Settled {
    int index;  // among those asked
    Verdict verdict;
  };

  // A beat looked at as it is, so that a trial plays anew only what comes after the first thing that it changes.
  struct Viewing {
    std::vector<Moment> moments;
    std::vector<EyeMemory> remembered;  // before each moment
    Attention seen;                     // ends with the moments
    std::size_t lead_in() const { return seen.samples.size() - moments.size(); }
  };

  const Beat& beat() const { return trial_.beats.front(); }

  // Which of the views a glance looks at again: a few, that tell whether anything changes.
  std::vector<std::size_t> few() const {
    std::vector<std::size_t> few;
    const auto moment = [&](std::size_t index) { return beat_.views[index].moment; };
    for (std::size_t i = 0; i < beat_.views.size(); ++i) {
      if (few.empty() || moment(i) - moment(few.back()) >= between_glances) few.push_back(i);
    }
    return few;
  }

  Viewing as_it_is(const std::vector<std::size_t>& views, Attention lead_in) const {
    Viewing viewing{{}, {}, std::move(lead_in)};
    Reckoner reckoner(trial_, beat_.from.start);
    for (const std::size_t index : views) {
      const View& view = beat_.views[index];
      viewing.moments.push_back(view.moment);
      viewing.remembered.push_back(reckoner.memory());
      viewing.seen.views.push_back(view);
      viewing.seen.samples.push_back(reckoner.reckon(view));
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
    Reckoner reckoner(trial_, viewing.remembered[static_cast<std::size_t>(next)]);
    for (; next < moments; ++next) see(viewing.moments[static_cast<std::size_t>(next)], reckoner, again);
    return again;
  }

  // The verdicts that come out at this rate as they did before.
  void find_settled() {
    std::vector<std::size_t> all(beat_.views.size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    whole_ = as_it_is(all, beat_.from.lead_in);
    glance_ = as_it_is(few(), {});
    // In the trials one person moves and all else stays as it was drawn.
    onlooker_.emplace(all.size() + 1, beat_.from.seen.things);
    for (std::size_t i = 0; i < beat_.from.asked.size(); ++i) {
      Verdict again = judge_again(trial_, whole_.seen, beat_.from.asked[i]);
      if (again.result == beat_.from.asked[i].result) settled_.push_back({static_cast<int>(i), std::move(again)});
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

  // ---- Vague places ----------------------------------------------------------------------------------------------

  // The stretch of the lane of feet that ends at a mark; nothing when the person is not at it in the beat.
  std::optional<std::size_t> arrival_of(const Mark& mark) const {
    const Feet& feet = trial_.people[static_cast<std::size_t>(mark.person.index)].feet;
    for (std::size_t i = 0; i < feet.size(); ++i) {
      const bool arrives = feet[i].end == mark.reached && same_place(feet[i].to.path.back(), mark.at);
      const bool stays_for_it = i + 1 == feet.size() || feet[i + 1].begin > beat().begin;
      if (arrives && feet[i].end < beat().end && stays_for_it) return i;
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
      places[i].points.push_back(tried_at(point, judge_again(trial_, played, asked(settled_[i].index))));
  }

  const Verdict& asked(int index) const { return beat_.from.asked[static_cast<std::size_t>(index)]; }

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

  void try_mark(int index) {
    const Mark mark = trial_.marks[static_cast<std::size_t>(index)];
    const std::optional<std::size_t> arrival = arrival_of(mark);
    if (!arrival) return;
    const Grid grid = grid_over(mark, std::max(mark.reached, beat().begin));
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

  void shift(PersonId person, Vec2 by) {
    Feet& feet = trial_.people[static_cast<std::size_t>(person.index)].feet;
    for (std::size_t i = 0; i < feet.size(); ++i) {
      const bool over = i + 1 < feet.size() && feet[i + 1].begin <= beat().begin;
      if (over || feet[i].begin >= beat().end) continue;
      for (Vec2& point : feet[i].to.path) point = point + by;
    }
  }

  // Along the lens axis on the floor, nearer by so much.
  Vec2 nearer(double metres) const {
    const Moment begin = beat().begin;
    const CameraState camera = camera_at(trial_, on_air(trial_, begin), begin);
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

  std::vector<bool> turned_by(PersonId person, double metres) {
    const Vec2 by = nearer(metres);
    const Feet before = trial_.people[static_cast<std::size_t>(person.index)].feet;
    shift(person, by);
    std::vector<bool> turned(settled_.size(), false);
    const Moment changed = beat().begin;
    if (stirs_at_a_glance(changed, [&](const Settled& settled) { return limit_of_slip(settled, person); })) {
      const Attention played = see_again(whole_, changed);
      std::transform(settled_.begin(), settled_.end(), turned.begin(), [&](const Settled& settled) {
        const bool fragile = settled.verdict.result != Verdict::Result::fails;
        return fragile && turns(settled.verdict, judge_again(trial_, played, asked(settled.index)));
      });
    }
    trial_.people[static_cast<std::size_t>(person.index)].feet = before;
    return turned;
  }

  // Halves a slip for as long as it turns a verdict about the person, twice at most.
  void try_slip(PersonId person, double metres) {
    std::vector<double> least(settled_.size(), 0);
    bool any = true;
    for (double slip = metres; any && std::abs(slip) >= std::abs(metres) / 4; slip /= 2) {
      const std::vector<bool> turned = turned_by(person, slip);
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

  void try_slips() {
    for (std::size_t i = 0; i < trial_.people.size(); ++i) {
      const PersonId person{static_cast<int>(i)};
      const bool matters = std::any_of(settled_.begin(), settled_.end(),
                                       [&](const Settled& settled) { return concerns(settled, person); });
      if (!matters || !work_left()) continue;
      try_slip(person, usual_slip);
      try_slip(person, -usual_slip);
    }
  }

  const BeatToTry& beat_;
  Plan trial_;
  std::vector<Settled> settled_;
  // The beat as it is.
  Viewing whole_, glance_;
  std::optional<Onlooker> onlooker_;
  PlacesTried tried_;
  int views_ = 0;
};

// The beats that are not known, each in its tasks.
std::vector<PlacesTried> tried_anew(const std::vector<const BeatToTry*>& beats, const std::function<bool()>& unwanted) {
  std::vector<Task> tasks;
  for (std::size_t i = 0; i < beats.size(); ++i) add_tasks(i, beats[i]->plan(), tasks);
  const std::vector<std::size_t> order = in_working_order(tasks);
  std::vector<PlacesTried> found(tasks.size());
  share_work(tasks.size(), [&](const NextIndex& next) {
    std::optional<Trials> trials;
    std::size_t entered = 0;
    while (const auto turn = next()) {
      if (unwanted && unwanted()) return;
      const Task& task = tasks[order[*turn]];
      if (!trials || entered != task.beat) trials.emplace(*beats[task.beat]);
      entered = task.beat;
      found[order[*turn]] = trials->run(task);
    }
  });
  std::vector<PlacesTried> all(beats.size());
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    PlacesTried& of_beat = all[tasks[i].beat];
    std::move(found[i].places.begin(), found[i].places.end(), std::back_inserter(of_beat.places));
    std::move(found[i].slips.begin(), found[i].slips.end(), std::back_inserter(of_beat.slips));
  }
  return all;
}

// With the indices of the scene.
void add(const PlacesTried& tried, const BeatToTry& beat, PlacesTried& all) {
  const auto verdict_of = [&](int index) { return beat.verdict_of[static_cast<std::size_t>(index)]; };
  for (const PlaceTried& place : tried.places) {
    PlaceTried& one = all.places.emplace_back(place);
    one.verdict = verdict_of(place.verdict);
    one.mark = beat.marks[static_cast<std::size_t>(place.mark)];
  }
  for (const SlipFound& slip : tried.slips) all.slips.emplace_back(slip).verdict = verdict_of(slip.verdict);
}

}  // namespace

PlacesTried try_places(const Plan& plan, const Attention& attention, const std::vector<Verdict>& verdicts,
                       const std::function<bool()>& unwanted, BeatsKnown* known) {
  if (attention.samples.empty()) return {};
  const std::vector<BeatToTry> to_try = beats_to_try(plan, attention, verdicts);
  std::vector<std::shared_ptr<const PlacesTried>> found;
  std::vector<const BeatToTry*> fresh;
  for (const BeatToTry& beat : to_try) {
    found.push_back(known != nullptr ? known->tried.find(beat.from) : nullptr);
    if (found.back() == nullptr) fresh.push_back(&beat);
  }
  std::vector<PlacesTried> tried = tried_anew(fresh, unwanted);
  if (unwanted && unwanted()) return {};
  PlacesTried all;
  std::size_t next = 0;
  for (std::size_t i = 0; i < to_try.size(); ++i) {
    add(found[i] != nullptr ? *found[i] : tried[next], to_try[i], all);
    if (found[i] == nullptr && known != nullptr) known->tried.keep(to_try[i].from, tried[next]);
    next += found[i] == nullptr ? 1 : 0;
  }
  return all;
}

}  // namespace lensward
