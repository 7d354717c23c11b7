// The reckoning of the eye, printed.
#pragma once

#include <string>

#include "cli/pipeline.h"

namespace lensward {

// The sample at a moment in full: for each person and thing what the lens sees of it, its gate, and a row a cue with
// weight, strength and points.
std::string tally_text(const Run& run, Moment moment);

// Every verdict on a line: beat, intent, how it came out, when it was decided, points of the favoured and the rival.
std::string verdicts_text(const Run& run);

// Comma-separated (RFC 4180): time_s,beat,name,left,top,right,bottom,points,share,has_the_eye; a row for every sample
// and everyone present. The box is of the whole body, 0..1 from the left and the top edge of the picture.
std::string tally_csv(const Run& run);

}  // namespace lensward
