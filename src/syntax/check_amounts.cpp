#include "syntax/check_amounts.h"

#include <algorithm>
#include <map>

#include "syntax/broken.h"
#include "syntax/units.h"

namespace lensward {
namespace {

constexpr std::size_t most_digits = 9;
constexpr std::size_t most_decimals = 6;

// The unit a writer most likely left out, by the node the number stands in; empty if that node does not tell.
std::string_view likely_unit(const NodeView& node) {
  switch (node.kind()) {
    case NodeKind::pause:
    case NodeKind::settle:
    case NodeKind::length:
    case NodeKind::lasts:
    case NodeKind::cue_after:
    case NodeKind::cue_before:
    case NodeKind::cue_into:
    case NodeKind::cue_from_top:
      return "s";
    case NodeKind::later:
      return "min";
    case NodeKind::weigh:
      return "points";
    case NodeKind::with_lens:
    case NodeKind::dims:
      return node.text().starts_with("measures") ? "m" : "mm";
    case NodeKind::off_lens:
      return "deg";
    case NodeKind::gives:
      return "lux";
    case NodeKind::measure: {
      static const std::map<std::string_view, std::string_view> units = {
          {"pan", "deg"},   {"tilt", "deg"}, {"roll", "deg"},         {"turned", "deg"},   {"beam", "deg"},
          {"level", "%"},   {"cuts", "%"},   {"headroom", "%"},       {"dimmed", "stops"}, {"face", "stops"},
          {"colour", "K"},  {"color", "K"},  {"speaks", "words/min"}, {"pace", "m/s"},     {"margin", "points"},
          {"weighs", "kg"}, {"focal", "mm"}, {"draws", "W"}};
      const auto word = node.child(NodeKind::measure_word);
      const auto unit = word ? units.find(word->text()) : units.end();
      return unit == units.end() ? "m" : unit->second;
    }
    case NodeKind::room:
    case NodeKind::coordinates:
    case NodeKind::clause:
      return "m";
    default:
      return {};
  }
}

Finding missing_unit(const NodeView& quantity, std::string_view unit) {
  const std::string with_unit = std::string(quantity.text()) + (unit == "%" ? "" : " ") + std::string(unit);
  Finding finding = reading_error("unit.missing", quantity.span(), in_ticks(quantity.text()) + " has no unit",
                                  "write " + in_ticks(with_unit));
  finding.repairs.push_back({Repair::Kind::choice, "write " + in_ticks(with_unit), {{quantity.span(), with_unit}}});
  return finding;
}

// (3, 2) without any unit
bool lacks_unit(const std::vector<NodeView>& coordinates) {
  return std::ranges::all_of(coordinates, [](const NodeView& each) {
    return each.kind() == NodeKind::quantity && !each.child(NodeKind::unit);
  });
}

bool is_sensitivity(const NodeView& set_default) {
  const auto key = set_default.child(NodeKind::key);
  return key && key->text() == "sensitivity";
}

std::optional<Finding> check_digits(const NodeView& number) {
  const std::string_view text = number.text();
  const std::size_t point = text.find('.');
  const std::size_t decimals = point == std::string_view::npos ? 0 : text.size() - point - 1;
  const auto digits =
      static_cast<std::size_t>(std::ranges::count_if(text, [](char c) { return c >= '0' && c <= '9'; }));
  if (digits - decimals <= most_digits && decimals <= most_decimals) return std::nullopt;
  return reading_error("unit.out-of-range", number.span(),
                       in_ticks(text) + " has more digits than a number may have: 9, and 6 after the point",
                       "shorten it");
}

std::optional<Finding> check_below(const NodeView& node, std::string_view unit) {
  const std::string_view told = likely_unit(node);
  if (!told.empty()) unit = told;
  if (node.kind() == NodeKind::number) return check_digits(node);
  const std::vector<NodeView> children = node.children();
  if (node.kind() == NodeKind::coordinates && lacks_unit(children)) {
    return missing_unit(node, "m");
  }
  const bool counted =
      node.kind() == NodeKind::measure && (node.text().starts_with("seats") || node.text().starts_with("circuit"));
  // Film and sensors are so many ISO, which is no unit; how much a setting may be is known to the plan.
  if (node.kind() == NodeKind::set_default && is_sensitivity(node)) return std::nullopt;
  if (node.kind() == NodeKind::quantity && children.size() == 1) return missing_unit(node, unit);
  if (node.kind() == NodeKind::quantity && children.size() == 4 &&
      lesser_units_in(children[1].text(), children[3].text()) == 0) {
    return reading_error(
        "unit.wrong-type", node.span(),
        in_ticks(children[1].text()) + " and " + in_ticks(children[3].text()) + " are not written together",
        "write one unit, or two such as `5 ft 7 in`");
  }
  for (const NodeView& child : children) {
    if (counted && child.kind() == NodeKind::amount) continue;
    if (auto finding = check_below(child, unit)) return finding;
  }
  return std::nullopt;
}

}  // namespace

std::optional<Finding> check_amounts(const NodeView& line) { return check_below(line, "m"); }

}  // namespace lensward
