// Values -> sheets.
#pragma once

#include "emphasis/tally.h"
#include "emphasis/verdict.h"
#include "findings/finding.h"
#include "pages/sheet.h"
#include "plan/plan.h"
#include "source/source_file.h"

namespace lensward {

// Everything a page may speak of.
struct Results {
  const SourceSet& sources;
  const Plan& plan;
  const Attention& attention;
  const std::vector<Verdict>& verdicts;
  const Findings& findings;
};

// The staging book: cover, a page or spread for each beat, charts, choices, waivers.
Book lay_out_book(const Results& results);

// One overhead of a beat, with the paths walked in it, at a moment (default: the beat's deciding moment).
Sheet lay_out_floor(const Results& results, int beat, Moment moment);

// One frame thumbnail as the camera on air sees it.
Sheet lay_out_frame(const Results& results, Moment moment);

// The moment that decides the beat's verdict: where its thumbnail is drawn.
Moment deciding_moment(const Results& results, int beat);

}  // namespace lensward
