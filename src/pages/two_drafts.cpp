#include "pages/two_drafts.h"

#include <fmt/core.h>

#include <algorithm>
#include <iterator>

#include "pages/book_parts.h"
#include "pages/draw.h"
#include "pages/overhead.h"
#include "pages/paper.h"
#include "pages/thumbnail.h"
#include "pages/words.h"

namespace lensward {
namespace {

constexpr double between_columns = 6;
constexpr double column_width = (page_width - between_columns) / 2;
constexpr double floor_height = 92;

struct Side {
  const Results& results;
  std::string words, id;
  int beat;
  Moment moment;
  double left;
};

Target favoured_in(const Side& side) {
  const auto asked = asked_for(side.results.plan, side.beat, side.moment);
  return asked.empty() ? Target{} : asked.front();
}

// Frame, what it shows, floor, one below the other; how far down it came.
double draw_side(const Side& side, double top, Sheet& sheet) {
  sheet.items.push_back(words({side.left, top + 3}, side.words, Face::serif_italic, type_size::speech, Ink::dark));
  double y = top + 6;
  if (side.beat < 0) {
    sheet.items.push_back(words({side.left, y + 4}, "not in this draft", Face::sans_italic, type_size::body));
    return y + 8;
  }
  const Plan& plan = side.results.plan;
  const Target favoured = favoured_in(side);
  const double frame = thumbnail_height(plan, side.moment, column_width);
  sheet.items.push_back(
      {thumbnail(plan, side.moment, {side.left, y}, {column_width, frame}, favoured, side.id + "/frame")});
  y += frame + 2;
  y += pour(paragraph(frame_caption(plan, side.moment, favoured), column_width,
                      {Face::sans, type_size::small, Ink::dark, 0, 0}),
            0, {{side.left, y}, 12}, sheet.items)
           .used;
  Overhead drawing =
      draw_overhead(side.results, side.beat, side.moment, {side.left, y + 3}, {column_width, floor_height});
  drawing.group.id = side.id + "/floor";
  y += 3 + drawing.size.y + 2;
  sheet.items.push_back({std::move(drawing.group)});
  return y + pour(key_blocks(drawing.key, column_width), 0, {{side.left, y}, 20}, sheet.items).used;
}

std::vector<Block> sentences(const std::vector<std::string>& all) {
  std::vector<Block> blocks;
  for (const std::string& one : all)
    append(blocks, paragraph(plain(one), page_width, {Face::sans, type_size::body, Ink::black, 1, 0}));
  return blocks;
}

double draw_title(const std::string& title, const Plan& plan, Sheet& sheet) {
  sheet.items.push_back(words(page_low + Vec2{0, 2.6}, title_of(plan.facts), Face::sans, type_size::body, Ink::dark));
  const auto lines = paragraph(title, page_width, {Face::serif, type_size::beat_title, Ink::black, 0, 0});
  return page_low.y + 5 + pour(lines, 0, {{page_low.x, page_low.y + 5}, 40}, sheet.items).used + 3;
}

std::vector<Sheet> pages_of(const TwoDrafts& drafts, const BeatOfBoth& beat, std::size_t number) {
  const std::string id = fmt::format("change-{}", number);
  std::vector<Sheet> pages{blank_page(beat.title, id)};
  const double top = draw_title(beat.title, drafts.after.plan, pages.back());
  const Side before{drafts.before, drafts.before_words, id + "/before", beat.before, beat.moment_before, page_low.x};
  const Side after{drafts.after, drafts.after_words, id + "/after",
                   beat.after,   beat.moment_after,  page_low.x + column_width + between_columns};
  const double below = std::max(draw_side(before, top, pages.back()), draw_side(after, top, pages.back()));
  run_on(pages, sentences(beat.words), below + 3, beat.title + ", continued");
  return pages;
}

}  // namespace

Book lay_out_two_drafts(const TwoDrafts& drafts, const std::vector<std::string>& of_the_scene,
                        const std::vector<BeatOfBoth>& beats) {
  Book book;
  book.title = title_of(drafts.after.plan.facts);
  book.subject = drafts.before_words + ", " + drafts.after_words;
  const auto take = [&](std::vector<Sheet> pages) {
    book.sheets.insert(book.sheets.end(), std::make_move_iterator(pages.begin()), std::make_move_iterator(pages.end()));
  };
  if (!of_the_scene.empty() || beats.empty()) {
    std::vector<Sheet> pages{blank_page("The scene", "scene")};
    const double top = draw_title("What changed", drafts.after.plan, pages.back());
    run_on(pages, sentences(of_the_scene), top, "The scene, continued");
    take(std::move(pages));
  }
  for (std::size_t i = 0; i < beats.size(); ++i) take(pages_of(drafts, beats[i], i + 1));
  add_feet(book);
  return book;
}

}  // namespace lensward
