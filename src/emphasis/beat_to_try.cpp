#include "emphasis/beat_to_try.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <utility>

#include "emphasis/reckon.h"
#include "lens/seen_thing.h"
#include "plan/beat_alone.h"

namespace lensward {
namespace {

constexpr Milliseconds between_views{240};
constexpr int moments_at_most = 32;

// What the eye remembers at the begin of each beat.
std::vector<EyeMemory> beginnings(const Plan& plan, const Attention& attention) {
  std::vector<EyeMemory> begins;
  Reckoner reckoner(plan);
  std::size_t next = 0;
  for (const Beat& beat : plan.beats) {
    for (; next < attention.samples.size() && attention.samples[next].moment < beat.begin; ++next)
      reckoner.reckon(attention.views[next]);
    begins.push_back(reckoner.memory());
  }
  return begins;
}

int local(const std::vector<int>& kept, int index) {
  const auto found = std::find(kept.begin(), kept.end(), index);
  return index < 0 || found == kept.end() ? -1 : static_cast<int>(found - kept.begin());
}

void take_verdicts(const BeatAlone& alone, int beat, const std::vector<Verdict>& verdicts, BeatToTry& one) {
  for (std::size_t i = 0; i < verdicts.size(); ++i) {
    if (verdicts[i].beat != beat || verdicts[i].result == Verdict::Result::not_judged) continue;
    Verdict asked;
    asked.intent = local(alone.intents, verdicts[i].intent);
    asked.story = local(alone.stories, verdicts[i].story);
    asked.beat = 0;
    asked.result = verdicts[i].result;
    if (asked.intent < 0 && asked.story < 0) continue;
    one.from.asked.push_back(asked);
    one.verdict_of.push_back(static_cast<int>(i));
  }
}

// The attention a little before the beat, as it is; and of the beat as much as is looked at again.
void take_samples(const Beat& beat, Milliseconds later, const Attention& attention, BeatToTry& one) {
  const Milliseconds between = std::max(between_views, Milliseconds{(beat.end - beat.begin).count / moments_at_most});
  std::optional<Moment> taken;
  one.from.lead_in.weights = attention.weights;
  for (std::size_t i = 0; i < attention.samples.size(); ++i) {
    const Moment moment = attention.samples[i].moment;
    if (moment < beat.begin - before_a_beat || moment > beat.end) continue;
    const bool before = moment < beat.begin;
    const bool due = !taken || moment - *taken >= between || moment == beat.end;
    if (!before && !due) continue;
    View& view = (before ? one.from.lead_in.views : one.views).emplace_back(attention.views[i]);
    view.moment = moment + later;
    if (before) {
      one.from.lead_in.samples.emplace_back(attention.samples[i]).moment = view.moment;
    } else {
      one.from.seen.moments.push_back(view.moment);
      taken = moment;
    }
  }
}

}  // namespace

std::vector<BeatToTry> beats_to_try(const Plan& plan, const Attention& attention,
                                    const std::vector<Verdict>& verdicts) {
  const std::vector<Target> things = things_named(plan);
  const std::vector<EyeMemory> begins = beginnings(plan, attention);
  std::vector<BeatToTry> beats;
  for (std::size_t i = 0; i < plan.beats.size(); ++i) {
    const Beat& beat = plan.beats[i];
    if (!beat.judged || !on_air(plan, beat.begin).known()) continue;
    BeatAlone alone = beat_alone(plan, static_cast<int>(i));
    BeatToTry one;
    take_verdicts(alone, static_cast<int>(i), verdicts, one);
    if (one.from.asked.empty()) continue;
    take_samples(beat, alone.later, attention, one);
    one.from.start = later(begins[i], alone.later);
    one.from.seen.things = things;
    one.from.seen.plan = std::move(alone.plan);
    one.marks = std::move(alone.marks);
    beats.push_back(std::move(one));
  }
  return beats;
}

}  // namespace lensward
