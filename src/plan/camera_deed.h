// What the deeds of cameras share: what a camera's lanes are set to, and what its line tells.
#pragma once

#include <optional>
#include <string_view>

#include "plan/amounts.h"
#include "plan/deeds.h"
#include "plan/measures.h"

namespace lensward {

// ---- The lanes ----------------------------------------------------------------------------------------------------
// Each begins at the deed's begin and lets go of what its lane followed.

CameraState now(const Performance& performance);
bool is_on_air(const Performance& performance);
// Another deed in the lane meanwhile is told as a clash, unless one of them gives way. Nothing clashes in the opening.
void occupy_lane(const Performance& performance, LaneKind lane, Milliseconds length, bool gives_way);

template <class Value>
void change(const Performance& performance, Lane<Value>& lane, Value from, Value to, Milliseconds length) {
  put(lane, {performance.begin, performance.begin + length, from, to, Origin::said, performance.statement.span});
}

// A lane that follows something lets go of it.
void release(const Performance& performance, Lane<Target>& lane);

void move_to(const Performance& performance, Vec3 to, Milliseconds length);
// A pan goes the short way round.
void aim_to(const Performance& performance, Degrees pan, Degrees tilt, Milliseconds length);
void zoom_to(const Performance& performance, Millimetres focal, Milliseconds length);
void focus_at(const Performance& performance, Metres distance, Milliseconds length);
// The focus goes there and stays with it.
void focus_with(const Performance& performance, const Target& target, Milliseconds length);

// ---- What the line tells; what cannot be found is told as a finding -------------------------------------------------

std::optional<Target> target_of_thing(const Performance& performance, const Thing& thing);
std::optional<Target> target_of_place(const Performance& performance, const Place& place);
const Place* first_place(const Performance& performance);
// What the line aims at: its object, or its first place.
std::optional<Vec3> point_told(const Performance& performance);
std::optional<Vec2> floor_told(const Performance& performance);
// Of the clause that begins with the word.
std::optional<double> measure_told(const Performance& performance, std::string_view word, const Limits& limits);

}  // namespace lensward
