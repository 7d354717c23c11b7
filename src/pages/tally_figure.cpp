#include "pages/tally_figure.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "base/quantity_text.h"
#include "emphasis/weigh.h"
#include "pages/draw.h"
#include "pages/paper.h"
#include "pages/words.h"

namespace lensward {
namespace {

constexpr double row_height = 3.7, middle_width = 20, number_width = 5;
constexpr std::size_t most_rows = 6;

struct CueRow {
  CueKind cue;
  double favoured = 0, rival = 0;
};

// Cues in which either has at least a point; those that part the two most come first.
std::vector<CueRow> rows_of(const Standing& favoured, const Standing* rival) {
  std::vector<CueRow> rows;
  for (int cue = 0; cue < cue_count; ++cue) {
    const auto index = static_cast<std::size_t>(cue);
    const auto points = [index](const Standing* standing) {
      return standing == nullptr ? 0.0 : std::round(standing->contribution[index].value);
    };
    const CueRow row{static_cast<CueKind>(cue), points(&favoured), points(rival)};
    if (row.favoured >= 1 || row.rival >= 1) rows.push_back(row);
  }
  std::stable_sort(rows.begin(), rows.end(), [](const CueRow& a, const CueRow& b) {
    return std::fabs(a.favoured - a.rival) > std::fabs(b.favoured - b.rival);
  });
  if (rows.size() > most_rows) rows.resize(most_rows);
  return rows;
}

void draw_row(const CueRow& cue, double y, double width, double points_a_mm, Block& block) {
  const double left = (width - middle_width) / 2, right = left + middle_width;
  const double baseline = y + 2.6;
  block.items.push_back(
      words({width / 2, baseline}, name_of(cue.cue), Face::sans, type_size::small, Ink::black, Text::Anchor::middle));
  const double own = cue.favoured / points_a_mm, other = cue.rival / points_a_mm;
  if (own > 0) {
    block.items.push_back(shape(rectangle({right, y + 0.7}, {own, 2.3}), flat(Ink::accent), no_stroke()));
    block.items.push_back(words({right + own + 0.8, baseline}, number(cue.favoured, 0), Face::sans, type_size::small));
  }
  if (other > 0) {
    block.items.push_back(
        shape(rectangle({left - other, y + 0.7}, {other, 2.3}), hatched(Ink::dark, 0.6), pen(Ink::dark, hairline)));
    block.items.push_back(words({left - other - 0.8, baseline}, number(cue.rival, 0), Face::sans, type_size::small,
                                Ink::black, Text::Anchor::right));
  }
}

std::string with_points(const std::string& name, Points points, double width, Face face) {
  const std::string count = " " + text_of(points);
  return shortened(name, face, type_size::body, width - width_of(count, face, type_size::body)) + count;
}

}  // namespace

std::string instead_words(const Results& results, const Verdict& verdict) {
  std::string plainly = outcome_words(results.plan, verdict);
  const bool short_of = verdict.result == Verdict::Result::fails || verdict.result == Verdict::Result::close;
  if (!short_of || !about_who_leads(results.plan, verdict) || results.attention.samples.empty()) return plainly;
  const Sample& sample = sample_at(results.attention, verdict.decided);
  const Standing* favoured = standing_of(sample, verdict.favoured);
  const Standing* rival = standing_of(sample, verdict.rival);
  if (rival == nullptr) return plainly;
  const auto ahead = std::lround(verdict.rival_points.value - verdict.favoured_points.value);
  if (ahead < 1) return plainly;
  std::string text =
      fmt::format("{} {} at {}, by {}", called(results.plan, verdict.rival),
                  sample.holder == verdict.rival ? "has the eye instead" : "draws more", clock_text(verdict.decided),
                  counted(static_cast<std::size_t>(ahead), "point", "points"));
  if (favoured == nullptr) return text + "; " + called(results.plan, verdict.favoured) + " is not seen";
  constexpr std::size_t most_reasons = 2;
  std::size_t told = 0;
  for (const CueRow& cue : rows_of(*favoured, rival)) {
    if (told == most_reasons) break;
    if (cue.rival <= cue.favoured) continue;
    text += fmt::format("{} {} {} to {}", told == 0 ? ":" : ",", name_of(cue.cue), number(cue.rival, 0),
                        number(cue.favoured, 0));
    ++told;
  }
  return text;
}

Block tally_figure(const Results& results, const Verdict& verdict, double width) {
  Block block;
  if (results.attention.samples.empty() || verdict.favoured.kind == Target::Kind::nothing) return block;
  const Sample& sample = sample_at(results.attention, verdict.decided);
  const Standing* favoured = standing_of(sample, verdict.favoured);
  const Standing* rival = standing_of(sample, verdict.rival);
  if (favoured == nullptr) return block;
  const std::vector<CueRow> rows = rows_of(*favoured, rival);
  if (rows.empty()) return block;
  block.before = 1.4;
  const double half = width / 2 - 2;
  const std::string own_name = called(results.plan, verdict.favoured), rival_name = called(results.plan, verdict.rival);
  double y = type_size::body * 0.8;
  block.items.push_back(words({width, y}, with_points(own_name, favoured->points, half, Face::sans_bold),
                              Face::sans_bold, type_size::body, Ink::accent, Text::Anchor::right));
  if (rival != nullptr)
    block.items.push_back(words({0, y}, with_points(rival_name, rival->points, half, Face::sans), Face::sans,
                                type_size::body, Ink::black));
  y += 1.2;
  double most = 10;
  for (const CueRow& row : rows) most = std::max({most, row.favoured, row.rival});
  const double points_a_mm = most / ((width - middle_width) / 2 - number_width);
  for (const CueRow& row : rows) {
    draw_row(row, y, width, points_a_mm, block);
    y += row_height;
  }
  const std::string when = "cues in points at " + clock_text(verdict.decided);
  block.items.push_back(
      words({width / 2, y + 2.6}, when, Face::sans_italic, type_size::small, Ink::dark, Text::Anchor::middle));
  block.height = y + 3.6;
  return block;
}

}  // namespace lensward
