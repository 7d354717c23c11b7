#include "pages/book_parts.h"

#include <fmt/core.h>

#include <algorithm>
#include <utility>

#include "base/quantity_text.h"
#include "pages/draw.h"
#include "pages/paper.h"
#include "pages/words.h"

namespace lensward {
namespace {

constexpr double sign_width = 5;

std::vector<Block> finding_block(const Results& results, const Finding& finding, double width) {
  const bool error = finding.severity == Severity::error;
  std::vector<Block> blocks =
      paragraph(where_words(results, finding), width,
                {error ? Face::sans_bold : Face::sans, type_size::small, Ink::dark, 2.4, sign_width});
  Item sign{sign_at(sign_of(finding.severity), {1.6, 1.5})};
  blocks.front().items.push_back(std::move(sign));
  append(blocks, paragraph(plain(finding.message), width, {Face::sans, type_size::body, Ink::black, 0, sign_width}));
  if (!finding.next_step.empty())
    append(blocks, paragraph(plain(finding.next_step), width,
                             {Face::sans_italic, type_size::body, Ink::dark, 0.2, sign_width}));
  for (std::size_t i = 0; i + 1 < blocks.size() && i < 3; ++i) blocks[i].with_next = true;
  return blocks;
}

}  // namespace

std::string beat_anchor(const Results& results, int beat) {
  return "beat-" + id_part(results.plan.beats[static_cast<std::size_t>(beat)].name);
}

std::vector<Block> finding_blocks(const Results& results, const std::vector<const Finding*>& findings, double width,
                                  bool with_links) {
  std::vector<Block> all;
  for (const Finding* finding : findings) {
    std::vector<Block> blocks = finding_block(results, *finding, width);
    const int beat = beat_of(results, *finding);
    if (with_links && beat >= 0) link_block(blocks.front(), beat_anchor(results, beat));
    append(all, std::move(blocks));
  }
  return all;
}

std::vector<Block> key_blocks(const std::vector<std::string>& key, double width) {
  std::string names;
  for (const std::string& entry : key) names += (names.empty() ? "" : ";  ") + entry;
  return paragraph(names, width, {Face::sans, type_size::small, Ink::dark, 0, 0});
}

namespace {

constexpr double under_running_title = 8;

std::size_t pages_for(const std::vector<Block>& blocks, double top) {
  std::vector<Item> trial;
  std::size_t next = pour(blocks, 0, {{page_low.x, top}, body_high.y - top}, trial).next, pages = 1;
  const Vec2 start = page_low + Vec2{0, under_running_title};
  for (; next < blocks.size(); ++pages) next = pour(blocks, next, {start, body_high.y - start.y}, trial).next;
  return pages;
}

// With less air between them when that alone keeps a few lines from a page of their own.
std::vector<Block> in_fewest_pages(const std::vector<Block>& blocks, double top) {
  std::vector<Block> best = blocks;
  std::size_t fewest = pages_for(blocks, top);
  for (const double air : {0.8, 0.6}) {
    std::vector<Block> closer = blocks;
    for (Block& block : closer) block.before *= air;
    const std::size_t pages = pages_for(closer, top);
    if (pages >= fewest) continue;
    fewest = pages;
    best = std::move(closer);
  }
  return best;
}

}  // namespace

void run_on(std::vector<Sheet>& sheets, const std::vector<Block>& wanted, double top,
            const std::string& running_title) {
  const std::vector<Block> blocks = in_fewest_pages(wanted, top);
  std::size_t next = pour(blocks, 0, {{page_low.x, top}, body_high.y - top}, sheets.back().items).next;
  while (next < blocks.size()) {
    Sheet sheet = blank_page("", "");
    sheet.items.push_back(words(page_low + Vec2{0, 2.6}, running_title, Face::sans_italic, type_size::body, Ink::dark));
    const Vec2 start = page_low + Vec2{0, under_running_title};
    next = pour(blocks, next, {start, body_high.y - start.y}, sheet.items).next;
    sheets.push_back(std::move(sheet));
  }
}

namespace {

constexpr std::string_view settled_rule = "place.settled";

bool is_about(const Finding& finding, const Assumption& assumption) {
  return finding.message == assumption.what && finding.where == assumption.at;
}

bool is_about(const Finding& finding, const Mark& mark) {
  const std::string place = fmt::format("settled at ({}, {}) m", number(mark.at.x, 2), number(mark.at.y, 2));
  return finding.rule == settled_rule && finding.where == mark.said_at &&
         finding.message.find(place) != std::string::npos;
}

template <class Thing>
const Finding* finding_on(const Results& results, const Thing& thing, bool remarks) {
  for (const Finding& finding : results.findings.all()) {
    const bool wanted = !finding.waived_because && (finding.severity == Severity::remark) == remarks;
    if (wanted && is_about(finding, thing)) return &finding;
  }
  return nullptr;
}

}  // namespace

const Finding* remark_of(const Results& results, const Assumption& assumption) {
  return finding_on(results, assumption, true);
}
const Finding* remark_of(const Results& results, const Mark& mark) { return finding_on(results, mark, true); }
bool told_as_finding(const Results& results, const Assumption& assumption) {
  return finding_on(results, assumption, false) != nullptr;
}
bool told_as_finding(const Results& results, const Mark& mark) { return finding_on(results, mark, false) != nullptr; }

bool is_settled_remark(const Finding& finding) {
  return finding.severity == Severity::remark && !finding.waived_because && finding.rule == settled_rule;
}

bool told_in_the_lists(const Results& results, const Finding& finding) {
  if (finding.severity != Severity::remark || finding.waived_because) return false;
  return finding.rule == settled_rule ||
         std::ranges::any_of(results.plan.assumptions, [&](const Assumption& one) { return is_about(finding, one); });
}

std::string rehearsal_words() { return "A rehearsal aid, reckoned from the text: check everything on the floor."; }

std::string moving_camera_words() {
  return "The camera moves here. Where people work near a moving camera, walk it slowly first, keep a watcher on it, "
         "and "
         "follow local codes and the people licensed for that work.";
}

namespace {

void add_foot(const std::string& title, std::size_t page, std::size_t pages, Sheet& sheet) {
  const double y = page_high.y;
  sheet.items.push_back(line({page_low.x, y - 4.6}, {page_high.x, y - 4.6}, pen(Ink::light, hairline)));
  constexpr double third = 52;
  sheet.items.push_back(words({page_low.x, y - 0.8}, shortened(title, Face::sans, type_size::small, third), Face::sans,
                              type_size::small, Ink::dark));
  sheet.items.push_back(words({(page_low.x + page_high.x) / 2, y - 0.8}, rehearsal_words(), Face::sans_italic,
                              type_size::small, Ink::dark, Text::Anchor::middle));
  sheet.items.push_back(words({page_high.x, y - 0.8}, fmt::format("page {} of {}", page, pages), Face::sans,
                              type_size::small, Ink::dark, Text::Anchor::right));
  sheet.label = fmt::format("{}", page);
}

}  // namespace

void add_feet(Book& book) {
  for (std::size_t page = 0; page < book.sheets.size(); ++page)
    add_foot(book.title, page + 1, book.sheets.size(), book.sheets[page]);
}

bool camera_moves(const Plan& plan, Moment begin, Moment end) {
  for (const CameraTrack& track : plan.cameras)
    for (const Segment<Vec3>& segment : track.place)
      if (segment.begin < end && segment.end > begin && length(segment.to - segment.from) > 0.02) return true;
  return false;
}

}  // namespace lensward
