#include "pages/chart.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>

#include "base/quantity_text.h"
#include "pages/draw.h"
#include "pages/flow.h"
#include "pages/paper.h"
#include "pages/words.h"

namespace lensward {
namespace {

constexpr double name_width = 34;
constexpr double left = page_low.x, right = page_high.x - name_width;
constexpr double band_height = 6.2;
constexpr std::size_t lanes_a_page = 12;
constexpr double lane_gap = 2.2;
// Of the lanes of a page together, mm.
constexpr double usual_room = 118;
// The list of findings in two columns, and the least height worth beginning it in.
constexpr double list_gutter = 8, list_width = (page_width - list_gutter) / 2, least_list = 20;

// A stretch of time in which one target is asked for, or has the eye.
struct Stretch {
  Moment begin, end;
  std::vector<Target> targets;
};

class TimeScale {
 public:
  explicit TimeScale(Moment end) : end_(std::max<std::int64_t>(end.count, 1)) {}
  double x(Moment moment) const {
    const double share = static_cast<double>(moment.count) / static_cast<double>(end_);
    return left + (right - left) * std::clamp(share, 0.0, 1.0);
  }
  // A round step with labels at least 14 mm apart.
  std::int64_t step() const {
    for (const std::int64_t seconds : {1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 1800})
      if ((right - left) * static_cast<double>(seconds) * 1000 / static_cast<double>(end_) >= 14) return seconds * 1000;
    return std::max<std::int64_t>(end_ / 10, 1);
  }
  std::int64_t end() const { return end_; }

 private:
  std::int64_t end_;
};

std::vector<Stretch> stretches(const Attention& attention, Moment end,
                               const std::function<std::vector<Target>(const Sample&)>& who) {
  std::vector<Stretch> all;
  for (std::size_t i = 0; i < attention.samples.size(); ++i) {
    const Sample& sample = attention.samples[i];
    const Moment until = i + 1 < attention.samples.size() ? attention.samples[i + 1].moment : end;
    const std::vector<Target> targets = who(sample);
    if (!all.empty() && all.back().targets == targets)
      all.back().end = until;
    else
      all.push_back({sample.moment, until, targets});
  }
  return all;
}

std::string names_of(const Plan& plan, const std::vector<Target>& targets) {
  std::vector<std::string> names;
  names.reserve(targets.size());
  for (const Target& target : targets) names.push_back(called(plan, target));
  return listed(names);
}

class ChartPage {
 public:
  // `room`: mm for the lanes together.
  ChartPage(const Results& results, const std::vector<Target>& lanes, bool first, double room)
      : results_(results),
        lanes_(lanes),
        room_(room),
        first_(first),
        time_(results.plan.duration()),
        sheet_(blank_page(first ? "Who has the eye" : "", first ? "who-has-the-eye" : "")) {}

  Sheet made() {
    double y = page_low.y + type_size::beat_title * 0.8;
    sheet_.items.push_back(words({left, y}, first_ ? "Who has the eye" : "Who has the eye, continued", Face::serif,
                                 type_size::beat_title));
    y += 6;
    sheet_.items.push_back(
        words({left, y},
              "Asked for above, reckoned below. Solid: has the eye. Hatched: seen, and not leading. The "
              "height of a lane is points of attention.",
              Face::sans_italic, type_size::body, Ink::dark));
    y += 9;
    const double bands = y;
    const auto asked = [this](const Sample& sample) {
      return asked_for(results_.plan, beat_at(results_.plan, sample.moment), sample.moment);
    };
    asked_ = stretches(results_.attention, results_.plan.duration(), asked);
    const auto holder = [](const Sample& sample) {
      return sample.holder.kind == Target::Kind::nothing ? std::vector<Target>{} : std::vector<Target>{sample.holder};
    };
    held_ = stretches(results_.attention, results_.plan.duration(), holder);
    draw_beats(bands - 4, lanes_bottom(bands));
    draw_band(bands, "asked for", asked_, true);
    draw_band(bands + band_height + 1.4, "has the eye", held_, false);
    double lane = lanes_top(bands);
    for (const Target& target : lanes_) {
      draw_lane(target, lane);
      lane += lane_height() + lane_gap;
    }
    if (lanes_.empty())
      sheet_.items.push_back(words({left + 1, lane - 1.5}, "Nobody is seen, and nobody is asked for.",
                                   Face::sans_italic, type_size::body, Ink::dark));
    draw_time(lanes_bottom(bands));
    if (first_ && !pins().empty())
      sheet_.items.push_back(words({left, lanes_bottom(bands) + 8.2},
                                   "Boxed numbers: findings, numbered as on the cover and in the beats.",
                                   Face::sans_italic, type_size::small, Ink::dark));
    draw_pins(lanes_bottom(bands) + 11);
    return std::move(sheet_);
  }

