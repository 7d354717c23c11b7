// Two drafts on pages, for `compare` and `mend`.
#pragma once

#include <string>
#include <vector>

#include "cli/commands.h"
#include "pages/two_drafts.h"

namespace lensward {

// Writes them as PDF and tells of it. Throws CannotRun for another ending than `.pdf`, and when it cannot be written.
void put_two_drafts(const TwoDrafts& drafts, const std::vector<std::string>& of_the_scene,
                    const std::vector<BeatOfBoth>& beats, const std::string& output, Surroundings& around);

// The index of the beat with this name; -1.
int beat_named(const Plan& plan, const std::string& name);

}  // namespace lensward
