#include "emphasis/weigh.h"

#include <algorithm>

#include "emphasis/reckon.h"
#include "emphasis/sampling.h"
#include "lens/see.h"

namespace lensward {
namespace {

constexpr int usual_rate = 12;

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

}  // namespace

Attention weigh(const Plan& plan) { return weigh_at(plan, usual_rate); }

Attention weigh_at(const Plan& plan, int samples_a_second) {
  Attention attention;
  Reckoner reckoner(plan);
  attention.weights = reckoner.weights();
  if (plan.beats.empty()) return attention;
  const std::vector<Moment> moments = moments_of(plan, samples_a_second);
  attention.views.reserve(moments.size());
  attention.samples.reserve(moments.size());
  Onlooker onlooker;
  for (const Moment moment : moments) {
    const View& view = attention.views.emplace_back(onlooker.see(plan, moment));
    attention.samples.push_back(reckoner.reckon(view));
  }
  return attention;
}

const Sample& sample_at(const Attention& attention, Moment moment) {
  const auto later = std::upper_bound(attention.samples.begin(), attention.samples.end(), moment,
                                      [](Moment at, const Sample& sample) { return at < sample.moment; });
  return later == attention.samples.begin() ? *later : *(later - 1);
}

}  // namespace lensward