  // The findings for which the first page had no room, on pages of their own. Requires that the page was made.
  std::vector<Sheet> made_lists() {
    std::vector<Sheet> sheets;
    while (!listed_.empty()) {
      sheets.push_back(blank_page("", ""));
      sheets.back().items.push_back(words(page_low + Vec2{0, 2.6}, "Who has the eye, findings continued",
                                          Face::sans_italic, type_size::body, Ink::dark));
      list_into(sheets.back(), page_low.y + 8);
    }
    return sheets;
  }

 private:
  double lane_height() const {
    const double room = room_ / static_cast<double>(std::max<std::size_t>(lanes_.size(), 1)) - lane_gap;
    return std::clamp(room, 7.0, 18.0);
  }
  double lanes_top(double bands) const { return bands + 2 * band_height + 7; }
  double lanes_bottom(double bands) const {
    return lanes_top(bands) + static_cast<double>(lanes_.size()) * (lane_height() + lane_gap);
  }

  void draw_beats(double top, double bottom) {
    for (std::size_t i = 0; i < results_.plan.beats.size(); ++i) {
      const Beat& beat = results_.plan.beats[i];
      const double from = time_.x(beat.begin), to = time_.x(beat.end);
      sheet_.items.push_back(line({from, top - 2}, {from, bottom}, pen(Ink::light, hairline)));
      const double room = to - from - 1.5;
      const std::string name = shortened(beat.name, Face::sans, type_size::small, room);
      if (width_of(name, Face::sans, type_size::small) <= room)
        sheet_.items.push_back(words({from + 0.8, top + 0.6}, name, Face::sans, type_size::small, Ink::dark));
    }
    sheet_.items.push_back(line({right, top - 2}, {right, bottom}, pen(Ink::light, hairline)));
  }

  void draw_band(double y, const std::string& title, const std::vector<Stretch>& parts, bool asked) {
    for (const Stretch& part : parts) {
      if (part.targets.empty()) continue;
      const double from = time_.x(part.begin), to = time_.x(part.end);
      const Vec2 size{std::max(to - from - 0.3, 0.15), band_height};
      sheet_.items.push_back(shape(rectangle({from, y}, size),
                                   asked ? hatched(Ink::accent, 1.1, 45, 0.18) : flat(Ink::dark),
                                   asked ? pen(Ink::accent, thin_line) : no_stroke()));
      const std::string names =
          shortened(names_of(results_.plan, part.targets), Face::sans_bold, type_size::small, size.x - 1.6);
      const double wide = width_of(names, Face::sans_bold, type_size::small);
      if (wide > size.x - 1.5 || names == "\u2026") continue;
      if (asked)
        sheet_.items.push_back(
            shape(rectangle({from + 0.4, y + 1.2}, {wide + 1, band_height - 2.4}), flat(Ink::paper), no_stroke()));
      sheet_.items.push_back(words({from + 0.9, y + band_height / 2 + 1}, names, Face::sans_bold, type_size::small,
                                   asked ? Ink::accent : Ink::paper));
    }
    sheet_.items.push_back(
        words({right + 2.5, y + band_height / 2 + 1}, title, Face::sans_italic, type_size::body, Ink::dark));
  }

  Points points_at(const Sample& sample, const Target& target) const {
    const Standing* standing = standing_of(sample, target);
    return standing == nullptr ? Points{0} : standing->points;
  }

  // The outline of the points over a stretch of samples, down to the lane's floor.
  Item area(const Target& target, std::size_t first, std::size_t last, double floor, Fill fill) const {
    const auto& samples = results_.attention.samples;
    std::vector<Vec2> points{{time_.x(samples[first].moment), floor}};
    for (std::size_t i = first; i <= last; ++i)
      points.push_back({time_.x(samples[i].moment),
                        floor - lane_height() * std::clamp(points_at(samples[i], target).value / tallest(), 0.0, 1.0)});
    points.push_back({time_.x(samples[last].moment), floor});
    return shape(polygon(points), fill, no_stroke());
  }

  // The most points anyone ever has, so that lanes share one scale and use their height.
  double tallest() const {
    if (tallest_ > 0) return tallest_;
    tallest_ = 10;
    for (const Sample& sample : results_.attention.samples)
      for (const Standing& standing : sample.standings) tallest_ = std::max(tallest_, std::ceil(standing.points.value));
    return tallest_;
  }

