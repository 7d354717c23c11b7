#include <fmt/core.h>

#include <algorithm>

#include "base/quantity_text.h"
#include "emphasis/weigh.h"
#include "lens/see.h"
#include "pages/book_parts.h"
#include "pages/draw.h"
#include "pages/overhead.h"
#include "pages/paper.h"
#include "pages/tally_figure.h"
#include "pages/thumbnail.h"
#include "pages/words.h"

namespace lensward {
namespace {

// Two columns: pictures to the left, words to the right.
constexpr double gutter = 8, left_width = 112, right_width = page_width - left_width - gutter;
constexpr double right_x = page_low.x + left_width + gutter;
constexpr double half_width = (page_width - gutter) / 2;
constexpr double time_width = 12.5;
// Less height than this is not worth beginning a column in.
constexpr double least_room = 16;
// Kept free under the left column for a last line.
constexpr double last_line = 4.5;

class BeatPages {
 public:
  BeatPages(const Results& results, int index)
      : results_(results),
        plan_(results.plan),
        index_(index),
        beat_(results.plan.beats[static_cast<std::size_t>(index)]),
        moment_(deciding_moment(results, index)) {}

  BeatSheets made() {
    sheets_.push_back(blank_page(beat_.name, beat_anchor(results_, index_)));
    const double top = draw_head();
    double left_y = draw_frame(top);
    left_y = draw_floor(left_y + 5);
    const Column right_column{{right_x, top}, body_high.y - top};
    Column left{{page_low.x, left_y + 4}, body_high.y - left_y - 4 - last_line};
    const std::vector<Unit> wanted = said_units(), findings = found_units();
    const double air = air_for(wanted, findings, right_column, left.height);
    const std::vector<Unit> said = with_air(wanted, air), found = with_air(findings, air);
    UnitCursor said_at, found_at;
    auto& items = sheets_.back().items;
    const double said_height = pour_units(said, said_at, right_column, right_width, true, items);
    if (left.height > least_room) cut_off(left, pour_units(found, found_at, left, left_width, false, items));
    Column right{{right_x, top + said_height + 5}, body_high.y - top - said_height - 5};
    if (!said_at.done(said)) right.height = 0;
    if (right.height > least_room) cut_off(right, pour_units(found, found_at, right, right_width, false, items));
    if (said_at.done(said) && found_at.unit >= first_finding_) leave_to_the_lists(found, found_at, left, right);
    continue_with(said, said_at, found, found_at);
    add_pictures(wanted_pictures());
    return {std::move(sheets_), std::move(left_over_)};
  }

 private:
  // The most air at which the page holds both the lines and the findings, else the lines, else all there is.
  static double air_for(const std::vector<Unit>& said, const std::vector<Unit>& found, const Column& right,
                        double left_height) {
    double for_lines = 0;
    for (const double air : {1.0, 0.75, 0.5}) {
      const std::vector<Unit> lines = with_air(said, air), findings = with_air(found, air);
      UnitCursor said_at, found_at;
      std::vector<Item> trial;
      const double used = pour_units(lines, said_at, right, right_width, true, trial);
      if (!said_at.done(lines)) continue;
      if (for_lines == 0) for_lines = air;
      if (left_height > least_room) pour_units(findings, found_at, {{}, left_height}, left_width, false, trial);
      const double rest = right.height - used - 5;
      if (rest > least_room) pour_units(findings, found_at, {{}, rest}, right_width, false, trial);
      if (found_at.done(findings)) return air;
    }
    return for_lines == 0 ? 1 : for_lines;
  }

  static std::vector<Unit> with_air(const std::vector<Unit>& units, double air) {
    std::vector<Unit> spaced;
    spaced.reserve(units.size());
    for (const Unit& unit : units)
      spaced.push_back([unit, air](double width) {
        std::vector<Block> blocks = unit(width);
        for (Block& block : blocks) block.before *= air;
        return blocks;
      });
    return spaced;
  }

