#include "pages/lay_out.h"

#include <fmt/core.h>

#include <algorithm>
#include <iterator>

#include "base/quantity_text.h"
#include "pages/book_parts.h"
#include "pages/chart.h"
#include "pages/draw.h"
#include "pages/overhead.h"
#include "pages/paper.h"
#include "pages/thumbnail.h"
#include "pages/words.h"

namespace lensward {
namespace {

Target favoured_at(const Results& results, Moment moment) {
  const auto asked = asked_for(results.plan, beat_at(results.plan, moment), moment);
  return asked.empty() ? Target{} : asked.front();
}

}  // namespace

Moment deciding_moment(const Results& results, int beat) {
  const Verdict* gravest = nullptr;
  for (const Verdict* verdict : verdicts_of(results, beat))
    if (gravest == nullptr || gravity(verdict->result) > gravity(gravest->result)) gravest = verdict;
  const bool known = beat >= 0 && beat < static_cast<int>(results.plan.beats.size());
  if (gravest != nullptr && gravity(gravest->result) > 0) return gravest->decided;
  if (!known) return {};
  const Beat& whole = results.plan.beats[static_cast<std::size_t>(beat)];
  return {(whole.begin.count + whole.end.count) / 2};
}

Book lay_out_book(const Results& results) {
  Book book;
  book.title = title_of(results.plan.facts);
  book.subject = "Staging book";
  const auto add = [&book](std::vector<Sheet> sheets) {
    std::move(sheets.begin(), sheets.end(), std::back_inserter(book.sheets));
  };
  add(lay_out_cover(results));
  std::vector<const Finding*> left_over;
  for (int beat = 0; beat < static_cast<int>(results.plan.beats.size()); ++beat) {
    BeatSheets sheets = lay_out_beat(results, beat);
    add(std::move(sheets.sheets));
    left_over.insert(left_over.end(), sheets.left_over.begin(), sheets.left_over.end());
  }
  add(lay_out_chart(results));
  add(lay_out_lists(results, left_over));
  add_feet(book);
  return book;
}

Sheet lay_out_floor(const Results& results, int beat, Moment moment) {
  constexpr double margin = 8, head = 9;
  constexpr Vec2 most{182, 230};
  Overhead drawing = draw_overhead(results, beat, moment, {margin, margin + head}, most);
  Sheet sheet;
  const bool known = beat >= 0 && beat < static_cast<int>(results.plan.beats.size());
  sheet.title = title_of(results.plan.facts);
  if (known) sheet.title = results.plan.beats[static_cast<std::size_t>(beat)].name;
  sheet.anchor = "floor";
  sheet.label = "1";
  const std::string when = clock_text(moment);
  const double name_width = most.x - width_of(when, Face::sans, type_size::body) - 4;
  sheet.items.push_back(words({margin, margin + 4}, shortened(sheet.title, Face::serif, type_size::heading, name_width),
                              Face::serif, type_size::heading));
  sheet.items.push_back(
      words({margin + most.x, margin + 4}, when, Face::sans, type_size::body, Ink::dark, Text::Anchor::right));
  sheet.items.push_back({std::move(drawing.group)});
  double y = margin + head + drawing.size.y;
  if (!drawing.key.empty()) {
    const auto blocks = key_blocks(drawing.key, most.x);
    y += 2 + pour(blocks, 0, {{margin, y + 2}, 1000}, sheet.items).used;
  }
  sheet.width = most.x + 2 * margin;
  sheet.height = y + margin;
  return sheet;
}

Sheet lay_out_frame(const Results& results, Moment moment) {
  constexpr double margin = 6, wide = 190;
  Sheet sheet;
  const Vec2 size{wide, thumbnail_height(results.plan, moment, wide)};
  sheet.width = wide + 2 * margin;
  sheet.height = size.y + 2 * margin + 6;
  sheet.title = title_of(results.plan.facts);
  sheet.anchor = "frame";
  sheet.label = "1";
  sheet.items.push_back(
      {thumbnail(results.plan, moment, {margin, margin}, size, favoured_at(results, moment), "frame")});
  const std::string caption = frame_caption(results.plan, moment, favoured_at(results, moment));
  sheet.items.push_back(words({margin, margin + size.y + 4.6}, shortened(caption, Face::sans, type_size::body, wide),
                              Face::sans, type_size::body, Ink::dark));
  return sheet;
}

}  // namespace lensward