  void draw_lane(const Target& target, double top) {
    const double floor = top + lane_height();
    const auto& samples = results_.attention.samples;
    Group lane;
    lane.id = "eye/" + id_part(called(results_.plan, target));
    lane.title = "attention on " + called(results_.plan, target);
    for (std::size_t first = 0; first < samples.size();) {
      const bool holds = samples[first].holder == target;
      std::size_t last = first;
      while (last + 1 < samples.size() && (samples[last + 1].holder == target) == holds) ++last;
      const std::size_t joined = std::min(last + 1, samples.size() - 1);
      lane.items.push_back(area(target, first, joined, floor, holds ? flat(Ink::dark) : hatched(Ink::mid, 0.9, 60)));
      first = last + 1;
    }
    std::vector<Vec2> edge;
    edge.reserve(samples.size());
    for (const Sample& sample : samples)
      edge.push_back({time_.x(sample.moment),
                      floor - lane_height() * std::clamp(points_at(sample, target).value / tallest(), 0.0, 1.0)});
    if (edge.size() > 1) lane.items.push_back(shape(polyline(edge), {}, pen(Ink::black, thin_line)));
    lane.items.push_back(line({left, floor}, {right, floor}, pen(Ink::dark, hairline)));
    for (const Stretch& part : asked_)
      if (std::find(part.targets.begin(), part.targets.end(), target) != part.targets.end())
        lane.items.push_back(
            line({time_.x(part.begin), floor + 0.7}, {time_.x(part.end) - 0.3, floor + 0.7}, pen(Ink::accent, 0.7)));
    draw_name(target, floor, lane);
    sheet_.items.push_back({std::move(lane)});
  }

  void draw_name(const Target& target, double floor, Group& lane) {
    const auto lines = break_lines(called(results_.plan, target), Face::sans, type_size::body, name_width - 3);
    const auto fitting =
        std::min<std::size_t>(lines.size(), std::max(1, static_cast<int>(lane_height() / leading(type_size::body))));
    double y = floor - static_cast<double>(fitting - 1) * leading(type_size::body) - 0.4;
    for (std::size_t i = 0; i < fitting; ++i) {
      const bool cut = i + 1 == fitting && fitting < lines.size();
      const std::string text =
          cut ? shortened(lines[i] + " " + lines[i + 1], Face::sans, type_size::body, name_width - 3) : lines[i];
      lane.items.push_back(words({right + 2.5, y}, text, Face::sans, type_size::body));
      y += leading(type_size::body);
    }
  }

  void draw_time(double y) {
    for (std::int64_t at = 0; at <= time_.end(); at += time_.step()) {
      const double x = time_.x(Moment{at});
      sheet_.items.push_back(line({x, y}, {x, y + 1.2}, pen(Ink::dark, hairline)));
      sheet_.items.push_back(words({x, y + 4.2}, fmt::format("{}:{:02}", at / 60000, at / 1000 % 60), Face::sans,
                                   type_size::small, Ink::dark, at == 0 ? Text::Anchor::left : Text::Anchor::middle));
    }
    sheet_.items.push_back(line({left, y}, {right, y}, pen(Ink::black, thin_line)));
  }

  struct Pin {
    const Finding* finding;
    Moment at;
  };

  std::vector<Pin> pins() const {
    std::vector<Pin> all;
    for (const Finding& finding : results_.findings.all())
      if (finding.at && !finding.waived_because && finding.severity != Severity::remark)
        all.push_back({&finding, *finding.at});
    std::stable_sort(all.begin(), all.end(), [](const Pin& a, const Pin& b) { return a.at < b.at; });
    return all;
  }

  // Numbered pins under the time axis, in as many rows as keep one off another, and what they say beneath.
  void draw_pins(double top) {
    if (!first_) return;
    constexpr double row_height = 5.2, half_pin = 2.6;
    std::vector<double> row_ends;
    for (const Pin& pin : pins()) {
      const double x = time_.x(pin.at), y = top + 3;
      std::size_t pin_row = 0;
      while (pin_row < row_ends.size() && row_ends[pin_row] > x - half_pin) ++pin_row;
      const double down = static_cast<double>(pin_row) * row_height;
      if (y + down + half_pin > body_high.y) continue;
      if (pin_row == row_ends.size()) row_ends.push_back(0);
      row_ends[pin_row] = x + half_pin;
      draw_pin(x, y + down, number_of(results_, *pin.finding), pin.finding->severity);
    }
    list_pins(top + 6 + static_cast<double>(row_ends.size()) * row_height);
  }

  // Across the page when all have room; else smaller in two columns, and over to further pages.
  void list_pins(double top) {
    std::vector<Block> wide;
    for (const Pin& pin : pins()) wide.push_back(pin_words(pin, page_width, type_size::body));
    std::vector<Item> items;
    if (pour(wide, 0, {{left, top}, body_high.y - top}, items).next == wide.size()) {
      std::ranges::move(items, std::back_inserter(sheet_.items));
      return;
    }
    for (const Pin& pin : pins()) listed_.push_back(pin_words(pin, list_width, type_size::small));
    if (body_high.y - top > least_list) list_into(sheet_, top);
  }

