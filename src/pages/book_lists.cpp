#include <fmt/core.h>

#include <algorithm>

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

std::string place_words(Vec2 at) { return fmt::format("({}, {}) m", number(at.x, 2), number(at.y, 2)); }

// The part of a next step that is left when the heading of its list has said what it is for.
std::string step_words(const Finding& finding) {
  std::string text = plain(finding.next_step);
  for (const std::string_view begin : {"to settle it", "to pin it, write under the line", "to pin it"}) {
    if (!text.starts_with(begin)) continue;
    text.erase(0, begin.size());
    text.erase(0, text.find_first_not_of(",: "));
    break;
  }
  return text;
}

// "(line 12)", not parted; empty for what belongs to the scene as a whole.
std::string line_note(const Results& results, Span where) {
  std::string line = where == results.plan.facts.heading ? "" : line_words(results, where);
  if (const std::size_t blank = line.find(' '); blank != std::string::npos) line.replace(blank, 1, "\u00a0");
  return line.empty() ? "" : " (" + line + ")";
}

Block list_row(const std::string& what, const std::string& step) {
  return row({{what, left_width, body}, {step, right_width, as_written}}, 1.6);
}

void add_list(const char* title, const char* how, std::vector<Block> rows, std::vector<Block>& blocks) {
  if (rows.empty()) return;
  blocks.push_back(heading(title, page_width));
  append(blocks, paragraph(how, page_width, {Face::sans_italic, type_size::body, Ink::dark, 0.6, 0}));
  append(blocks, std::move(rows));
}

void add_assumptions(const Results& results, std::vector<Block>& blocks) {
  std::vector<Block> rows;
  for (const Assumption& assumption : results.plan.assumptions) {
    const Finding* remark = remark_of(results, assumption);
    if (remark == nullptr && told_as_finding(results, assumption)) continue;
    rows.push_back(list_row(plain(assumption.what) + line_note(results, assumption.at),
                            remark == nullptr ? plain(assumption.pin) : step_words(*remark)));
  }
  add_list("Taken for granted", "What stands on the right settles what stands on the left.", std::move(rows), blocks);
}

std::string mark_words(const Mark& mark) { return fmt::format("mark {} at {}", mark.name, place_words(mark.at)); }

// A mark with what its remark tells; when nobody remarked on it, with what the plan knows.
Block mark_row(const Results& results, const Mark& mark) {
  const Finding* remark = remark_of(results, mark);
  const std::string when = ", at " + clock_text(mark.reached) + line_note(results, mark.said_at);
  if (remark == nullptr)
    return list_row(called(results.plan, mark.person) + " comes to rest at " + place_words(mark.at) + when,
                    mark_words(mark));
  return list_row(plain(remark->message) + when, remark->next_step.empty() ? "" : mark_words(mark));
}

void add_marks(const Results& results, std::vector<Block>& blocks) {
  std::vector<Block> rows;
  std::vector<const Finding*> told;
  for (const Mark& mark : results.plan.marks) {
    if (mark.origin != Origin::settled || mark.name.empty()) continue;
    const Finding* remark = remark_of(results, mark);
    if (remark == nullptr && told_as_finding(results, mark)) continue;
    told.push_back(remark);
    rows.push_back(mark_row(results, mark));
  }
  // What else was settled: furniture, and marks that were renamed since.
  for (const Finding& finding : results.findings.all())
    if (is_settled_remark(finding) && std::ranges::find(told, &finding) == told.end())
      rows.push_back(list_row(plain(finding.message) + line_note(results, finding.where), step_words(finding)));
  add_list("Settled from vague places",
           "What stands on the right, written under the line told, or for furniture on it, pins the place.",
           std::move(rows), blocks);
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

void add_remarks(const Results& results, const std::vector<const Finding*>& left_over, std::vector<Block>& blocks) {
  std::vector<const Finding*> remarks = findings_of(results, -1);
  std::erase_if(remarks, [&](const Finding* finding) {
    return finding->severity != Severity::remark || told_in_the_lists(results, *finding);
  });
  remarks.insert(remarks.end(), left_over.begin(), left_over.end());
  if (remarks.empty()) return;
  blocks.push_back(heading("Remarks", page_width));
  append(blocks, finding_blocks(results, remarks, page_width, true));
}

}  // namespace

std::vector<Sheet> lay_out_lists(const Results& results, const std::vector<const Finding*>& left_over) {
  std::vector<Block> blocks;
  add_assumptions(results, blocks);
  add_marks(results, blocks);
  const bool chosen = !blocks.empty();
  add_waivers(results.plan, blocks);
  add_notes(results.plan, blocks);
  add_remarks(results, left_over, blocks);
  std::vector<Sheet> sheets;
  if (blocks.empty()) return sheets;
  const std::string title = chosen ? "Chosen for you" : "Notes and remarks";
  sheets.push_back(blank_page(title, "chosen"));
  sheets.back().items.push_back(
      words(page_low + Vec2{0, type_size::beat_title * 0.8}, title, Face::serif, type_size::beat_title));
  run_on(sheets, blocks, page_low.y + 14, title + ", continued");
  return sheets;
}

}  // namespace lensward
