#include "emphasis/window.h"

#include <cmath>

#include "emphasis/gates.h"

namespace lensward {
namespace {

const ThingSeen* thing_in(const View& view, const Target& target) {
  for (const ThingSeen& thing : view.things) {
    if (thing.target == target) return &thing;
  }
  return nullptr;
}

bool inside(const std::vector<Stretch>& stretches, Moment moment) {
  return std::any_of(stretches.begin(), stretches.end(),
                     [moment](const Stretch& stretch) { return stretch.begin <= moment && moment < stretch.end; });
}

// Slices are cut at the ends of the stretches, so that a stretch takes away exactly its length.
void cut_at(Window& window, Moment moment) {
  for (std::size_t i = 0; i < window.size(); ++i) {
    if (window[i].begin >= moment || moment >= window[i].end) continue;
    Slice rest = window[i];
    rest.begin = window[i].end = moment;
    window.insert(window.begin() + static_cast<std::ptrdiff_t>(i) + 1, rest);
    return;
  }
}

}  // namespace

Window window_of(const Playback& playback, Stretch stretch) {
  const std::vector<Sample>& samples = playback.attention.samples;
  Window window;
  const auto later = std::upper_bound(samples.begin(), samples.end(), stretch.begin,
                                      [](Moment begin, const Sample& sample) { return begin < sample.moment; });
  const auto from = static_cast<std::size_t>(std::max<std::ptrdiff_t>(later - samples.begin() - 1, 0));
  for (std::size_t i = from; i < samples.size() && samples[i].moment < stretch.end; ++i) {
    const bool last = i + 1 == samples.size();
    const Moment begin = std::max(samples[i].moment, stretch.begin);
    const Moment end = last ? std::max(samples[i].moment, begin) : std::min(samples[i + 1].moment, stretch.end);
    if (begin < end) window.push_back({&samples[i], &playback.attention.views[i], begin, end});
  }
  return window;
}

Window settled_window(const Playback& playback, Stretch stretch) {
  const Window whole = window_of(playback, stretch);
  const Milliseconds settle = to_milliseconds(playback.plan.settings.settle);
  std::vector<Stretch> unsettled{{stretch.begin, stretch.begin + settle}};
  for (const CutTo& cut : playback.plan.cuts) unsettled.push_back({cut.at, cut.at + settle});
  const Window settled = without(whole, unsettled);
  return settled.empty() ? whole : settled;
}

Window without(const Window& window, const std::vector<Stretch>& stretches) {
  Window cut = window;
  for (const Stretch& stretch : stretches) {
    cut_at(cut, stretch.begin);
    cut_at(cut, stretch.end);
  }
  std::erase_if(cut, [&](const Slice& slice) { return inside(stretches, slice.begin); });
  return cut;
}

Milliseconds length_of(const Window& window) {
  return together(window, [](const Slice&) { return true; });
}

Points points_of(const Slice& slice, const Target& target) {
  const Standing* standing = standing_of(*slice.sample, target);
  return standing == nullptr ? Points{0} : standing->points;
}

Points lead_of(const Slice& slice, const Target& target, const std::vector<Target>& only) {
  Points rival{0};
  if (only.empty()) rival = best_rival(*slice.sample, target);
  for (const Target& other : only) rival = std::max(rival, points_of(slice, other));
  return Points{std::round((points_of(slice, target) - rival).value * 100) / 100};
}

Target rival_of(const Slice& slice, const Target& target, const std::vector<Target>& only) {
  Target rival;
  if (only.empty()) {
    best_rival(*slice.sample, target, &rival);
    return rival;
  }
  Points most{-1};
  for (const Target& other : only) {
    if (points_of(slice, other) <= most) continue;
    most = points_of(slice, other);
    rival = other;
  }
  return rival;
}

bool has_the_eye(const Slice& slice, const Target& target) { return slice.sample->holder == target; }

const PersonSeen* person_in(const View& view, const Target& target) {
  if (target.kind != Target::Kind::person) return nullptr;
  for (const PersonSeen& person : view.people) {
    if (person.person.index == target.index && person.in_front) return &person;
  }
  return nullptr;
}

Share clear_part(const Slice& slice, const Target& target) {
  if (const PersonSeen* person = person_in(*slice.view, target)) return person->head_and_chest_visible;
  if (const ThingSeen* thing = thing_in(*slice.view, target)) return thing->visible;
  return Share{0};
}

Share whole_part(const Slice& slice, const Target& target) {
  if (const PersonSeen* person = person_in(*slice.view, target)) return person->body_visible;
  if (const ThingSeen* thing = thing_in(*slice.view, target)) return thing->visible;
  return Share{0};
}

bool legible(const Playback& playback, const Slice& slice, const Target& target) {
  constexpr double clear_enough = 0.5, stops_under = -2, blur_of_height = 0.06;
  if (clear_part(slice, target).value < clear_enough) return false;
  const double gate = slice.view->state.gate_height.value;
  if (const PersonSeen* person = person_in(*slice.view, target)) {
    return seen_exposure(playback.plan, *slice.view, *person).value >= stops_under &&
           person->blur.value <= blur_of_height * person->head_height.value * gate;
  }
  const ThingSeen* thing = thing_in(*slice.view, target);
  return thing != nullptr && thing->blur.value <= blur_of_height * (thing->box.bottom - thing->box.top) * gate;
}

}  // namespace lensward
