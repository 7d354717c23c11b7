#include "emphasis/weigh.h"

#include <algorithm>
#include <utility>

#include "base/shared_work.h"
#include "emphasis/reckon.h"
#include "emphasis/sampling.h"
#include "lens/see.h"

namespace lensward {
namespace {

constexpr int usual_rate = 12;
constexpr std::size_t stretch = 24;  // moments

std::vector<Moment> moments_of(const Plan& plan, std::int64_t samples_a_second) {
  const Moment end = plan.duration();
  std::vector<Moment> moments;
  for (std::int64_t i = 0; i * 1000 / samples_a_second <= end.count; ++i)
    moments.push_back({i * 1000 / samples_a_second});
  for (const Moment turn : turning_points(plan)) {
    if (Moment{} <= turn && turn <= end) moments.push_back(turn);
  }
  moments.push_back(end);
  std::sort(moments.begin(), moments.end());
  moments.erase(std::unique(moments.begin(), moments.end()), moments.end());
  return moments;
}

// Each view is of its moment alone, so the cores share the scene in stretches, in which little changes from one moment
// to the next.
std::vector<View> views_of(const Plan& plan, const std::vector<Moment>& moments,
                           const std::function<bool()>& unwanted) {
  std::vector<View> views(moments.size());
  const std::size_t stretches = (moments.size() + stretch - 1) / stretch;
  share_work(stretches, [&](const NextIndex& next) {
    Onlooker onlooker;
    while (const auto turn = next()) {
      if (unwanted && unwanted()) return;
      const std::size_t end = std::min(moments.size(), (*turn + 1) * stretch);
      for (std::size_t i = *turn * stretch; i < end; ++i) views[i] = onlooker.see(plan, moments[i]);
    }
  });
  return views;
}

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

Attention weigh(const Plan& plan, const std::function<bool()>& unwanted) {
  return weigh_at(plan, usual_rate, unwanted);
}

Attention weigh_at(const Plan& plan, int samples_a_second, const std::function<bool()>& unwanted) {
  if (plan.beats.empty()) return reckoned(plan, {});
  std::vector<View> views = views_of(plan, moments_of(plan, samples_a_second), unwanted);
  if (unwanted && unwanted()) views.clear();
  return reckoned(plan, std::move(views));
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
