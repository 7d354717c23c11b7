// What mending works with, made by the pipeline.
#pragma once

#include "cli/pipeline.h"
#include "mend/rehearsal.h"

namespace lensward {

Rehearsal rehearsal_of(Run run);

// How far the pipeline goes for a depth.
Until until_of(Depth depth);

}  // namespace lensward
