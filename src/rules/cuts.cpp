#include "rules/cuts.h"

#include <algorithm>

namespace lensward {

std::vector<CutSeen> cuts_of(const Checked& checked) {
  std::vector<CutSeen> cuts;
  const std::vector<View>& views = checked.attention.views;
  for (const CutTo& told : checked.plan.cuts) {
    const auto after = std::ranges::lower_bound(views, told.at, {}, &View::moment);
    if (told.at.count <= 0 || after == views.begin() || after == views.end()) continue;
    const auto before = after - 1;
    if (before->camera == after->camera || !before->camera.known()) continue;
    cuts.push_back({&*before, &*after, told.said_at, beat_at(checked.plan, told.at)});
  }
  return cuts;
}

bool is_plain(const PersonSeen& seen) {
  constexpr Share enough{0.5};
  return seen.in_front && seen.head_visible > enough;
}

}  // namespace lensward
