#include "pages/crew_pages.h"

#include <fmt/core.h>

#include <algorithm>
#include <set>

#include "base/quantity_text.h"
#include "pages/book_parts.h"
#include "pages/draw.h"
#include "pages/overhead.h"
#include "pages/paper.h"
#include "pages/words.h"

namespace lensward {
namespace {

constexpr double gap = 3;
constexpr Setting body{Face::sans, type_size::body, Ink::black, 0, 0};
constexpr Setting head{Face::sans_bold, type_size::small, Ink::dark, 0, 0};

// What the fields want, stretched or squeezed to the page.
std::vector<double> widths_of(const CrewTable& table) {
  double wanted = 0;
  for (const Field& field : table.fields) wanted += field.width;
  const double room = page_width - gap * static_cast<double>(table.fields.size() - 1);
  std::vector<double> widths;
  for (const Field& field : table.fields) widths.push_back(field.width * room / wanted);
  return widths;
}

template <class Words>
Block table_row(const CrewTable& table, const std::vector<double>& widths, const Setting& setting, double before,
                const Words& words_of) {
  std::vector<Cell> cells;
  for (std::size_t i = 0; i < table.fields.size(); ++i) cells.push_back({words_of(i), widths[i], setting});
  return row(cells, before, gap);
}

// A hairline over it leads the eye along.
Block ruled(Block block) {
  block.items.push_back(line({0, -0.5}, {page_width, -0.5}, pen(Ink::faint, hairline)));
  return block;
}

// A column in which nothing stands is left out of the page, and what is for the CSV file alone.
CrewTable for_the_page(CrewTable table) {
  for (std::size_t i = table.fields.size(); i-- > 0;) {
    const auto empty = [i](const std::vector<Entry>& row) { return page_text(row[i], Lengths::metres).empty(); };
    if (table.fields[i].width > 0 && !std::ranges::all_of(table.rows, empty)) continue;
    const auto at = static_cast<std::ptrdiff_t>(i);
    table.fields.erase(table.fields.begin() + at);
    for (std::vector<Entry>& row : table.rows) row.erase(row.begin() + at);
  }
  return table;
}

std::vector<Block> table_blocks(const CrewTable& whole, Lengths lengths) {
  const CrewTable table = for_the_page(whole);
  const std::vector<double> widths = widths_of(table);
  std::vector<Block> blocks{heading(table.title, page_width)};
  if (!table.how.empty()) {
    append(blocks, paragraph(table.how, page_width, {Face::sans_italic, type_size::small, Ink::dark, 0.4, 0}));
    for (Block& block : blocks) block.with_next = true;
  }
  blocks.push_back(table_row(table, widths, head, 1.2, [&](std::size_t i) { return table.fields[i].heading; }));
  blocks.back().with_next = true;
  for (const std::vector<Entry>& entries : table.rows)
    blocks.push_back(
        ruled(table_row(table, widths, body, 1.3, [&](std::size_t i) { return page_text(entries[i], lengths); })));
  return blocks;
}

std::vector<Block> caution_blocks(const std::vector<std::string>& cautions) {
  std::vector<Block> blocks;
  if (cautions.empty()) return blocks;
  blocks.push_back(heading("Cautions", page_width));
  for (const std::string& caution : cautions)
    append(blocks, paragraph(caution, page_width, {Face::sans, type_size::body, Ink::black, 0.8, 0}));
  return blocks;
}

double draw_head(const Results& results, const CrewSheet& crew, Sheet& sheet) {
  const SceneFacts& facts = results.plan.facts;
  const std::string number = facts.number.empty() ? "" : "scene " + facts.number + "  ·  ";
  sheet.items.push_back(
      words(page_low + Vec2{0, 2.6}, number + title_of(facts), Face::sans, type_size::body, Ink::dark));
  sheet.items.push_back(words({page_high.x, page_low.y + 2.6}, "runs " + clock_text(results.plan.duration()),
                              Face::sans, type_size::body, Ink::dark, Text::Anchor::right));
  double y = page_low.y + 5;
  std::vector<Block> title = paragraph(crew.title, page_width, {Face::serif, type_size::beat_title, Ink::black, 0, 0});
  if (crew.person.known()) {
    const Person& person = person_of(results.plan, crew.person);
    const std::string tape = person.tape.empty() ? "" : "  ·  " + person.tape + " tape";
    append(title, paragraph("number " + ordinal(results.plan, crew.person) + tape, page_width,
                            {Face::serif_italic, type_size::heading, Ink::dark, 0.4, 0}));
  }
  y += pour(title, 0, {{page_low.x, y}, 60}, sheet.items).used + 2.4;
  return y;
}

// The beats in which somebody of the sheet comes to a mark; of marks, anybody.
std::vector<int> beats_drawn(const Plan& plan, const CrewSheet& crew) {
  std::set<int> beats;
  for (const Mark& mark : plan.marks)
    if (!mark.name.empty() && (crew.whom == CrewSheet::For::marks || mark.person == crew.person))
      beats.insert(beat_at(plan, mark.reached));
  beats.erase(-1);
  return {beats.begin(), beats.end()};
}

// Two floors on a page, each as its beat ends; a single one has the page to itself.
void add_floors(const Results& results, const CrewSheet& crew, std::vector<Sheet>& sheets) {
  constexpr double title = 6;
  const std::vector<int> beats = beats_drawn(results.plan, crew);
  const double top = page_low.y + 8, cell = (body_high.y - top) / (beats.size() == 1 ? 1 : 2);
  for (std::size_t i = 0; i < beats.size(); ++i) {
    if (i % 2 == 0) {
      sheets.push_back(blank_page("", ""));
      sheets.back().items.push_back(
          words(page_low + Vec2{0, 2.6}, crew.title + ", the floor", Face::sans_italic, type_size::body, Ink::dark));
    }
    const Beat& beat = results.plan.beats[static_cast<std::size_t>(beats[i])];
    const double y = top + (i % 2 == 0 ? 0 : cell);
    sheets.back().items.push_back(
        words({page_low.x, y + 3}, beat.name + ", as it ends", Face::serif, type_size::speech));
    sheets.back().items.push_back(words({page_high.x, y + 3}, "in bold who is to have the eye; dotted: as it began",
                                        Face::sans_italic, type_size::small, Ink::dark, Text::Anchor::right));
    const Moment moment = std::max(beat.begin, beat.end - Milliseconds{1});
    Overhead drawing =
        draw_overhead(results, beats[i], moment, {page_low.x, y + title}, {page_width, cell - title - 3});
    drawing.group.id = fmt::format("{}/floor-{}", spelling(crew.whom), beats[i] + 1);
    const double below = y + title + drawing.size.y + 2;
    const std::vector<Block> key = key_blocks(drawing.key, page_width);
    sheets.back().items.push_back({std::move(drawing.group)});
    if (!drawing.key.empty()) pour(key, 0, {{page_low.x, below}, 20}, sheets.back().items);
  }
}

}  // namespace

Book lay_out_crew(const Results& results, const std::vector<CrewSheet>& sheets, Lengths lengths) {
  Book book;
  book.title = title_of(results.plan.facts);
  book.subject = "Crew sheets";
  for (const CrewSheet& crew : sheets) {
    std::vector<Sheet> own{blank_page(crew.title, fmt::format("{}-{}", spelling(crew.whom), crew.person.index + 1))};
    const double top = draw_head(results, crew, own.back());
    std::vector<Block> blocks;
    for (const CrewTable& table : crew.tables) append(blocks, table_blocks(table, lengths));
    append(blocks, caution_blocks(crew.cautions));
    run_on(own, blocks, top, crew.title + ", continued");
    if (crew.whom == CrewSheet::For::actors || crew.whom == CrewSheet::For::marks) add_floors(results, crew, own);
    book.sheets.insert(book.sheets.end(), std::make_move_iterator(own.begin()), std::make_move_iterator(own.end()));
  }
  add_feet(book);
  return book;
}

}  // namespace lensward
