// Reading one lane at one moment.
#pragma once

#include <algorithm>

#include "plan/plan.h"

namespace lensward {

// The latest segment that begins at or before the moment; before the first one, the first. Null for an empty lane.
template <class Value>
const Segment<Value>* segment_at(const Lane<Value>& lane, Moment moment) {
  if (lane.empty()) return nullptr;
  const auto after = std::upper_bound(lane.begin(), lane.end(), moment,
                                      [](Moment m, const Segment<Value>& segment) { return m < segment.begin; });
  return after == lane.begin() ? &lane.front() : &*(after - 1);
}

// How far the segment has come, 0..1; an instant has come all the way from its moment on.
template <class Value>
double progress(const Segment<Value>& segment, Moment moment) {
  if (moment < segment.begin) return 0;
  if (moment >= segment.end) return 1;
  return static_cast<double>((moment - segment.begin).count) / static_cast<double>((segment.end - segment.begin).count);
}

// Of values that cannot be mixed: what was before holds until the segment has come to `turn`, 0..1.
template <class Value>
Value stepped(const Lane<Value>& lane, Moment moment, const Value& otherwise, double turn = 1) {
  const Segment<Value>* segment = segment_at(lane, moment);
  if (segment == nullptr) return otherwise;
  return progress(*segment, moment) >= turn ? segment->to : segment->from;
}

}  // namespace lensward
