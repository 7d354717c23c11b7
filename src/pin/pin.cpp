#include "pin/pin.h"

#include <fmt/core.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "base/quantity_text.h"
#include "crew/tape.h"
#include "mend/statement.h"

namespace lensward {
namespace {

constexpr double worth_moving = 0.02, too_far = 1.5;
// On average, before columns are taken for exchanged.
constexpr double suspicious = 0.5;

std::string point_text(Vec2 at) { return "(" + number(at.x, 2) + ", " + number(at.y, 2) + ") m"; }

// Where the point would be if what was measured from one wall had been from the other.
Vec2 exchanged(const Plan& plan, Vec2 at) {
  const Tape tape(plan.stage);
  return tape.place(tape.from_second(at), tape.from_first(at));
}

class Pinner {
 public:
  Pinner(const Plan& plan, const SourceSet& sources, std::int32_t file)
      : plan_(plan), source_(sources.file(file)), file_(file) {}

  void add(const MeasuredMark& measured) {
    const Mark& mark = *std::ranges::find(plan_.marks, measured.mark, &Mark::name);
    const double off = length(measured.at - mark.at);
    if (off < worth_moving) {
      ++pinning_.as_before;
    } else if (off > suspicious && length(exchanged(plan_, measured.at) - mark.at) < off / 4) {
      trouble(measured,
              fmt::format("would move by {}, with its two figures exchanged by {}: are they?", text_of(Metres{off}),
                          text_of(Metres{length(exchanged(plan_, measured.at) - mark.at)})));
    } else if (off > too_far) {
      trouble(measured, fmt::format("would move by {}; are the unit and the walls right?", text_of(Metres{off})));
    } else if (mark.said_at.empty() || mark.said_at.file != file_) {
      trouble(measured, "is told in another file; change it there");
    } else if (const auto edit = edit_for(mark, measured.at)) {
      pinning_.edits.push_back(*edit);
      pinning_.moved.push_back({mark.name, mark.person, mark.at, measured.at});
    } else {
      trouble(measured, "is where a seat is: move the furniture in the text");
    }
  }

  Pinning take() { return std::move(pinning_); }

 private:
  void trouble(const MeasuredMark& measured, const std::string& what) {
    pinning_.troubles.push_back(fmt::format("row {}: `{}` {}", measured.row, measured.mark, what));
  }

  // A `mark NAME at (…) m` line of the file.
  std::optional<int> line_of_its_own(const Mark& mark) const {
    const std::string begins = "mark " + mark.name + " at ";
    for (int line = 1; line <= source_.line_count(); ++line) {
      const std::string_view text = source_.line_text(line);
      const std::size_t first = text.find_first_not_of(" \t");
      if (first != std::string_view::npos && text.substr(first).starts_with(begins)) return line;
    }
    return std::nullopt;
  }

  std::optional<TextEdit> point_in(int line, Vec2 to) const {
    const auto told = point_told(source_.line_text(line));
    if (!told) return std::nullopt;
    const auto at = [&](std::size_t column) { return source_.line_start(line) + static_cast<std::uint32_t>(column); };
    return TextEdit{{file_, at(told->begin), at(told->end)}, point_text(to)};
  }

  TextEdit line_below(const Mark& mark, int line, Vec2 to) const {
    const std::string_view text = source_.line_text(line);
    const std::string indent(text.substr(0, std::min(text.find_first_not_of(" \t"), text.size())));
    const std::string words = indent + "mark " + mark.name + " at " + point_text(to);
    if (line < source_.line_count()) {
      const std::uint32_t at = source_.line_start(line + 1);
      return {{file_, at, at}, words + '\n'};
    }
    const auto end = source_.line_start(line) + static_cast<std::uint32_t>(text.size());
    return {{file_, end, end}, '\n' + words};
  }

  std::optional<TextEdit> edit_for(const Mark& mark, Vec2 to) const {
    if (const auto own = line_of_its_own(mark)) return point_in(*own, to);
    const int line = source_.position(mark.said_at.begin).line;
    if (mark.area.empty())
      if (auto edit = point_in(line, to)) return edit;
    if (person_at(plan_, mark.person, mark.reached).seat.known()) return std::nullopt;
    return line_below(mark, line, to);
  }

  const Plan& plan_;
  const SourceFile& source_;
  std::int32_t file_;
  Pinning pinning_;
};

// How far the marks would move on average, as measured and with both figures exchanged.
bool look_exchanged(const Plan& plan, const std::vector<MeasuredMark>& measured) {
  double as_told = 0, turned = 0;
  for (const MeasuredMark& one : measured) {
    const Vec2 was = std::ranges::find(plan.marks, one.mark, &Mark::name)->at;
    as_told += length(one.at - was);
    turned += length(exchanged(plan, one.at) - was);
  }
  return as_told > suspicious * static_cast<double>(measured.size()) && turned < as_told / 4;
}

}  // namespace

Pinning pin(const Plan& plan, const SourceSet& sources, std::int32_t file, const std::vector<MeasuredMark>& measured) {
  if (look_exchanged(plan, measured)) {
    Pinning refused;
    refused.troubles.emplace_back("the two figures of each mark look exchanged: put them under each other's heading");
    return refused;
  }
  Pinner pinner(plan, sources, file);
  for (const MeasuredMark& one : measured) pinner.add(one);
  Pinning pinning = pinner.take();
  for (std::size_t i = 0; i < pinning.edits.size(); ++i)
    for (std::size_t j = i + 1; j < pinning.edits.size(); ++j) {
      const Span one = pinning.edits[i].where, other = pinning.edits[j].where;
      if (one.begin < other.end && other.begin < one.end)
        pinning.troubles.push_back("`" + pinning.moved[i].mark + "` and `" + pinning.moved[j].mark +
                                   "` are told by one point of the text; write a line for each");
    }
  return pinning;
}

std::vector<std::string> missed(const Plan& played, const std::vector<MovedMark>& moved) {
  std::vector<std::string> sentences;
  for (const MovedMark& one : moved) {
    const auto mark = std::ranges::find(played.marks, one.mark, &Mark::name);
    if (mark == played.marks.end() || length(mark->at - one.now) >= worth_moving)
      sentences.push_back("`" + one.mark + "` does not come to " + point_text(one.now) +
                          ", whatever line says so; change the text by hand");
  }
  return sentences;
}

}  // namespace lensward
