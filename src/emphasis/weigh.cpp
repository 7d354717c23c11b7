#include "emphasis/weigh.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <utility>

#include "base/shared_work.h"
#include "emphasis/reckon.h"
#include "emphasis/sampling.h"
#include "lens/see.h"
#include "lens/seen_thing.h"
#include "plan/beat_alone.h"

namespace lensward {
namespace {

constexpr int usual_rate = 12;
constexpr std::size_t stretch = 24;  // moments

// Counted from the top of each beat, so that a longer beat before it changes nothing.
std::vector<Moment> moments_of(const Plan& plan, std::int64_t samples_a_second) {
  const Moment end = plan.duration();
  std::vector<Moment> moments;
  for (const Beat& beat : plan.beats) {
    for (std::int64_t i = 0; beat.begin + Milliseconds{i * 1000 / samples_a_second} < beat.end; ++i)
      moments.push_back(beat.begin + Milliseconds{i * 1000 / samples_a_second});
  }
  for (const Moment turn : turning_points(plan)) {
    if (Moment{} <= turn && turn <= end) moments.push_back(turn);
  }
  moments.push_back(end);
  std::sort(moments.begin(), moments.end());
  moments.erase(std::unique(moments.begin(), moments.end()), moments.end());
  return moments;
}

// Moments that follow one another, by index.
struct Range {
  std::size_t begin = 0, end = 0;
};

// Those of a beat that begin in it; the last beat has its end as well.
std::vector<Range> ranges_of(const Plan& plan, const std::vector<Moment>& moments) {
  std::vector<Range> ranges;
  std::size_t begin = 0;
  for (std::size_t beat = 0; beat < plan.beats.size(); ++beat) {
    std::size_t end = begin;
    const bool last = beat + 1 == plan.beats.size();
    while (end < moments.size() && (last || moments[end] < plan.beats[beat + 1].begin)) ++end;
    ranges.push_back({begin, end});
    begin = end;
  }
  return ranges;
}

// What the views of a beat are made from.
SeenFrom seen_from(const Plan& plan, int beat, const std::vector<Target>& things, const std::vector<Moment>& moments,
                   Range range) {
  BeatAlone alone = beat_alone(plan, beat);
  SeenFrom from{std::move(alone.plan), things, {}};
  for (std::size_t i = range.begin; i < range.end; ++i) from.moments.push_back(moments[i] + alone.later);
  return from;
}

// The views of a scene, some of which are known.
class Viewer {
 public:
  Viewer(const Plan& plan, const std::vector<Moment>& moments, BeatsKnown* known)
      : plan_(plan), moments_(moments), known_(known), things_(things_named(plan)), views_(moments.size()) {
    const std::vector<Range> ranges = ranges_of(plan, moments);
    for (std::size_t beat = 0; beat < ranges.size(); ++beat) {
      if (known == nullptr) {
        look_at(ranges[beat]);
      } else {
        take_or_look_at(ranges[beat], seen_from(plan, static_cast<int>(beat), things_, moments, ranges[beat]));
      }
    }
  }

  // Each view is of its moment alone, so the cores share the scene in stretches, in which little changes from one
  // moment to the next.
  std::vector<View> views(const std::function<bool()>& unwanted) {
    share_work(stretches_.size(), [&](const NextIndex& next) {
      Onlooker onlooker(1, things_);
      while (const auto turn = next()) {
        if (unwanted && unwanted()) return;
        for (std::size_t i = stretches_[*turn].begin; i < stretches_[*turn].end; ++i)
          views_[i] = onlooker.see(plan_, moments_[i]);
      }
    });
    if (unwanted && unwanted()) return {};
    for (auto& [range, from] : fresh_) keep(range, std::move(from));
    return std::move(views_);
  }

 private:
  void look_at(Range range) {
    for (std::size_t begin = range.begin; begin < range.end; begin += stretch)
      stretches_.push_back({begin, std::min(range.end, begin + stretch)});
  }

  void take_or_look_at(Range range, SeenFrom from) {
    const std::shared_ptr<const std::vector<View>> seen = known_->seen.find(from);
    if (seen == nullptr) {
      look_at(range);
      fresh_.emplace_back(range, std::move(from));
      return;
    }
    for (std::size_t i = range.begin; i < range.end; ++i) {
      views_[i] = (*seen)[i - range.begin];
      views_[i].moment = moments_[i];
    }
  }

  void keep(Range range, SeenFrom from) {
    std::vector<View> seen(views_.begin() + static_cast<std::ptrdiff_t>(range.begin),
                           views_.begin() + static_cast<std::ptrdiff_t>(range.end));
    known_->seen.keep(std::move(from), std::move(seen));
  }

  const Plan& plan_;
  const std::vector<Moment>& moments_;
  BeatsKnown* known_;
  std::vector<Target> things_;
  std::vector<View> views_;
  std::vector<Range> stretches_;
  std::vector<std::pair<Range, SeenFrom>> fresh_;
};

Attention reckoned(const Plan& plan, std::vector<View> views) {
  Attention attention;
  Reckoner reckoner(plan);
  attention.weights = reckoner.weights();
  attention.views = std::move(views);
  attention.samples.reserve(attention.views.size());
  for (const View& view : attention.views) attention.samples.push_back(reckoner.reckon(view));
  return attention;
}

}  // namespace

Attention weigh(const Plan& plan, const std::function<bool()>& unwanted, BeatsKnown* known) {
  return weigh_at(plan, usual_rate, unwanted, known);
}

Attention weigh_at(const Plan& plan, int samples_a_second, const std::function<bool()>& unwanted, BeatsKnown* known) {
  if (plan.beats.empty()) return reckoned(plan, {});
  const std::vector<Moment> moments = moments_of(plan, samples_a_second);
  return reckoned(plan, Viewer(plan, moments, known).views(unwanted));
}

Attention weigh_moments(const Plan& plan, const std::vector<Moment>& moments, Onlooker& onlooker) {
  std::vector<View> views;
  for (const Moment moment : moments) views.push_back(onlooker.see(plan, moment));
  return reckoned(plan, std::move(views));
}

const Sample& sample_at(const Attention& attention, Moment moment) {
  const auto later = std::upper_bound(attention.samples.begin(), attention.samples.end(), moment,
                                      [](Moment at, const Sample& sample) { return at < sample.moment; });
  return later == attention.samples.begin() ? *later : *(later - 1);
}

}  // namespace lensward
