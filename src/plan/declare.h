// The script's declarations -> the stage: people, room, furniture, lamps, cameras, with a default for every silence.
#pragma once

#include "findings/finding.h"
#include "plan/names.h"
#include "plan/plan.h"
#include "syntax/script.h"

namespace lensward {

// Fills facts, settings, stage and assumptions of `plan`, and `names`. Cameras, lamps and furniture that are declared
// with a place get it in `plan.cameras`/`plan.lamps`/the piece itself, as a segment at moment 0. Without a room, a
// camera or a lamp in the script the defaults of docs/language.md are supplied, each with an Assumption.
void declare(const Script& script, Plan& plan, Names& names, Findings& findings);

// A `default` line of a beat. Only how far people stand off and how fast they go may be settled for one beat; anything
// else is reported as `parse.wrong-place`, a slip in the key or the figure as above the opening.
void keep_for_beat(const SettingLine& line, Settings& settings, Findings& findings);

}  // namespace lensward
