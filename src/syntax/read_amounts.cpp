// Names, quoted words and amounts.
#include <algorithm>
#include <array>
#include <charconv>
#include <iterator>
#include <system_error>
#include <utility>

#include "syntax/read_parts.h"
#include "syntax/spelling.h"
#include "syntax/units.h"

namespace lensward {
namespace {

constexpr std::string_view counts[] = {"one",   "two",   "three", "four", "five",   "six",
                                       "seven", "eight", "nine",  "ten",  "eleven", "twelve"};
constexpr std::string_view long_minus = "\xE2\x88\x92";

double read_count(const NodeView& count) {
  return static_cast<double>(std::distance(std::begin(counts), std::ranges::find(counts, count.text())) + 1);
}

double read_number(const NodeView& number) {
  std::string_view digits = number.text();
  const bool negative = digits.starts_with('-') || digits.starts_with(long_minus);
  if (digits.starts_with(long_minus)) digits.remove_prefix(long_minus.size());
  if (digits.starts_with('-') || digits.starts_with('+')) digits.remove_prefix(1);
  return negative ? -read_digits(digits) : read_digits(digits);
}

// A `range` or `quantity` begins with a number and perhaps its unit.
Figure read_first_figure(const NodeView& node) {
  const std::vector<NodeView> parts = node.children();
  Figure figure = read_figure(parts[0]);
  if (parts.size() > 1 && parts[1].kind() == NodeKind::unit) {
    figure.unit = parts[1].text();
    figure.span.end = parts[1].span().end;
  }
  return figure;
}

}  // namespace

double read_digits(std::string_view digits) {
  double value = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

Figure read_figure(const NodeView& number) { return {read_number(number), "", number.span()}; }

Name read_name(const NodeView& node) {
  Span span = node.span();
  if (node.kind() == NodeKind::anchor) {
    ++span.begin;
    --span.end;
  }
  if (node.kind() == NodeKind::owner) {
    // `'s`, or ’s in three bytes and one.
    span.end -= node.text().ends_with("'s") ? 2 : 4;
  }
  return {spelled_name(node.file_bytes().substr(span.begin, span.end - span.begin)), span};
}

std::vector<Name> read_names(const NodeView& node) {
  std::vector<Name> names;
  for (const NodeView& child : node.children()) {
    if (child.kind() == NodeKind::path || child.kind() == NodeKind::bare_name) names.push_back(read_name(child));
    if (child.kind() == NodeKind::names) std::ranges::move(read_names(child), std::back_inserter(names));
  }
  return names;
}

Quoted read_quoted(const NodeView& text) {
  Span span = text.span();
  const std::string_view written = text.text();
  // " is one byte, « and » two, “ ” 「 」 three; both ends are alike.
  const std::uint32_t mark = written.starts_with('"') ? 1 : written.starts_with("«") ? 2 : 3;
  const std::size_t both = mark + mark;
  span.begin += mark;
  span.end -= mark;
  return {std::string(written.substr(mark, written.size() - both)), span};
}

Figure read_quantity(const NodeView& quantity) {
  const std::vector<NodeView> parts = quantity.children();
  if (parts[0].kind() == NodeKind::count) {
    return {read_count(parts[0]), std::string(parts[1].text()), quantity.span()};
  }
  Figure figure = read_first_figure(quantity);
  if (parts.size() == 4) {
    const double lesser = read_number(parts[2]);
    const double in_lesser = figure.number * lesser_units_in(parts[1].text(), parts[3].text());
    const bool negative = parts[0].text().starts_with('-') || parts[0].text().starts_with(long_minus);
    figure.number = negative ? in_lesser - lesser : in_lesser + lesser;
    figure.unit = parts[3].text();
  }
  figure.span = quantity.span();
  return figure;
}

Amount read_amount(const NodeView& amount) {
  const NodeView form = amount.kind() == NodeKind::amount ? amount.only() : amount;
  Amount result;
  result.span = form.span();
  if (form.kind() == NodeKind::range) {
    result.form = Amount::Form::range;
    result.first = read_first_figure(form);
    Figure second = read_quantity(form.the(NodeKind::quantity));
    // `2 to 3 s`: the first takes the unit of the second.
    if (result.first.unit.empty()) result.first.unit = second.unit;
    result.second = std::move(second);
    return result;
  }
  if (form.kind() == NodeKind::about) result.form = Amount::Form::about;
  if (form.kind() == NodeKind::or_more) {
    result.form = form.text().ends_with("more") ? Amount::Form::or_more : Amount::Form::or_less;
  }
  result.first = read_quantity(form.kind() == NodeKind::quantity ? form : form.the(NodeKind::quantity));
  return result;
}

ShotSize read_shot_size(const NodeView& shot_size) { return word_of<ShotSize>(shot_size.words()); }
Compass read_compass(const NodeView& compass) { return word_of<Compass>(compass.text()); }
Side read_side(const NodeView& side) { return word_of<Side>(side.text()); }

}  // namespace lensward