  // What two columns of the sheet hold of the list, from `top` down.
  void list_into(Sheet& sheet, double top) {
    std::size_t next = 0;
    for (const double x : {left, left + list_width + list_gutter})
      next = pour(listed_, next, {{x, top}, body_high.y - top}, sheet.items).next;
    listed_.erase(listed_.begin(), listed_.begin() + static_cast<std::ptrdiff_t>(next));
  }

  Block pin_words(const Pin& pin, double width, double size) const {
    const double number_width = size * 2, time_width = size * 3.4, gap = 1;
    return row({{fmt::format("{}", number_of(results_, *pin.finding)),
                 number_width,
                 {Face::sans_bold, size, Ink::black, 0, 0}},
                {clock_text(pin.at), time_width, {Face::sans, size, Ink::dark, 0, 0}},
                {plain(pin.finding->message),
                 width - number_width - time_width - 2 * gap,
                 {Face::sans, size, Ink::black, 0, 0}}},
               1, gap);
  }

  void draw_pin(double x, double y, int number, Severity severity) {
    const bool error = severity == Severity::error;
    const double wide = number < 10 ? 3.4 : 4.6;
    sheet_.items.push_back(shape(rectangle({x - wide / 2, y - 1.9}, {wide, 3.8}),
                                 flat(error ? Ink::accent : Ink::paper),
                                 pen(error ? Ink::accent : Ink::black, thin_line)));
    sheet_.items.push_back(shape(polygon({{x - 0.9, y - 1.9}, {x + 0.9, y - 1.9}, {x, y - 3.1}}),
                                 flat(error ? Ink::accent : Ink::black), no_stroke()));
    sheet_.items.push_back(words({x, y + 0.95}, fmt::format("{}", number), Face::sans_bold, 2.7,
                                 error ? Ink::paper : Ink::black, Text::Anchor::middle));
  }

  const Results& results_;
  const std::vector<Target>& lanes_;
  double room_;
  std::vector<Block> listed_;  // of the findings, what has no room yet
  bool first_;
  TimeScale time_;
  Sheet sheet_;
  std::vector<Stretch> asked_, held_;
  mutable double tallest_ = 0;
};

// Whoever is ever seen or asked for, people in the stage's order, then things.
std::vector<Target> lanes_of(const Results& results) {
  std::vector<Target> lanes;
  const auto add = [&lanes](const Target& target) {
    if (std::find(lanes.begin(), lanes.end(), target) == lanes.end()) lanes.push_back(target);
  };
  for (const Sample& sample : results.attention.samples)
    for (const Standing& standing : sample.standings)
      if (standing.points.value > 0.5) add(standing.target);
  for (const Sample& sample : results.attention.samples)
    for (const Target& target : asked_for(results.plan, beat_at(results.plan, sample.moment), sample.moment))
      add(target);
  std::stable_sort(lanes.begin(), lanes.end(), [](const Target& a, const Target& b) {
    return std::pair(a.kind, a.index) < std::pair(b.kind, b.index);
  });
  return lanes;
}

// The first page with all its findings, the lanes as high as that allows; else with those that have room.
std::vector<Sheet> first_page(const Results& results, const std::vector<Target>& lanes, std::vector<Sheet>& lists) {
  constexpr double lowest = 80;
  for (const double room : {usual_room, 100.0, lowest}) {
    ChartPage page(results, lanes, true, room);
    std::vector<Sheet> sheets{page.made()};
    if (page.made_lists().empty()) return sheets;
  }
  ChartPage page(results, lanes, true, usual_room);
  std::vector<Sheet> sheets{page.made()};
  lists = page.made_lists();
  return sheets;
}

}  // namespace

std::vector<Sheet> lay_out_chart(const Results& results) {
  if (results.plan.beats.empty()) return {};
  const std::vector<Target> lanes = lanes_of(results);
  const auto some_from = [&lanes](std::size_t first) {
    const auto begin = lanes.begin() + static_cast<std::ptrdiff_t>(first);
    return std::vector<Target>(begin,
                               begin + static_cast<std::ptrdiff_t>(std::min(lanes_a_page, lanes.size() - first)));
  };
  std::vector<Sheet> lists;
  std::vector<Sheet> sheets = first_page(results, some_from(0), lists);
  for (std::size_t first = lanes_a_page; first < lanes.size(); first += lanes_a_page)
    sheets.push_back(ChartPage(results, some_from(first), false, usual_room).made());
  std::ranges::move(lists, std::back_inserter(sheets));
  return sheets;
}

}  // namespace lensward
