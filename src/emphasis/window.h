// Stretches of the attention, cut into slices of time, and what can be asked of them.
#pragma once

#include <algorithm>
#include <vector>

#include "emphasis/tally.h"
#include "plan/plan.h"

namespace lensward {

// The scene as it was seen.
struct Playback {
  const Plan& plan;
  const Attention& attention;
};

// One sample and how long it stands for.
struct Slice {
  const Sample* sample = nullptr;
  const View* view = nullptr;
  Moment begin, end;
};
using Window = std::vector<Slice>;

struct Stretch {
  Moment begin, end;
};

// All slices between two moments; empty when they are one.
Window window_of(const Playback& playback, Stretch stretch);
// Without the first `settle` of the stretch and of every picture after a cut, unless nothing would be left.
Window settled_window(const Playback& playback, Stretch stretch);
Window without(const Window& window, const std::vector<Stretch>& stretches);
Milliseconds length_of(const Window& window);

// How much of the window has the slices that answer yes, together.
template <class Ask>
Milliseconds together(const Window& window, Ask ask) {
  Milliseconds sum;
  for (const Slice& slice : window) {
    if (ask(slice)) sum += slice.end - slice.begin;
  }
  return sum;
}

// The same as a share; 0 of an empty window.
template <class Ask>
Share part(const Window& window, Ask ask) {
  const Milliseconds whole = length_of(window);
  if (whole.count == 0) return Share{0};
  return Share{static_cast<double>(together(window, ask).count) / static_cast<double>(whole.count)};
}

// The longest run of slices, one straight after the other, that answer yes.
template <class Ask>
Stretch longest(const Window& window, Ask ask) {
  Stretch best, run;
  for (const Slice& slice : window) {
    if (!ask(slice)) continue;
    if (run.end != slice.begin || run.begin == run.end) run.begin = slice.begin;
    run.end = slice.end;
    if (run.end - run.begin > best.end - best.begin) best = run;
  }
  return best;
}

// The first slice that answers yes, or null.
template <class Ask>
const Slice* first(const Window& window, Ask ask) {
  const auto found = std::find_if(window.begin(), window.end(), ask);
  return found == window.end() ? nullptr : &*found;
}

// The slice for which `measure` is least; the first of equals. Null of an empty window.
template <class Measured>
const Slice* least(const Window& window, Measured measure) {
  const auto found = std::min_element(window.begin(), window.end(),
                                      [&](const Slice& a, const Slice& b) { return measure(a) < measure(b); });
  return found == window.end() ? nullptr : &*found;
}

// ---- Of one person or thing in one slice --------------------------------------------------------------------------

Points points_of(const Slice& slice, const Target& target);
// Points less the best rival's, in whole hundredths. With `only` given, no one else is a rival.
Points lead_of(const Slice& slice, const Target& target, const std::vector<Target>& only = {});
Target rival_of(const Slice& slice, const Target& target, const std::vector<Target>& only = {});
bool has_the_eye(const Slice& slice, const Target& target);
// Null when they are away or behind the lens.
const PersonSeen* person_in(const View& view, const Target& target);

// The part of head and chest (of a thing: of itself) in frame and unmasked; 0 when away.
Share clear_part(const Slice& slice, const Target& target);
// The part of the whole body or thing in frame and unmasked.
Share whole_part(const Slice& slice, const Target& target);
// Half of them clear, no more than 2 stops under, blur at most 6 % of the head.
bool legible(const Playback& playback, const Slice& slice, const Target& target);

}  // namespace lensward
