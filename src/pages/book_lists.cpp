#include <fmt/format.h>

#include "base/quantity_text.h"
#include "pages/book_parts.h"
#include "pages/draw.h"
#include "pages/paper.h"
#include "pages/words.h"

namespace lensward {
namespace {

constexpr Setting body{Face::sans, type_size::body, Ink::black, 0, 0};
constexpr Setting quiet{Face::sans, type_size::body, Ink::dark, 0, 0};
constexpr Setting as_written{Face::sans_italic, type_size::body, Ink::dark, 0, 0};
constexpr double left_width = 84, right_width = page_width - left_width - 3;

void add_assumptions(const Plan& plan, std::vector<Block>& blocks) {
  if (plan.assumptions.empty()) return;
  blocks.push_back(heading("Taken for granted", page_width));
  append(blocks, paragraph("Each line on the right, written into the scene, settles what stands on the left.",
                           page_width, {Face::sans_italic, type_size::body, Ink::dark, 0.6, 0}));
  for (const Assumption& assumption : plan.assumptions)
    blocks.push_back(
        row({{plain(assumption.what), left_width, body}, {plain(assumption.pin), right_width, as_written}}, 1.6));
}

std::string place_words(Vec2 at) { return fmt::format("({}, {}) m", number(at.x, 2), number(at.y, 2)); }

void add_marks(const Plan& plan, std::vector<Block>& blocks) {
  std::vector<Block> rows;
  for (const Mark& mark : plan.marks) {
    if (mark.origin != Origin::settled || mark.name.empty()) continue;
    const std::string what = fmt::format("{} comes to rest at {}, at {}", called(plan, mark.person),
                                         place_words(mark.at), clock_text(mark.reached));
    rows.push_back(row({{what, left_width, body},
                        {fmt::format("mark {} at {}", mark.name, place_words(mark.at)), right_width, as_written}},
                       1.6));
  }
  if (rows.empty()) return;
  blocks.push_back(heading("Marks settled from vague places", page_width));
  append(blocks, std::move(rows));
}

void add_waivers(const Plan& plan, std::vector<Block>& blocks) {
  if (plan.waivers.empty()) return;
  blocks.push_back(heading("Broken on purpose", page_width));
  for (const Waiver& waiver : plan.waivers) {
    const std::string who = waiver.people.empty() ? "everyone" : listed(waiver.people);
    const std::string when = fmt::format("{} to {}", clock_text(waiver.begin), clock_text(waiver.end));
    blocks.push_back(row({{waiver.rule, 36, {Face::sans_bold, type_size::body, Ink::black, 0, 0}},
                          {fmt::format("{}, {}", who, when), left_width - 39, quiet},
                          {waiver.because, right_width, {Face::serif_italic, type_size::body + 0.3, Ink::black, 0, 0}}},
                         1.6));
  }
}

void add_notes(const Plan& plan, std::vector<Block>& blocks) {
  if (plan.notes.empty()) return;
  blocks.push_back(heading("Notes", page_width));
  for (const CrewNote& note : plan.notes)
    blocks.push_back(row({{note.department, 36, {Face::sans_bold, type_size::body, Ink::black, 0, 0}},
                          {clock_text(note.at), 14, quiet},
                          {note.text, page_width - 56, {Face::serif, type_size::body + 0.3, Ink::black, 0, 0}}},
                         1.6));
}

void add_remarks(const Results& results, std::vector<Block>& blocks) {
  std::vector<const Finding*> remarks = findings_of(results, -1);
  std::erase_if(remarks, [](const Finding* finding) { return finding->severity != Severity::remark; });
  if (remarks.empty()) return;
  blocks.push_back(heading("Remarks on the scene", page_width));
  append(blocks, finding_blocks(results, remarks, page_width, false));
}

}  // namespace

std::vector<Sheet> lay_out_lists(const Results& results) {
  std::vector<Block> blocks;
  add_assumptions(results.plan, blocks);
  add_marks(results.plan, blocks);
  add_waivers(results.plan, blocks);
  add_notes(results.plan, blocks);
  add_remarks(results, blocks);
  std::vector<Sheet> sheets;
  if (blocks.empty()) return sheets;
  sheets.push_back(blank_page("Chosen for you", "chosen"));
  sheets.back().items.push_back(
      words(page_low + Vec2{0, type_size::beat_title * 0.8}, "Chosen for you", Face::serif, type_size::beat_title));
  run_on(sheets, blocks, page_low.y + 14, "Chosen for you, continued");
  return sheets;
}

}  // namespace lensward
