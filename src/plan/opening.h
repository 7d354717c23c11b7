// How the scene begins: who is there, where, and what the cameras and lamps show of it.
#pragma once

#include <vector>

#include "plan/building.h"
#include "plan/scene_text.h"

namespace lensward {

// Puts everything of the opening in place at moment 0, together with everybody's first `is` or posture line, in
// whatever beat it stands. Who enters later, or acts for the first time after the first beat, is away until then.
void build_opening(Building& building, const SceneText& text);

// The name that each framing's `also frames` lines belong to, for one part of the scene.
void join_framings(Building& building, const std::vector<const Statement*>& lines);
// The measures that belong to placing lines, for one part of the scene.
void join_marks(Building& building, const std::vector<const Statement*>& lines);
// Whom each person speaks to in these lines.
void note_addresses(Building& building, const std::vector<const Statement*>& lines);
// The people a speech is to: named, or whoever else spoke last before it; empty for everyone and nobody.
std::vector<PersonId> addressees_of(Building& building, const std::vector<const Statement*>& lines, std::size_t index);

}  // namespace lensward