  // What is used of a column from its top, with the space after it.
  static void cut_off(Column& column, double used) {
    if (used <= 0) return;
    column.at.y += used + 2.4;
    column.height -= used + 2.4;
  }

  // Findings stand in full at the front and at the end of the book; a page of their own here would be mostly white. The
  // shorter ones still fill what room is left, the others are named by their numbers.
  void leave_to_the_lists(const std::vector<Unit>& found, UnitCursor& found_at, Column left, Column right) {
    if (found_at.done(found) || !found_at.started.empty()) return;
    const std::vector<const Finding*> own = findings_here();
    std::vector<std::string> numbers;
    for (std::size_t unit = found_at.unit; unit < found.size(); ++unit) {
      if (fits_alone(found[unit], left, left_width) || fits_alone(found[unit], right, right_width)) continue;
      const Finding* finding = own[unit - first_finding_];
      const int numbered = number_of(results_, *finding);
      if (numbered > 0)
        numbers.push_back(fmt::format("{}", numbered));
      else
        left_over_.push_back(finding);
    }
    found_at.unit = found.size();
    std::string note;
    if (!numbers.empty())
      note = fmt::format("{} {} in full at the front", numbers.size() == 1 ? "Finding" : "Findings", listed(numbers));
    if (!left_over_.empty())
      note += (note.empty() ? "" : "; ") + counted(left_over_.size(), "remark", "remarks") + " at the end";
    if (note.empty()) return;
    sheets_.back().items.push_back(
        words({page_low.x, body_high.y - 0.6}, note, Face::sans_italic, type_size::small, Ink::dark));
  }

  bool fits_alone(const Unit& unit, Column& column, double width) {
    if (column.height <= 0) return false;
    UnitCursor cursor;
    const std::vector<Unit> alone{unit};
    cut_off(column, pour_units(alone, cursor, column, width, false, sheets_.back().items));
    return cursor.done(alone);
  }

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
    constexpr double tallest = 90;
    const Vec2 size{left_width, std::min(thumbnail_height(plan_, moment_, left_width), tallest)};
    sheets_.back().items.push_back(
        {thumbnail(plan_, moment_, {page_low.x, top}, size, favoured(), beat_anchor(results_, index_) + "/frame")});
    const std::vector<Block> caption =
        paragraph(caption_words(), left_width, {Face::sans_italic, type_size::small, Ink::dark, 0, 0});
    const double under = top + size.y + 0.6;
    return under + pour(caption, 0, {{page_low.x, under}, tallest}, sheets_.back().items).used;
  }

  // What a focus puller asks first.
  std::string caption_words() const {
    std::vector<PersonSeen> people = see(plan_, moment_).people;
    std::erase_if(people, [](const PersonSeen& seen) { return !seen.in_front; });
    std::ranges::stable_sort(people, {}, [](const PersonSeen& seen) { return seen.distance; });
    std::string text = fmt::format("Frame and floor at {}.", clock_text(moment_));
    for (const PersonSeen& seen : people) {
      text += &seen == &people.front() ? " Depth from the lens: " : ", ";
      text += fmt::format("{} {} ({})", called(plan_, seen.person), text_of(seen.distance), feet_text(seen.distance));
    }
    if (!people.empty()) text += ".";
    return text + camera_words() + lamp_words();
  }

  std::string camera_words() const {
    const CameraId id = on_air(plan_, moment_);
    const std::string support = support_words(plan_, id);
    return fmt::format(" Camera {}: {}{}{}.", plan_.stage.cameras[static_cast<std::size_t>(id.index)].name,
                       optics_words(camera_at(plan_, id, moment_)), support.empty() ? "" : ", ", support);
  }

