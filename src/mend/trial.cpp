#include "mend/trial.h"

#include "mend/edited_text.h"

namespace lensward {
namespace {

constexpr std::size_t pairs_of = 7;  // the best of the single lines that do not do it alone

// "camera A focuses" and "camera focuses" are of a kind.
std::string with_no_camera_named(std::string words) {
  constexpr std::string_view camera = "camera ";
  if (!words.starts_with(camera)) return words;
  const std::size_t verb = words.rfind(' ') + 1;
  return words.erase(camera.size(), verb - camera.size());
}

}  // namespace

int rank_of(Verdict::Result result) {
  switch (result) {
    case Verdict::Result::holds:
      return 2;
    case Verdict::Result::close:
      return 1;
    case Verdict::Result::fails:
    case Verdict::Result::not_judged:
      return 0;
  }
  return 0;
}

Points lead_of(const Verdict& verdict) { return verdict.favoured_points - verdict.rival_points; }

Trial joined(const Trial& one, const Trial& other) {
  Trial pair{one.edits, one.offers, one.lines};
  pair.edits.insert(pair.edits.end(), other.edits.begin(), other.edits.end());
  pair.offers.insert(pair.offers.end(), other.offers.begin(), other.offers.end());
  pair.lines.insert(pair.lines.end(), other.lines.begin(), other.lines.end());
  return pair;
}

std::vector<Trial> pairs_from(const std::vector<Trial>& singles) {
  std::vector<Trial> best;
  for (const Trial& one : singles) {
    const auto same = [&](const Trial& other) { return other.offers.front().line == one.offers.front().line; };
    const bool known = std::any_of(best.begin(), best.end(), same);
    if (!known && !one.harms && !one.mends && Points{0.5} < one.gain) best.push_back(one);
  }
  std::stable_sort(best.begin(), best.end(), [](const Trial& a, const Trial& b) { return b.gain < a.gain; });
  best.resize(std::min(best.size(), pairs_of));
  std::vector<Trial> pairs;
  for (std::size_t i = 0; i < best.size(); ++i) {
    for (std::size_t j = i + 1; j < best.size(); ++j) {
      if (best[i].offers.front().about == best[j].offers.front().about) continue;
      if (!go_together(best[i].edits, best[j].edits)) continue;
      pairs.push_back(joined(best[i], best[j]));
    }
  }
  return pairs;
}

std::string lines_of(const Trial& change) {
  std::string lines;
  for (const Offer& offer : change.offers) lines += offer.line + '\n';
  return lines;
}

std::string kind_of(const Trial& change) {
  std::string kind;
  for (const Offer& offer : change.offers) {
    const std::size_t verb = offer.about.size() + 1;
    const std::string who_does = offer.line.substr(0, offer.line.find(' ', verb));
    kind += (offer.edit ? offer.about + " stands" : with_no_camera_named(who_does)) + ';';
  }
  return kind;
}

}  // namespace lensward
