#include "live/charts.h"

#include <fmt/core.h>

#include <vector>

#include "base/quantity_text.h"
#include "export/export.h"
#include "export/markup.h"
#include "live/page_parts.h"
#include "pages/chart.h"
#include "pages/paper.h"
#include "pages/tally_figure.h"
#include "pages/words.h"

namespace lensward {
namespace {

constexpr double tally_width = 86;  // mm

struct Chart {
  Vec2 low, size;  // the part of the paper that is drawn on
  std::string words;
  std::vector<Item> items;
};

bool is_to_be_told(const Verdict& verdict) {
  return verdict.result == Verdict::Result::fails || verdict.result == Verdict::Result::close;
}

std::vector<Chart> tallies_of(const Results& results) {
  std::vector<Chart> tallies;
  for (int beat = 0; beat < static_cast<int>(results.plan.beats.size()); ++beat)
    for (const Verdict* verdict : verdicts_of(results, beat)) {
      if (!is_to_be_told(*verdict)) continue;
      Block block = tally_figure(results, *verdict, tally_width);
      if (block.items.empty()) continue;
      const std::string name = "`" + results.plan.beats[static_cast<std::size_t>(beat)].name + "`: ";
      tallies.push_back(
          {{}, {tally_width, block.height + 1}, name + instead_words(results, *verdict), std::move(block.items)});
    }
  return tallies;
}

std::string svg_of(const Chart& chart, const std::string& drawing) {
  return fmt::format("<svg viewBox=\"{} {} {} {}\" role=\"img\" aria-label=\"{}\">{}</svg>", number(chart.low.x, 1),
                     number(chart.low.y, 1), number(chart.size.x, 1), number(chart.size.y, 1), escaped(chart.words),
                     drawing);
}

}  // namespace

std::string charts_html(const Results& results) {
  if (results.attention.samples.empty()) return {};
  std::vector<Sheet> sheets = lay_out_chart(results);
  if (sheets.empty()) return {};
  std::vector<Chart> charts = tallies_of(results);
  charts.insert(charts.begin(), {page_low, page_high - page_low, "Who has the eye over the whole scene",
                                 std::move(sheets.front().items)});
  std::vector<std::vector<Item>> drawings;
  drawings.reserve(charts.size());
  for (Chart& chart : charts) drawings.push_back(std::move(chart.items));
  const SvgParts parts = to_svg_parts(drawings, "c-");
  std::string html =
      "<section class=\"charts\" id=\"charts\" aria-labelledby=\"charts-name\"><h2 id=\"charts-name\">Charts of the "
      "eye</h2>\n<svg class=\"shared\" width=\"0\" height=\"0\" aria-hidden=\"true\" focusable=\"false\"><defs>" +
      parts.definitions + "</defs></svg>\n" + svg_of(charts.front(), parts.drawings.front()) +
      "\n<div class=\"tallies\">\n";
  for (std::size_t i = 1; i < charts.size(); ++i)
    html += "<figure><figcaption>" + with_names(charts[i].words) + "</figcaption>" +
            svg_of(charts[i], parts.drawings[i]) + "</figure>\n";
  return html + "</div></section>\n";
}

}  // namespace lensward
