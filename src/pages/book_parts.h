// The parts of the staging book, each a list of sheets without feet.
#pragma once

#include <string>
#include <vector>

#include "pages/flow.h"
#include "pages/lay_out.h"

namespace lensward {

std::vector<Sheet> lay_out_cover(const Results& results);
// Requires a beat of the plan.
std::vector<Sheet> lay_out_beat(const Results& results, int beat);
// What the program took for granted, what is broken on purpose, notes for the crew, remarks on no one beat; none when
// there is nothing.
std::vector<Sheet> lay_out_lists(const Results& results);

// Destination of a beat's page.
std::string beat_anchor(const Results& results, int beat);

// Findings as blocks: sign, place, message, what to do. `with_links`: to their beats.
std::vector<Block> finding_blocks(const Results& results, const std::vector<const Finding*>& findings, double width,
                                  bool with_links);

// The key to numbers that stand for names on an overhead.
std::vector<Block> key_blocks(const std::vector<std::string>& key, double width);

// Runs blocks over as many pages as they need: on the first from `top` down, on later ones from a small running title.
void run_on(std::vector<Sheet>& sheets, const std::vector<Block>& blocks, double top, const std::string& running_title);

// "A rehearsal aid …", and what must be said where the camera moves among people.
std::string rehearsal_words();
std::string moving_camera_words();
bool camera_moves(const Plan& plan, Moment begin, Moment end);

}  // namespace lensward