  // The brightest first; those that are out are left out.
  std::string lamp_words() const {
    struct Lit {
      std::string name;
      Candela intensity;
    };
    std::vector<Lit> lit;
    for (std::size_t i = 0; i < plan_.lamps.size(); ++i) {
      const Lamp& lamp = plan_.stage.lamps[i];
      const double level = lamp_at(plan_, LampId{static_cast<int>(i)}, moment_).level.value;
      if (level > 0) lit.push_back({lamp.name, lamp.intensity * level});
    }
    std::ranges::stable_sort(lit, [](const Lit& a, const Lit& b) { return a.intensity > b.intensity; });
    std::string text;
    for (const Lit& lamp : lit)
      text += fmt::format("{}{} {} cd", text.empty() ? " Lamps: " : ", ", lamp.name, number(lamp.intensity.value, 0));
    return lit.empty() ? text : text + ".";
  }

  double draw_floor(double top) {
    const double caution = camera_moves(plan_, beat_.begin, beat_.end) ? least_room + 6 : 0;
    const Vec2 most{left_width, body_high.y - top - caution};
    if (most.y < 30) return top;
    Overhead drawing = draw_overhead(results_, index_, moment_, {page_low.x, top}, most);
    sheets_.back().items.push_back({std::move(drawing.group)});
    key_ = std::move(drawing.key);
    return top + drawing.size.y;
  }

  std::vector<Unit> said_units() const {
    std::vector<Unit> units;
    bool first = true;
    const std::vector<const Verdict*> explained = explained_verdicts();
    for (const Verdict* verdict : verdicts_of(results_, index_)) {
      const bool why = std::find(explained.begin(), explained.end(), verdict) != explained.end();
      units.push_back(
          [this, verdict, first, why](double width) { return verdict_blocks(*verdict, width, first, why); });
      first = false;
    }
    if (!beat_.judged)
      units.push_back([](double width) {
        return paragraph("Not judged: a line of this beat could not be read.", width,
                         {Face::sans_italic, type_size::body, Ink::dark, 2, 0});
      });
    bool headed = false;
    for (const std::vector<const BeatLine*>& together : lines_in_time()) {
      units.push_back([this, together, headed](double width) {
        std::vector<Block> blocks;
        if (!headed) blocks.push_back(heading("Said and done", width));
        append(blocks, line_blocks(together, width));
        return blocks;
      });
      headed = true;
    }
    return units;
  }

  bool is_speech(const BeatLine& said) const {
    return said.speech >= 0 && said.speech < static_cast<int>(plan_.speeches.size());
  }

  // As they begin; what is done from one moment on stands together, as written, so that what is said is not pushed off
  // the page. Intents and stories stand above with their verdicts, waivers with the lists.
  std::vector<std::vector<const BeatLine*>> lines_in_time() const {
    std::vector<const BeatLine*> lines;
    for (const BeatLine& said : beat_.lines) {
      const bool above = said.kind == BeatLine::Kind::intent || said.kind == BeatLine::Kind::story;
      if (!above && !said.text.starts_with("waive ")) lines.push_back(&said);
    }
    std::ranges::stable_sort(lines, {}, [](const BeatLine* said) { return said->begin; });
    std::vector<std::vector<const BeatLine*>> moments;
    for (const BeatLine* said : lines) {
      const bool joins = !moments.empty() && moments.back().front()->begin == said->begin && !is_speech(*said) &&
                         !is_speech(*moments.back().front());
      if (!joins) moments.emplace_back();
      moments.back().push_back(said);
    }
    return moments;
  }

  // The two whose cues are worth the room: those about who leads, the worst first.
  std::vector<const Verdict*> explained_verdicts() const {
    constexpr std::size_t most = 2;
    std::vector<const Verdict*> own = verdicts_of(results_, index_);
    std::erase_if(own, [this](const Verdict* verdict) { return !about_who_leads(plan_, *verdict); });
    std::stable_sort(own.begin(), own.end(),
                     [](const Verdict* a, const Verdict* b) { return gravity(a->result) > gravity(b->result); });
    if (own.size() > most) own.resize(most);
    return own;
  }

