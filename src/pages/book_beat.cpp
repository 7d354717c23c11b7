#include <fmt/format.h>

#include <algorithm>

#include "base/quantity_text.h"
#include "emphasis/weigh.h"
#include "pages/book_parts.h"
#include "pages/draw.h"
#include "pages/frame_window.h"
#include "pages/overhead.h"
#include "pages/paper.h"
#include "pages/tally_figure.h"
#include "pages/words.h"

namespace lensward {
namespace {

// Two columns: pictures to the left, words to the right.
constexpr double gutter = 8, left_width = 112, right_width = page_width - left_width - gutter;
constexpr double right_x = page_low.x + left_width + gutter;
constexpr double half_width = (page_width - gutter) / 2;
constexpr double time_width = 11.5;

class BeatPages {
 public:
  BeatPages(const Results& results, int index)
      : results_(results),
        plan_(results.plan),
        index_(index),
        beat_(results.plan.beats[static_cast<std::size_t>(index)]),
        moment_(deciding_moment(results, index)) {}

  std::vector<Sheet> made() {
    sheets_.push_back(blank_page(beat_.name, beat_anchor(results_, index_)));
    const double top = draw_head();
    double left_y = draw_frame(top);
    left_y = draw_floor(left_y + 5);
    const std::vector<Block> said = right_column();
    const Poured right = pour(said, 0, {{right_x, top}, body_high.y - top}, sheets_.back().items);
    const std::vector<Block> found = left_column();
    const Poured under =
        pour(found, 0, {{page_low.x, left_y + 4}, std::max(body_high.y - left_y - 4, 0.0)}, sheets_.back().items);
    std::vector<Block> rest(said.begin() + static_cast<std::ptrdiff_t>(right.next), said.end());
    append(rest, {found.begin() + static_cast<std::ptrdiff_t>(under.next), found.end()});
    continue_with(rest);
    return std::move(sheets_);
  }

 private:
  double draw_head() {
    auto& items = sheets_.back().items;
    const std::string number = fmt::format("Beat {} of {}", index_ + 1, plan_.beats.size());
    const std::string span =
        fmt::format("{} – {}  ·  {}", clock_text(beat_.begin), clock_text(beat_.end), text_of(beat_.end - beat_.begin));
    items.push_back(words(page_low + Vec2{0, 2.6}, number, Face::sans, type_size::body, Ink::dark));
    items.push_back(
        words({page_high.x, page_low.y + 2.6}, span, Face::sans, type_size::body, Ink::dark, Text::Anchor::right));
    double y = page_low.y + 5;
    std::vector<Block> title =
        paragraph(beat_.name, page_width, {Face::serif, type_size::beat_title, Ink::black, 0, 0});
    if (!beat_.title.empty() && beat_.title != beat_.name)
      append(title, paragraph("“" + beat_.title + "”", page_width,
                              {Face::serif_italic, type_size::heading, Ink::dark, 0.4, 0}));
    y += pour(title, 0, {{page_low.x, y}, 60}, items).used + 2.4;
    items.push_back(line({page_low.x, y}, {page_high.x, y}, pen(Ink::black, hairline)));
    return y + 4.5;
  }

  Target favoured() const {
    const Verdict* verdict = main_verdict();
    return verdict == nullptr ? Target{} : verdict->favoured;
  }

  // The verdict the deciding moment comes from.
  const Verdict* main_verdict() const {
    for (const Verdict* verdict : verdicts_of(results_, index_))
      if (verdict->decided == moment_) return verdict;
    const auto own = verdicts_of(results_, index_);
    return own.empty() ? nullptr : own.front();
  }

  double draw_frame(double top) {
    if (plan_.cameras.empty()) return top;
    const CameraState camera = camera_at(plan_, on_air(plan_, moment_), moment_);
    const double aspect = camera.gate_width / camera.gate_height;
    constexpr double tallest = 84;
    const double wide = std::min(left_width, tallest * aspect);
    const Vec2 size{wide, wide / aspect};
    sheets_.back().items.push_back(
        {frame_window(plan_, moment_, {page_low.x, top}, size, favoured(), beat_anchor(results_, index_) + "/frame")});
    const std::string caption = fmt::format("The frame at {}", clock_text(moment_));
    sheets_.back().items.push_back(
        words({page_low.x, top + size.y + 4}, caption, Face::sans_italic, type_size::small, Ink::dark));
    return top + size.y + 5;
  }

  double draw_floor(double top) {
    const Vec2 most{left_width, body_high.y - top};
    if (most.y < 30) return top;
    Overhead drawing = draw_overhead(results_, index_, moment_, {page_low.x, top}, most);
    sheets_.back().items.push_back({std::move(drawing.group)});
    key_ = std::move(drawing.key);
    return top + drawing.size.y;
  }

