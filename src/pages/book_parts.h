// The parts of the staging book, each a list of sheets without feet.
#pragma once

#include <string>
#include <vector>

#include "pages/flow.h"
#include "pages/lay_out.h"

namespace lensward {

std::vector<Sheet> lay_out_cover(const Results& results);
// The pages of a beat, and the remarks for which they had no room. Findings that they leave out stand on the cover.
struct BeatSheets {
  std::vector<Sheet> sheets;
  std::vector<const Finding*> left_over;
};
// Requires a beat of the plan.
BeatSheets lay_out_beat(const Results& results, int beat);
// What the program took for granted and settled, what is broken on purpose, notes for the crew, remarks on no one beat
// and those left over; none when there is nothing.
std::vector<Sheet> lay_out_lists(const Results& results, const std::vector<const Finding*>& left_over);

// What the lists tell in rows of their own is told nowhere else: the remark on a default, and on a mark settled from a
// vague place. Null when no remark, or a waived one, is on it.
const Finding* remark_of(const Results& results, const Assumption& assumption);
const Finding* remark_of(const Results& results, const Mark& mark);
// A `treat` line made a warning or an error of it, which then stands with the findings.
bool told_as_finding(const Results& results, const Assumption& assumption);
bool told_as_finding(const Results& results, const Mark& mark);
bool is_settled_remark(const Finding& finding);
bool told_in_the_lists(const Results& results, const Finding& finding);

// Destination of a beat's page.
std::string beat_anchor(const Results& results, int beat);

// Findings as blocks: sign, place, message, what to do. `with_links`: to their beats.
std::vector<Block> finding_blocks(const Results& results, const std::vector<const Finding*>& findings, double width,
                                  bool with_links);

// The key to numbers that stand for names on an overhead.
std::vector<Block> key_blocks(const std::vector<std::string>& key, double width);

// Runs blocks over as few pages as they need, closer together when that saves one: on the first from `top` down, on
// later ones from a small running title.
void run_on(std::vector<Sheet>& sheets, const std::vector<Block>& wanted, double top, const std::string& running_title);

// The foot of every page, with its number, which becomes its label.
void add_feet(Book& book);

// "A rehearsal aid …", and what must be said where the camera moves among people.
std::string rehearsal_words();
std::string moving_camera_words();
bool camera_moves(const Plan& plan, Moment begin, Moment end);

}  // namespace lensward