  std::vector<Block> verdict_blocks(const Verdict& verdict, double width, bool first, bool why) const {
    std::vector<Block> blocks;
    constexpr double hang = 5;
    const std::string* waived = waived_because(results_, verdict);
    const bool fails = verdict.result == Verdict::Result::fails && waived == nullptr;
    std::vector<Block> head = paragraph(asked_words(plan_, verdict), width,
                                        {Face::serif_bold, type_size::speech, Ink::black, first ? 0.0 : 3.2, hang});
    head.front().items.push_back({sign_at(waived == nullptr ? sign_of(verdict.result) : Sign::open, {1.6, 1.9})});
    std::string outcome = waived == nullptr ? name_of(verdict.result) : "waived, on purpose: " + *waived;
    const std::string how = waived == nullptr ? instead_words(results_, verdict) : "";
    if (!how.empty()) outcome += ", " + how;
    append(head, paragraph(outcome, width, {Face::sans, type_size::body, fails ? Ink::accent : Ink::black, 0.2, hang}));
    for (Block& block : head) block.with_next = true;
    append(blocks, std::move(head));
    Block figure = why ? tally_figure(results_, verdict, width) : Block{};
    if (!figure.items.empty())
      blocks.push_back(std::move(figure));
    else
      blocks.back().with_next = false;
    return blocks;
  }

  // A speech, or all that is done from one moment on.
  std::vector<Block> line_blocks(const std::vector<const BeatLine*>& together, double width) const {
    const BeatLine& first = *together.front();
    std::vector<Block> own =
        is_speech(first)
            ? spoken(plan_.speeches[static_cast<std::size_t>(first.speech)], width)
            : paragraph(done_words(together), width, {Face::sans_italic, type_size::body, Ink::dark, 1.5, time_width});
    own.front().items.push_back(words({time_width - 2.2, own.front().height * 0.62}, clock_text(first.begin),
                                      Face::sans, type_size::small, Ink::mid, Text::Anchor::right));
    return own;
  }

  // The time beside it says `from top`.
  std::string done_words(const std::vector<const BeatLine*>& together) const {
    constexpr std::string_view at_the_top = ", from top";
    std::string text;
    for (const BeatLine* said : together) {
      std::string done = said->text;
      if (said->begin == beat_.begin && done.ends_with(at_the_top)) done.resize(done.size() - at_the_top.size());
      text += (text.empty() ? "" : "; ") + done;
    }
    return text;
  }