  std::vector<Block> right_column() const {
    std::vector<Block> blocks;
    const double width = right_width;
    bool first = true;
    for (const Verdict* verdict : verdicts_of(results_, index_)) {
      add_verdict(*verdict, width, first, blocks);
      first = false;
    }
    if (!beat_.judged)
      append(blocks, paragraph("Not judged: a line of this beat could not be read.", width,
                               {Face::sans_italic, type_size::body, Ink::dark, 2, 0}));
    if (beat_.lines.empty()) return blocks;
    blocks.push_back(heading("Said and done", width));
    for (const BeatLine& said : beat_.lines) add_line(said, width, blocks);
    return blocks;
  }

  void add_verdict(const Verdict& verdict, double width, bool first, std::vector<Block>& blocks) const {
    constexpr double hang = 5;
    const bool fails = verdict.result == Verdict::Result::fails;
    std::vector<Block> head = paragraph(asked_words(plan_, verdict), width,
                                        {Face::serif_bold, type_size::speech, Ink::black, first ? 0.0 : 3.2, hang});
    head.front().items.push_back({sign_at(sign_of(verdict.result), {1.6, 1.9})});
    std::string outcome = result_words(verdict.result);
    const std::string how = outcome_words(plan_, verdict);
    if (!how.empty()) outcome += ", " + how;
    append(head, paragraph(outcome, width, {Face::sans, type_size::body, fails ? Ink::accent : Ink::black, 0.2, hang}));
    for (Block& block : head) block.with_next = true;
    append(blocks, std::move(head));
    Block figure = tally_figure(results_, verdict, width);
    if (!figure.items.empty())
      blocks.push_back(std::move(figure));
    else if (!blocks.empty())
      blocks.back().with_next = false;
  }

  void add_line(const BeatLine& said, double width, std::vector<Block>& blocks) const {
    const bool speech = said.speech >= 0 && said.speech < static_cast<int>(plan_.speeches.size());
    // Intents stand above with their verdicts.
    if (said.kind == BeatLine::Kind::intent) return;
    std::vector<Block> own =
        speech ? spoken(plan_.speeches[static_cast<std::size_t>(said.speech)], width)
               : paragraph(said.text, width, {Face::sans_italic, type_size::body, Ink::dark, 1.5, time_width});
    own.front().items.push_back(words({time_width - 2.2, own.front().height * 0.62}, clock_text(said.begin), Face::sans,
                                      type_size::small, Ink::mid, Text::Anchor::right));
    append(blocks, std::move(own));
  }

  std::vector<Block> spoken(const Speech& speech, double width) const {
    std::string who = called(plan_, speech.speaker);
    std::vector<std::string> to;
    for (const PersonId listener : speech.to) to.push_back(called(plan_, listener));
    if (!to.empty()) who += " to " + listed(to);
    if (to.empty() && speech.to_everyone) who += " to everyone";
    if (speech.loudness != Loudness::plain) who += std::string(", ") + spelling(speech.loudness);
    if (speech.off) who += ", off";
    std::vector<Block> blocks = paragraph(who, width, {Face::sans_bold, type_size::small, Ink::black, 2.2, time_width});
    for (Block& block : blocks) block.with_next = true;
    append(blocks, paragraph(speech.words, width, {Face::serif, type_size::speech, Ink::black, 0, time_width}));
    return blocks;
  }

  std::vector<Block> left_column() const {
    std::vector<Block> blocks;
    if (!key_.empty()) {
      std::string names;
      for (const std::string& entry : key_) names += (names.empty() ? "" : ";  ") + entry;
      append(blocks, paragraph(names, left_width_now(), {Face::sans, type_size::small, Ink::dark, 0, 0}));
    }
    if (camera_moves(plan_, beat_.begin, beat_.end))
      append(blocks, paragraph(moving_camera_words(), left_width_now(),
                               {Face::sans_italic, type_size::body, Ink::black, 2, 0}));
    const auto findings = findings_of(results_, index_);
    if (findings.empty()) return blocks;
    blocks.push_back(heading("Findings", left_width_now()));
    append(blocks, finding_blocks(results_, findings, left_width_now(), false));
    return blocks;
  }
  // What does not fit under the drawing must go into a column of half a page.
  static double left_width_now() { return half_width; }

  // Further pages of two columns.
  void continue_with(const std::vector<Block>& blocks) {
    std::size_t next = 0;
    while (next < blocks.size()) {
      Sheet sheet = blank_page("", "");
      sheet.items.push_back(
          words(page_low + Vec2{0, 2.6}, beat_.name + ", continued", Face::sans_italic, type_size::body, Ink::dark));
      const double top = page_low.y + 8;
      for (const double x : {page_low.x, page_low.x + half_width + gutter}) {
        if (next >= blocks.size()) break;
        next = pour(blocks, next, {{x, top}, body_high.y - top}, sheet.items).next;
      }
      sheets_.push_back(std::move(sheet));
    }
  }

  const Results& results_;
  const Plan& plan_;
  int index_;
  const Beat& beat_;
  Moment moment_;
  std::vector<Sheet> sheets_;
  std::vector<std::string> key_;
};

}  // namespace

std::vector<Sheet> lay_out_beat(const Results& results, int beat) { return BeatPages(results, beat).made(); }

}  // namespace lensward