  std::vector<Block> spoken(const Speech& speech, double width) const {
    std::string who = called(plan_, speech.speaker);
    std::vector<std::string> to;
    to.reserve(speech.to.size());
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

  std::vector<Unit> found_units() {
    std::vector<Unit> units;
    units.reserve(key_.size());
    for (const std::string& entry : key_)
      units.push_back([&entry](double width) { return key_blocks({entry}, width); });
    if (camera_moves(plan_, beat_.begin, beat_.end))
      units.push_back([](double width) {
        return paragraph(moving_camera_words(), width, {Face::sans_italic, type_size::body, Ink::black, 2, 0});
      });
    first_finding_ = units.size();
    bool headed = false;
    for (const Finding* finding : findings_here()) {
      units.push_back([this, finding, headed](double width) {
        std::vector<Block> blocks;
        if (!headed) blocks.push_back(heading("Findings", width));
        append(blocks, finding_blocks(results_, {finding}, width, false));
        return blocks;
      });
      headed = true;
    }
    return units;
  }

  std::vector<const Finding*> findings_here() const {
    std::vector<const Finding*> own = findings_of(results_, index_);
    std::erase_if(own, [this](const Finding* finding) { return told_in_the_lists(results_, *finding); });
    return own;
  }

  // Further pages of two even columns: first what is said, then what was found.
  void continue_with(const std::vector<Unit>& said, UnitCursor& said_at, const std::vector<Unit>& found,
                     UnitCursor& found_at) {
    while (!said_at.done(said) || !found_at.done(found)) {
      Sheet sheet = blank_page("", "");
      sheet.items.push_back(
          words(page_low + Vec2{0, 2.6}, beat_.name + ", continued", Face::sans_italic, type_size::body, Ink::dark));
      const double top = page_low.y + 8;
      for (const double x : {page_low.x, page_low.x + half_width + gutter}) {
        const double height = body_high.y - top;
        const double used = pour_units(said, said_at, {{x, top}, height}, half_width, true, sheet.items);
        if (!said_at.done(said)) continue;
        const double start = used > 0 ? top + used + 5 : top;
        if (body_high.y - start > least_room || start == top)
          pour_units(found, found_at, {{x, start}, body_high.y - start}, half_width, true, sheet.items);
      }
      sheets_.push_back(std::move(sheet));
    }
  }

  // A line belongs to the last beat whose heading stands above it.
  std::vector<const PictureWanted*> wanted_pictures() const {
    std::vector<const PictureWanted*> wanted;
    for (const PictureWanted& picture : plan_.pictures) {
      const Beat* own = nullptr;
      for (const Beat& beat : plan_.beats) {
        const bool above = beat.heading.file == picture.said_at.file && beat.heading.begin <= picture.said_at.begin;
        if (above && (own == nullptr || beat.heading.begin > own->heading.begin)) own = &beat;
      }
      if (own == &beat_) wanted.push_back(&picture);
    }
    std::ranges::stable_sort(wanted, {}, [](const PictureWanted* picture) { return picture->at; });
    return wanted;
  }

  // Pages of the pictures asked for, four on each.
  void add_pictures(const std::vector<const PictureWanted*>& wanted) {
    constexpr std::size_t on_a_page = 4;
    constexpr double caption = 5;
    const double top = page_low.y + 8, cell = (body_high.y - top) / 2;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      if (i % on_a_page == 0) {
        sheets_.push_back(blank_page("", ""));
        sheets_.back().items.push_back(words(page_low + Vec2{0, 2.6}, beat_.name + ", pictures asked for",
                                             Face::sans_italic, type_size::body, Ink::dark));
      }
      const double x = page_low.x + (i % 2 == 0 ? 0 : half_width + gutter);
      const double y = top + (i % on_a_page < 2 ? 0 : cell);
      const std::string id = fmt::format("{}/picture-{}", beat_anchor(results_, index_), i + 1);
      add_picture(*wanted[i], {x, y}, {half_width, cell - caption}, id);
    }
  }

  void add_picture(const PictureWanted& picture, Vec2 at, Vec2 most, const std::string& id) {
    // The end of a beat is the beginning of the next: the picture is of this one.
    const Moment moment = std::max(beat_.begin, std::min(picture.at, beat_.end - Milliseconds{1}));
    auto& items = sheets_.back().items;
    double height = 0;
    if (picture.plan) {
      Overhead drawing = draw_overhead(results_, index_, moment, at, most);
      height = drawing.size.y;
      drawing.group.id = id;
      items.push_back({std::move(drawing.group)});
    } else {
      height = std::min(thumbnail_height(plan_, moment, most.x), most.y);
      items.push_back({thumbnail(plan_, moment, at, {most.x, height}, favoured(), id)});
    }
    items.push_back(words({at.x, at.y + height + 2.6},
                          fmt::format("The {} at {}", picture.plan ? "floor" : "frame", clock_text(moment)),
                          Face::sans_italic, type_size::small, Ink::dark));
  }

  const Results& results_;
  const Plan& plan_;
  int index_;
  const Beat& beat_;
  Moment moment_;
  std::vector<Sheet> sheets_;
  std::vector<std::string> key_;
  std::size_t first_finding_ = 0;  // among the units of what was found
  std::vector<const Finding*> left_over_;
};

}  // namespace

BeatSheets lay_out_beat(const Results& results, int beat) { return BeatPages(results, beat).made(); }

}  // namespace lensward
